#include "plan_place.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cstddef>

namespace tenwinters {
namespace {

using Rows = std::array<std::uint64_t, Grid::kSide>;  // bit x of row y: a centre may lie there

int height_class(const Crown& crown) { return crown.height_cm / 50; }

// The largest whole number whose square is not above n; n below 10^12.
std::int64_t whole_root(std::int64_t n) {
  std::int64_t low = 0, high = 1'000'000;
  while (low < high) {
    const std::int64_t middle = (low + high + 1) / 2;
    if (middle * middle <= n) low = middle;
    else high = middle - 1;
  }
  return low;
}

std::int64_t divide_down(std::int64_t a, std::int64_t b) { return a >= 0 ? a / b : -((-a + b - 1) / b); }
std::int64_t divide_up(std::int64_t a, std::int64_t b) { return -divide_down(-a, b); }

// Bits first..last, as far as they are on the grid.
std::uint64_t span_mask(std::int64_t first, std::int64_t last) {
  first = std::max<std::int64_t>(first, 0);
  last = std::min<std::int64_t>(last, Grid::kSide - 1);
  if (first > last) return 0;
  const std::uint64_t upto = last == 63 ? ~std::uint64_t{0} : (std::uint64_t{1} << (last + 1)) - 1;
  return upto & ~((std::uint64_t{1} << first) - 1);
}

}  // namespace

bool shaded_by(const Crown& taller, int taller_x, int taller_y, const Crown& other, int x, int y, bool sun_from_north) {
  if (height_class(taller) <= height_class(other)) return false;
  const int behind = sun_from_north ? taller_y - y : y - taller_y;
  const int aside = x > taller_x ? x - taller_x : taller_x - x;
  return behind > 0 && 2 * behind < 3 * taller.height_cm && aside < taller.radius_cm + other.radius_cm;
}

Grid::Grid(const Plot& plot)
    : west_(plot.west_cm), south_(plot.south_cm), wide_(plot.width_cm - plot.west_cm - plot.east_cm),
      deep_(plot.length_cm - plot.south_cm - plot.north_cm), sun_from_north_(plot.sun_from_north) {
  // Quarter metres in a small yard, coarser in a large one, where nobody plants to the hand's breadth.
  constexpr int kMostPoints = 1024;
  while (wide_ / step_ >= kSide || deep_ / step_ >= kSide || (wide_ / step_ + 1) * (deep_ / step_ + 1) > kMostPoints) step_ *= 2;
  columns_ = wide_ < 0 ? 0 : wide_ / step_ + 1;
  rows_ = deep_ < 0 ? 0 : deep_ / step_ + 1;
}

// Every kind of crown (radius and height alike) keeps the points still open to it; placing a tree closes
// points. A branch ends when a kind that is still to come has no point left, or when too few trees fit:
// points are covered by boxes smaller across than the least distance between two centres, so that no box
// can hold two of them. Fewer boxes than trees to come: impossible.
class GridSearch {
 public:
  GridSearch(const Grid& grid, const std::vector<Crown>& crowns, Sun sun, int gap_cm, std::int64_t& steps,
             std::uint64_t shade_borne)
      : grid_(grid), crowns_(crowns), sun_(sun), gap_(gap_cm), steps_(steps),
        shade_borne_(sun == Sun::ignored ? 0 : shade_borne), places_(crowns.size()) {
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < crowns.size(); ++i) {
      if (crowns[i].fixed) places_[i] = {crowns[i].x_cm - grid.west_, crowns[i].y_cm - grid.south_};
      else order.push_back(i);
    }
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
      if (crowns[a].radius_cm != crowns[b].radius_cm) return crowns[a].radius_cm > crowns[b].radius_cm;
      if (rank(a) != rank(b)) return rank(a) > rank(b);
      return !bears_shade(a) && bears_shade(b);
    });
    for (std::size_t i : order) {
      if (kinds_.empty() || crowns[kinds_.back().left.front()].radius_cm != crowns[i].radius_cm ||
          rank(kinds_.back().left.front()) != rank(i) || bears_shade(kinds_.back().left.front()) != bears_shade(i))
        kinds_.push_back({crowns[i].radius_cm, {}, {}, {}});
      kinds_.back().left.push_back(i);
    }
    for (Kind& a : kinds_) {
      for (const Kind& b : kinds_) a.reach.push_back(reach(a.radius + b.radius + gap_));
      a.boxes = box_shapes(2 * a.radius + gap_);
    }
    movable_ = to_come_ = order.size();
  }

  Placing run() {
    if (kinds_.empty()) return Placing::found;
    std::vector<Rows> open(kinds_.size());
    for (std::size_t k = 0; k < kinds_.size(); ++k) {
      const int radius = kinds_[k].radius;
      open[k].fill(0);
      const std::uint64_t columns = span_mask(divide_up(radius, grid_.step_), divide_down(grid_.wide_ - radius, grid_.step_));
      for (int y = 0; y < grid_.rows_; ++y)
        if (y * grid_.step_ >= radius && y * grid_.step_ <= grid_.deep_ - radius) open[k][at(y)] = columns;
    }
    bool any_fixed = false;
    for (std::size_t i = 0; i < crowns_.size(); ++i) {
      if (!crowns_[i].fixed) continue;
      any_fixed = true;
      for (std::size_t k = 0; k < kinds_.size(); ++k) {
        const std::int64_t apart = crowns_[i].radius_cm + kinds_[k].radius + gap_;
        close_around(open[k], places_[i].first, places_[i].second, apart);
        if (sun_ != Sun::ignored) close_shade(open[k], i, kinds_[k], Sun::not_in_shade);
      }
    }
    if (!enough(open)) return Placing::impossible;
    if (!any_fixed && sun_ == Sun::ignored) {
      first_columns_ = half_of_mirror(grid_.wide_);
      first_rows_ = half_of_mirror(grid_.deep_);
    }
    return search(open);
  }

  [[nodiscard]] std::vector<std::pair<int, int>> places() const {
    std::vector<std::pair<int, int>> out = places_;
    for (auto& [x, y] : out) {
      x += grid_.west_;
      y += grid_.south_;
    }
    return out;
  }

 private:
  struct Box { int wide, high; };
  struct Kind {
    int radius;
    std::vector<std::size_t> left;           // crowns of this kind still to be placed
    std::vector<std::vector<int>> reach;     // by kind: see reach()
    std::vector<Box> boxes;
  };

  static std::size_t at(int y) { return static_cast<std::size_t>(y); }
  [[nodiscard]] int rank(std::size_t crown) const { return sun_ == Sun::ignored ? 0 : height_class(crowns_[crown]); }

  [[nodiscard]] bool bears_shade(std::size_t crown) const { return (shade_borne_ >> crown & 1) != 0; }

  // How many columns to each side are too near, by rows apart.
  [[nodiscard]] std::vector<int> reach(std::int64_t apart) const {
    std::vector<int> out;
    for (std::int64_t dy = 0; dy < apart; dy += grid_.step_)
      out.push_back(static_cast<int>(whole_root(apart * apart - dy * dy - 1) / grid_.step_));
    return out;
  }
  // Flat, square-like and tall boxes, in points, less than `apart` across.
  [[nodiscard]] std::vector<Box> box_shapes(std::int64_t apart) const {
    std::vector<Box> out;
    const std::int64_t limit = apart * apart - 1, step = grid_.step_;
    for (int part = 1; part <= 3; ++part) {
      const std::int64_t across = whole_root(limit * part / 4) / step;
      const std::int64_t along = whole_root(limit - across * across * step * step) / step;
      out.push_back({static_cast<int>(across) + 1, static_cast<int>(along) + 1});
    }
    return out;
  }

  // For a centre that need not lie on the grid.
  void close_around(Rows& open, int x, int y, std::int64_t apart) const {
    for (int row = 0; row < grid_.rows_; ++row) {
      const std::int64_t dy = row * grid_.step_ - y;
      if (dy * dy >= apart * apart) continue;
      const std::int64_t half = whole_root(apart * apart - dy * dy - 1);
      open[at(row)] &= ~span_mask(divide_up(x - half, grid_.step_), divide_down(x + half, grid_.step_));
    }
  }
  void close_near(Rows& open, int x, int y, const std::vector<int>& reach) const {
    for (std::size_t dy = 0; dy < reach.size(); ++dy) {
      const std::uint64_t gone = ~span_mask(x - reach[dy], x + reach[dy]);
      const int up = y + static_cast<int>(dy), down = y - static_cast<int>(dy);
      if (up < grid_.rows_) open[at(up)] &= gone;
      if (down >= 0) open[at(down)] &= gone;
    }
  }

  // Closes what shade (given or taken) between a placed crown and a kind forbids.
  void close_shade(Rows& open, std::size_t placed, const Kind& kind, Sun sun) const {
    const Crown& here = crowns_[placed];
    const Crown& other = crowns_[kind.left.front()];
    if (height_class(here) == height_class(other)) return;
    const auto [x, y] = places_[placed];
    const bool placed_taller = height_class(here) > height_class(other);
    if (bears_shade(placed_taller ? kind.left.front() : placed)) return;
    const int aside = here.radius_cm + other.radius_cm - 1;
    const std::uint64_t strip = span_mask(divide_up(x - aside, grid_.step_), divide_down(x + aside, grid_.step_));
    const int length = placed_taller ? here.height_cm : other.height_cm;
    // Row by row behind the placed one if it is the taller, seen from the sun, or before it; none beyond the shade.
    const bool up = grid_.sun_from_north_ != placed_taller;
    const auto close = [&](int row, int behind) {
      if (sun == Sun::by_height) open[at(row)] = 0;
      else if (2 * behind < 3 * length) open[at(row)] &= ~strip;
      else return false;
      return true;
    };
    if (up) {
      for (int row = std::max(0, static_cast<int>(divide_down(y, grid_.step_)) + 1); row < grid_.rows_; ++row)
        if (!close(row, row * grid_.step_ - y)) return;
    } else {
      for (int row = std::min(grid_.rows_, static_cast<int>(divide_up(y, grid_.step_))) - 1; row >= 0; --row)
        if (!close(row, y - row * grid_.step_)) return;
    }
  }

  // Without fixed trees and shade a plot looks the same in a mirror, so the first tree (the southernmost of
  // its kind, and the westernmost of these) may be taken to stand in the south-west quarter. Not if the grid
  // itself is lopsided.
  [[nodiscard]] int half_of_mirror(int size) const {
    int points = -1;
    for (const Kind& kind : kinds_) {
      const auto sum = static_cast<int>(divide_up(kind.radius, grid_.step_) + divide_down(size - kind.radius, grid_.step_));
      if (points >= 0 && points != sum) return Grid::kSide;
      points = sum;
    }
    return points / 2;
  }

  // All arrangements, the widest crown first, then the next. Trees of one kind come in order of points.
  Placing search(const std::vector<Rows>& open) {
    if (to_come_ == 0) return Placing::found;
    const auto k = static_cast<std::size_t>(
        std::find_if(kinds_.begin(), kinds_.end(), [](const Kind& kind) { return !kind.left.empty(); }) - kinds_.begin());
    Kind& kind = kinds_[k];
    const bool first = to_come_ == movable_;
    std::vector<Rows> next(kinds_.size());
    for (int y = 0; y < (first ? std::min(grid_.rows_, first_rows_ + 1) : grid_.rows_); ++y) {
      std::uint64_t points = open[k][at(y)];
      if (first) points &= span_mask(0, first_columns_);
      while (points != 0) {
        const int x = std::countr_zero(points);
        points &= points - 1;
        if (--steps_ < 0) return Placing::undecided;
        const std::size_t crown = kind.left.back();
        kind.left.pop_back();
        --to_come_;
        places_[crown] = {x * grid_.step_, y * grid_.step_};
        bool open_to_all = true;  // those to come
        for (std::size_t other = k; other < kinds_.size() && open_to_all; ++other) {
          if (kinds_[other].left.empty()) continue;
          Rows& points_left = next[other];
          std::copy_n(open[other].begin(), grid_.rows_, points_left.begin());
          close_near(points_left, x, y, kind.reach[other]);
          if (sun_ != Sun::ignored) close_shade(points_left, crown, kinds_[other], sun_);
          if (other == k) {
            for (int row = 0; row < y; ++row) points_left[at(row)] = 0;
            points_left[at(y)] &= ~span_mask(0, x);
          }
          open_to_all = std::any_of(points_left.begin(), points_left.begin() + grid_.rows_, [](std::uint64_t row) { return row != 0; });
        }
        const Placing below = open_to_all && enough(next) ? search(next) : Placing::impossible;
        kind.left.push_back(crown);
        ++to_come_;
        if (below != Placing::impossible) return below;
      }
    }
    return Placing::impossible;
  }

  // Whether the trees to come may find room, by the two tests above. A point open to a wider crown need
  // not be open to a narrower one of another height, hence the union.
  [[nodiscard]] bool enough(const std::vector<Rows>& open) const {
    Rows any{};
    int needed = 0;
    for (std::size_t k = 0; k < kinds_.size(); ++k) {
      const Kind& kind = kinds_[k];
      if (kind.left.empty()) continue;
      needed += static_cast<int>(kind.left.size());
      std::uint64_t some = 0;
      for (std::size_t y = 0; y < at(grid_.rows_); ++y) {
        some |= open[k][y];
        any[y] |= open[k][y];
      }
      if (some == 0) return false;
      if (needed > 1)
        for (const Box& box : kind.boxes)
          if (boxes_up_to(any, box, needed) < needed) return false;
    }
    return true;
  }

  // How many boxes it takes to cover the points, counted no further than `most`.
  [[nodiscard]] int boxes_up_to(const Rows& points, Box box, int most) const {
    int count = 0;
    for (int y = 0; y < grid_.rows_;) {
      if (points[at(y)] == 0) {
        ++y;
        continue;
      }
      std::uint64_t band = 0;
      for (int row = y; row < std::min(y + box.high, grid_.rows_); ++row) band |= points[at(row)];
      while (band != 0) {
        if (++count >= most) return count;
        const int x = std::countr_zero(band);
        band &= ~span_mask(x, x + box.wide - 1);
      }
      y += box.high;
    }
    return count;
  }

  const Grid& grid_;
  const std::vector<Crown>& crowns_;
  Sun sun_;
  int gap_;
  std::int64_t& steps_;
  std::uint64_t shade_borne_;
  std::vector<std::pair<int, int>> places_;  // in centimetres from the free part's south-west corner
  std::vector<Kind> kinds_;                  // widest first
  std::size_t movable_ = 0, to_come_ = 0;
  int first_columns_ = Grid::kSide, first_rows_ = Grid::kSide;
};

Placing Grid::place(const std::vector<Crown>& crowns, Sun sun, int gap_cm, std::int64_t& steps,
                    std::vector<std::pair<int, int>>* places, std::uint64_t shade_borne) const {
  if (columns_ == 0 || rows_ == 0) {
    const bool movable = std::any_of(crowns.begin(), crowns.end(), [](const Crown& c) { return !c.fixed; });
    if (movable) return Placing::impossible;
  }
  GridSearch search(*this, crowns, sun, gap_cm, steps, shade_borne);
  const Placing answer = search.run();
  if (answer == Placing::found && places != nullptr) *places = search.places();
  return answer;
}

std::vector<std::pair<int, int>> Grid::arrange(const std::vector<Crown>& crowns) const {
  constexpr std::int64_t kStepsForBest = 2'000, kStepsForSun = 200'000, kStepsEachShade = 20'000, kStepsForShade = 1'000'000,
                         kStepsForAny = 2'000'000;
  constexpr int kMostGap = 300, kGapStep = 25;
  std::vector<std::pair<int, int>> best;
  Sun sun = Sun::by_height;
  std::uint64_t shade_borne = 0;
  const auto found = [&](Sun wanted, std::int64_t steps, std::uint64_t borne) {
    if (place(crowns, wanted, 0, steps, &best, borne) != Placing::found) return false;
    sun = wanted;
    shade_borne = borne;
    return true;
  };
  const auto in_sun = [&] {
    if (found(Sun::by_height, kStepsForBest, 0) || found(Sun::not_in_shade, kStepsForSun, 0)) return true;
    // Who is in the shade then: as few as may be, those first in the list as far as it is all one.
    const auto count = static_cast<unsigned>(crowns.size());
    std::int64_t left = kStepsForShade;
    for (unsigned shaded = 1; shaded < count; ++shaded) {
      std::uint64_t borne = (std::uint64_t{1} << shaded) - 1;
      while (borne < std::uint64_t{1} << count) {
        if ((left -= kStepsEachShade) < 0) return false;
        if (found(Sun::not_in_shade, kStepsEachShade, borne)) return true;
        const std::uint64_t lowest = borne & (~borne + 1), above = borne + lowest;  // the next set of as many
        borne = above | ((borne ^ above) / lowest >> 2);
      }
    }
    return false;
  };
  if (!in_sun() && !found(Sun::ignored, kStepsForAny, 0)) return {};
  for (int gap = kMostGap; gap > 0; gap -= kGapStep) {
    std::int64_t steps = kStepsForBest;
    if (place(crowns, sun, gap, steps, &best, shade_borne) == Placing::found) break;
  }
  return best;
}

}  // namespace tenwinters
