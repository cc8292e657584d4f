// The replay itself: each winter at each age, the ten years that follow, and the intervals.
#include <algorithm>
#include <cmath>
#include <iterator>

#include "replay.h"
#include "tenwinters/prospect.h"

namespace tenwinters {
namespace {

// The tissues in the order of Tissue, and the roots of a pot.
constexpr std::size_t kLeaf = 0, kWood = 1, kTrunk = 2, kFruit = 3, kBloom = 4, kRoot = kTissueCount;

double share_killed(const Replay& replay, const Replay::Cold& cold, int threshold) {
  const int above = std::min(threshold, kWarmestThreshold) - cold.lowest;
  return above <= 0 ? 0 : static_cast<double>(replay.injuries[cold.injuries + static_cast<std::size_t>(above)]);
}

// What a freeze kills of one stake, with and without the cover.
struct Killed {
  double bare = 0, covered = 0;
  [[nodiscard]] double at(double share_protected) const { return bare + share_protected * (covered - bare); }
};

// A freeze as one planting feels it, apart from the age of the tree.
struct Felt {
  const Replay::Cold* cold;
  int cover;                        // tenths
  std::array<int, 3> threshold;     // leaf, wood, trunk of a mature tree, in the station's air
  int warmest;                      // of the three
  double fruit_share, bloom_share;  // at stake, if the tree bears
  Killed fruit, bloom, root;
  int limit_tree, limit_fruit, limit_bloom, limit_root;  // work is called for at or below, if covered
};
constexpr int kNever = -10000;

// What is over the crown reaches down over the pot; a bank about the trunk does not warm the pot it stands in.
bool covers(const ReplayCase& what, std::size_t stake) {
  return (what.covers >> (stake == kRoot ? kLeaf : stake) & 1) != 0;
}

// Every freeze that could hurt the tree at any age, in the order of the replay.
class Feeling {
 public:
  Feeling(const ReplayCase& what, const Replay& replay)
      : what_(what), replay_(replay), numbers_(replay.numbers[static_cast<std::size_t>(what.lean)]),
        tenderest_(state_shift(numbers_, 1, Health::good, false)),
        reach_(std::max(numbers_.width, numbers_.call_margin + 1)) {
    for (int month = 0; month < 12; ++month) bloom_[static_cast<std::size_t>(month)] = bloom_out(what, month);
    felt_below_ = what.litres > 0 ? numbers_.root : kNever;
    for (int i = 0; i <= kSteps; ++i) {
      const int hardening = i * kStep;
      Row& row = rows_[static_cast<std::size_t>(i)];
      const int stock = at_hardening(what.stock_gain, hardening);
      row.warmest = kNever;
      for (std::size_t k = 0; k < kTissueCount; ++k) {
        row.point[k] = killing_tenths(what.points[k], hardening) - (k <= kTrunk ? stock : 0);
        if (k <= kTrunk) row.warmest = std::max(row.warmest, row.point[k]);
        felt_below_ = std::max(felt_below_, row.point[k] + (k <= kTrunk ? tenderest_ : 0));
      }
    }
    felt_below_ += reach_ + std::max(0, -what.warmer);
  }

  // Nothing as mild as this can be felt.
  [[nodiscard]] int felt_below() const { return felt_below_; }

  // Fills `felt` and says true if the freeze can hurt.
  bool feel(const Replay::Cold& cold, Felt& felt) const {
    const Row& row = rows_[static_cast<std::size_t>(cold.hardening / kStep)];
    const int air = cold.windy ? 0 : what_.warmer;
    const int within = cold.lowest + air - reach_;  // of a killing point that lies warmer than this
    const bool potted = what_.litres > 0;
    const int root = potted ? numbers_.root - pot_shift(numbers_, what_.litres, cold.long_freeze) : kNever;
    felt.fruit_share = row.point[kFruit] > within ? fruit_on_tree(what_, cold.day) : 0;
    felt.bloom_share = row.point[kBloom] > within ? bloom_[cold.month] : 0;
    if (row.warmest + tenderest_ <= within && !(felt.fruit_share > 0) && !(felt.bloom_share > 0) && root <= within)
      return false;

    felt.cold = &cold;
    felt.cover = cold.windy ? what_.cover_windy : what_.cover_still;
    felt.warmest = row.warmest - air + numbers_.width;
    felt.limit_tree = felt.limit_root = kNever;
    for (std::size_t k = kLeaf; k <= kTrunk; ++k) {
      felt.threshold[k] = row.point[k] - air + numbers_.width;
      if (covers(what_, k)) felt.limit_tree = std::max(felt.limit_tree, row.point[k] - air + numbers_.call_margin);
    }
    if (felt.fruit_share > 0) felt.fruit = settle(cold, kFruit, row.point[kFruit] - air, felt.cover, felt.limit_fruit);
    if (felt.bloom_share > 0) felt.bloom = settle(cold, kBloom, row.point[kBloom] - air, felt.cover, felt.limit_bloom);
    felt.root = {};
    if (potted) felt.root = settle(cold, kRoot, root - air, felt.cover, felt.limit_root);
    return true;
  }

 private:
  Killed settle(const Replay::Cold& cold, std::size_t stake, int point, int cover, int& limit) const {
    Killed killed;
    killed.bare = killed.covered = share_killed(replay_, cold, point + numbers_.width);
    limit = kNever;
    if (!covers(what_, stake)) return killed;
    killed.covered = share_killed(replay_, cold, point + numbers_.width - cover);
    limit = point + numbers_.call_margin;
    return killed;
  }

  static constexpr int kStep = 10, kSteps = 100;  // hardening in permille, by hundredths
  struct Row {
    std::array<int, kTissueCount> point{};  // killing points, stock counted in
    int warmest = 0;                        // of leaf, wood and trunk
  };
  const ReplayCase& what_;
  const Replay& replay_;
  const ColdNumbers& numbers_;
  int tenderest_, reach_;
  int felt_below_ = 0;
  std::array<double, 12> bloom_{};
  std::array<Row, kSteps + 1> rows_{};
};

// What a tree of one age meets in a winter.
class Season {
 public:
  Season(const ReplayCase& what, const Replay& replay, int age)
      : what_(&what), replay_(&replay), numbers_(&replay.numbers[static_cast<std::size_t>(what.lean)]),
        shift_(state_shift(*numbers_, age, Health::good, false)), bearing_(bears(what, age) > 0),
        bears_next_(bears(what, age + 1) > 0), covered_(age <= what.cover_ages) {}

  // The same in every respect that a winter can tell.
  [[nodiscard]] bool like(const Season& other) const {
    return shift_ == other.shift_ && bearing_ == other.bearing_ && bears_next_ == other.bears_next_ &&
           covered_ == other.covered_;
  }

  void begin_winter() {
    left_.fill(1);
    budget_ = what_->work_hundredths / 100.0;
    worked_ = 0;
  }

  void live_through(const Felt& felt) {
    const int cover = covered_ ? felt.cover : 0;
    const double share = cover > 0 ? share_protected(felt) : 0;
    if (felt.warmest + shift_ > felt.cold->lowest) {
      for (std::size_t k = kLeaf; k <= kTrunk; ++k) {
        const int threshold = felt.threshold[k] + shift_;
        if (threshold <= felt.cold->lowest) continue;
        Killed killed;
        killed.bare = killed.covered = share_killed(*replay_, *felt.cold, threshold);
        if (share > 0 && covers(*what_, k)) killed.covered = share_killed(*replay_, *felt.cold, threshold - cover);
        left_[k] *= 1 - killed.at(share);
      }
    }
    if (bearing_ && felt.fruit_share > 0) left_[kFruit] *= 1 - felt.fruit_share * felt.fruit.at(share);
    if (bears_next_ && felt.bloom_share > 0) left_[kBloom] *= 1 - felt.bloom_share * felt.bloom.at(share);
    if (felt.root.bare > 0) left_[kTrunk] *= 1 - felt.root.at(share);  // dead roots are a dead tree
  }

  [[nodiscard]] Shares end_winter(bool ripens) const {
    const double kept_wood = left_[kTrunk] * left_[kWood];
    const double leafy = 1 - numbers_->leaf_crop_share * (1 - left_[kLeaf]);
    const double crop = ripens ? left_[kFruit] : 0, frozen = ripens ? 1 - left_[kFruit] : 0;
    return {left_[kTrunk], kept_wood, kept_wood * leafy * left_[kBloom], crop, frozen, worked_};
  }

 private:
  // The part of a freeze's dangerous nights on which the household works.
  double share_protected(const Felt& felt) {
    if (what_->free_cover != 0) return 1;
    int limit = std::max(felt.limit_root, felt.limit_tree + shift_);
    if (bearing_ && felt.fruit_share > 0) limit = std::max(limit, felt.limit_fruit);
    if (bears_next_ && felt.bloom_share > 0) limit = std::max(limit, felt.limit_bloom);
    int called = 0;
    const Replay::Cold& cold = *felt.cold;
    for (std::uint32_t i = 0; i < cold.nights && replay_->night_lows[cold.first_night + i] <= limit; ++i) ++called;
    if (called == 0) return 0;
    const double done = std::min(budget_, static_cast<double>(called));
    budget_ -= done;
    worked_ += done;
    return done / called;
  }

  const ReplayCase* what_;
  const Replay* replay_;
  const ColdNumbers* numbers_;
  int shift_;
  bool bearing_, bears_next_, covered_;
  // In the winter under way: what is left of each tissue, nights to spend, nights spent.
  std::array<double, kTissueCount> left_{};
  double budget_ = 0, worked_ = 0;
};

bool ripens(const ReplayCase& what, const Replay::HeatSums& sums) {
  const auto first = static_cast<std::size_t>(what.heat_from), end = first + static_cast<std::size_t>(what.heat_months);
  return what.ripe_months > 0 && sums[end] - sums[first] >= what.heat_need;
}

// Sums over the record's winters, by class.
using Sums = std::array<Shares, kAges>;
Sums sum_of(const Played& played) {
  Sums sums{};
  const auto classes = static_cast<std::size_t>(played.classes);
  for (std::size_t i = 0; i < played.rows.size(); i += classes)
    for (std::size_t c = 0; c < classes; ++c)
      for (std::size_t s = 0; s < kShares; ++s) sums[c][s] += played.rows[i + c][s];
  return sums;
}

Sums mean_of(Sums sums, std::size_t classes, std::size_t winters) {
  for (std::size_t c = 0; c < classes; ++c)
    for (double& one : sums[c]) one /= static_cast<double>(winters);
  return sums;
}

// In the order of TenYears.
constexpr Interval Prospect::*kIntervals[] = {&Prospect::alive_at_ten, &Prospect::good_harvests,
                                              &Prospect::work_nights, &Prospect::crops_lost};
constexpr double kMost[] = {1, kAges, 366, kAges};
constexpr std::size_t kFigures = std::size(kIntervals);

// Nine in ten of the records that such a climate could have left lie within so many standard errors.
constexpr double kNineInTen = 1.645;

Prospect closed(const ReplayCase& what, const Replay& replay, const TenYears& best) {
  Prospect result;
  for (std::size_t q = 0; q < kFigures; ++q) result.*kIntervals[q] = {best[q], best[q], best[q]};
  int ripe_winters = 0;
  for (const Replay::HeatSums& heat : replay.heat) ripe_winters += ripens(what, heat) ? 1 : 0;
  if (ripe_winters > 0 && 2 * ripe_winters >= static_cast<int>(replay.heat.size())) {
    const int shift = replay.south ? 0 : 6;  // month 0 of the season is July, or January south of the equator
    result.ripe_from_month = (what.ripe_from + shift) % 12 + 1;
    result.ripe_to_month = (what.ripe_from + what.ripe_months - 1 + shift) % 12 + 1;
  }
  return result;
}

TenYears ten_years_of(const ReplayCase& what, const Replay& replay, const Played& played, const Sums& sums,
                      std::size_t winters) {
  return ten_years(what, replay.numbers[static_cast<std::size_t>(what.lean)], played,
                   mean_of(sums, static_cast<std::size_t>(played.classes), winters));
}

// The spread between records: every winter is left out once (the jackknife), and the standard error is
// taken from how far the answer moves.
Prospect resampled(const ReplayCase& what, const Replay& replay) {
  const Played played = play(what, replay);
  const std::size_t winters = replay.winter_end.size();
  const auto classes = static_cast<std::size_t>(played.classes);
  const Sums sums = sum_of(played);
  Prospect result = closed(what, replay, ten_years_of(what, replay, played, sums, winters));
  if (winters < 2) return result;
  std::vector<TenYears> without;
  TenYears mean{};
  for (std::size_t w = 0; w < winters; ++w) {
    Sums rest = sums;
    for (std::size_t c = 0; c < classes; ++c)
      for (std::size_t s = 0; s < kShares; ++s) rest[c][s] -= played.rows[w * classes + c][s];
    without.push_back(ten_years_of(what, replay, played, rest, winters - 1));
    for (std::size_t q = 0; q < kFigures; ++q) mean[q] += without.back()[q];
  }
  const auto n = static_cast<double>(winters);
  for (std::size_t q = 0; q < kFigures; ++q) {
    double squares = 0;
    for (const TenYears& one : without) squares += (one[q] - mean[q] / n) * (one[q] - mean[q] / n);
    const double error = kNineInTen * std::sqrt((n - 1) / n * squares);
    Interval& interval = result.*kIntervals[q];
    interval.low = std::max(0.0, interval.best - error);
    interval.high = std::min(kMost[q], interval.best + error);
  }
  return result;
}

template <class Make>
const Prospect& remember(std::unordered_map<ReplayMemo::Key, Prospect, ReplayMemo::Hash>& known, const ReplayCase& what,
                         Make make) {
  const auto [at, added] = known.try_emplace(std::bit_cast<ReplayMemo::Key>(what));
  if (added) at->second = make();
  return at->second;
}

const Prospect& expected(const ReplayCase& what, const Replay& replay, ReplayMemo& memo) {
  return remember(memo.expected, what, [&] {
    const Played played = play(what, replay);
    return closed(what, replay, ten_years_of(what, replay, played, sum_of(played), replay.winter_end.size()));
  });
}

}  // namespace

std::size_t ReplayMemo::Hash::operator()(const Key& key) const {
  std::uint64_t hash = 14695981039346656037u;
  for (const std::int32_t word : key.words) hash = (hash ^ static_cast<std::uint32_t>(word)) * 1099511628211u;
  return static_cast<std::size_t>(hash ^ (hash >> 32));
}

Played play(const ReplayCase& what, const Replay& replay) {
  Played played;
  std::vector<Season> seasons;
  for (int age = 1; age <= kAges; ++age) {
    const Season season(what, replay, age);
    if (seasons.empty() || !seasons.back().like(season)) seasons.push_back(season);
    played.class_of_age[static_cast<std::size_t>(age - 1)] = static_cast<int>(seasons.size()) - 1;
  }
  played.classes = static_cast<int>(seasons.size());
  played.rows.reserve(replay.winter_end.size() * seasons.size());
  const Feeling feeling(what, replay);
  std::uint32_t next = 0;
  for (std::size_t w = 0; w < replay.winter_end.size(); ++w) {
    for (Season& season : seasons) season.begin_winter();
    for (; next < replay.winter_end[w]; ++next) {
      const Replay::Cold& cold = replay.colds[next];
      if (cold.lowest >= feeling.felt_below()) break;  // coldest first
      Felt felt;
      if (!feeling.feel(cold, felt)) continue;
      for (Season& season : seasons) season.live_through(felt);
    }
    next = replay.winter_end[w];
    const bool ripe = ripens(what, replay.heat[w]);
    for (const Season& season : seasons) played.rows.push_back(season.end_winter(ripe));
  }
  return played;
}

TenYears ten_years(const ReplayCase& what, const ColdNumbers& numbers, const Played& played,
                   const std::array<Shares, kAges>& averages) {
  double harvests = 0, lost = 0;
  double alive = 1, whole = 1, crop = 1;  // whole: not regrowing; crop: what whole trees are set to bear
  std::array<double, 4> regrowing{};      // by seasons still to wait, 1..3
  double worked = 0, years = 0;
  for (int age = 1; age <= kAges; ++age) {
    const Shares& winter = averages[static_cast<std::size_t>(played.class_of_age[static_cast<std::size_t>(age - 1)])];
    const double bearing = bears(what, age) * crop;
    harvests += bearing * winter[crop_kept];
    lost += bearing * winter[crop_frozen];
    worked += alive * winter[nights];
    years += alive;

    const double waiting = regrowing[1] + regrowing[2] + regrowing[3];
    const double cut = (whole + waiting) * (winter[survives] - winter[keeps_wood]);
    const double standing = whole + regrowing[1];
    regrowing = {0, regrowing[2] * winter[keeps_wood], regrowing[3] * winter[keeps_wood], 0};
    whole = standing * winter[keeps_wood];
    crop = standing * winter[next_crop];
    if (numbers.regrowth_years > 0) {
      regrowing[static_cast<std::size_t>(numbers.regrowth_years)] += cut;
    } else {
      whole += cut;
      crop += cut;
    }
    alive *= winter[survives];
  }
  return {alive, harvests, years > 0 ? worked / years : 0, lost};
}

Prospect expected_prospect(const Planting& planting, const Replay& replay, ReplayMemo& memo) {
  if (replay.winter_end.empty()) return {};
  return expected(make_case(planting, replay, Lean::best), replay, memo);
}

Prospect prospect(const Planting& planting, const Replay& replay, ReplayMemo& memo) {
  if (replay.winter_end.empty()) return {};
  const ReplayCase what = make_case(planting, replay, Lean::best);
  Prospect result = remember(memo.with_interval, what, [&] { return resampled(what, replay); });
  const Prospect worse = expected(make_case(planting, replay, Lean::worse), replay, memo);
  const Prospect kinder = expected(make_case(planting, replay, Lean::kinder), replay, memo);
  for (std::size_t q = 0; q < kFigures; ++q) {
    Interval& interval = result.*kIntervals[q];
    const double one = (worse.*kIntervals[q]).best, other = (kinder.*kIntervals[q]).best;
    const double down = interval.best - std::min({interval.best, one, other});
    const double up = std::max({interval.best, one, other}) - interval.best;
    const double below = interval.best - interval.low, above = interval.high - interval.best;
    interval.low = std::max(0.0, interval.best - std::sqrt(below * below + down * down));
    interval.high = std::min(kMost[q], interval.best + std::sqrt(above * above + up * up));
  }
  return result;
}

}  // namespace tenwinters
