// The replay itself: each winter at each age, the ten years that follow, and the intervals.
#include <algorithm>
#include <cmath>
#include <iterator>

#include "replay.h"
#include "replay_tracks.h"
#include "tenwinters/prospect.h"

namespace tenwinters {
namespace {

// The tissues in the order of Tissue, and the roots of a pot.
constexpr std::size_t kLeaf = 0, kWood = 1, kTrunk = 2, kFruit = 3, kBloom = 4, kRoot = kTissueCount;
constexpr int kNever = -10000;
constexpr std::size_t kHardenings = 101;

// What is over the crown reaches down over the pot; a bank about the trunk does not warm the pot it stands in.
bool covers(const ReplayCase& what, std::size_t stake) {
  return (what.covers >> (stake == kRoot ? kLeaf : stake) & 1) != 0;
}

bool ripens(const ReplayCase& what, const Replay::HeatSums& sums) {
  const auto first = static_cast<std::size_t>(what.heat_from), end = first + static_cast<std::size_t>(what.heat_months);
  return what.ripe_months > 0 && sums[end] - sums[first] >= what.heat_need;
}

// Trees of one age, as far as a winter can tell.
struct AgeClass {
  int shift = 0;             // tenths by which a young crown is tenderer
  std::size_t crown = 0;     // its place in a crown's track
  bool bearing = false, bears_next = false, covered = false;

  [[nodiscard]] std::size_t crop() const { return (bearing ? 1u : 0u) + (bears_next ? 2u : 0u); }

  friend bool operator==(const AgeClass&, const AgeClass&) = default;
};

using Left = std::array<double, kTissueCount + 1>;  // of each tissue, after a winter

// A freeze on whose nights the household may work, as one planting feels it.
struct Felt {
  const Replay::Cold* cold;
  std::size_t place;                // among the freezes of its winter, 0 = coldest
  int cover, air;                   // tenths: what the cover and the spot give
  // Killing points in the station's air of what is covered: the tenderest part of a grown tree's crown; roots; and
  // what is out of the rest, by whether a tree bears and will bear (AgeClass::crop).
  int crown, root;
  std::array<int, 4> rest;
  double fruit_share, bloom_share;  // that are out, if the tree bears

  [[nodiscard]] int tenderest(const AgeClass& age) const { return std::max(rest[age.crop()], crown + age.shift); }
};

// A winter of trees of one age whose household works on the worst nights first.
struct Work {
  double spare = 0, worked = 0;  // nights
  Left kept{};                   // what the covered tissues keep after the last freeze worked on
  bool whole = true;             // they keep all
  std::size_t seen = 0;          // freezes up to that one
};

// One planting through all winters.
class Player {
 public:
  Player(const ReplayCase& what, const Replay& replay, ReplayMemo& memo)
      : what_(what), replay_(replay), memo_(memo), numbers_(replay.numbers[static_cast<std::size_t>(what.lean)]),
        calendar_(what.ripe_from, what.ripe_months, what.bloom_from, what.bloom_months) {
    for (std::size_t stake = 0; stake <= kRoot; ++stake) covers_[stake] = covers(what_, stake);
    roots_ = covers_[kRoot] && what_.litres > 0;
    all_ = std::all_of(covers_.begin(), covers_.begin() + kRoot, [](bool one) { return one; });
    if (!works_) return;
    tenderest_ = state_shift(numbers_, 1, Health::good, false);
    if (what_.litres > 0) pot_ = pot_shift(numbers_, what_.litres, false);
    plan_work();
  }

  Played play(bool with_rows);

 private:
  using Tracks = std::array<const Track*, kTissueCount + 1>;  // of the roots only in a pot
  Tracks tracks(bool covered);
  using Rows = std::array<const double*, kTissueCount + 1>;    // what is left of each, by age
  [[nodiscard]] static Rows rows_of(const Tracks& tracks, std::size_t winter, std::size_t from);
  [[nodiscard]] static bool untouched(const Tracks& tracks, std::size_t winter);
  [[nodiscard]] Shares shares(const Left& left, bool ripe, double worked) const;

  // Work on single nights.
  void plan_work();
  bool feel(const Replay::Cold& cold, Felt& felt) const;
  template <class Killed>
  void endure(Work& work, const AgeClass& age, const Felt& felt, int cover, Killed killed) const;
  void endure(Work& work, const AgeClass& age, const Felt& felt, int cover) const;
  void endure_in_part(Work& work, const AgeClass& age, const Felt& felt, double share) const;
  bool work_on(std::size_t at);
  bool work_through(std::size_t winter);
  [[nodiscard]] static std::size_t harmless_from(const Tracks& bare, std::size_t winter);
  [[nodiscard]] Left left_of(const Rows& rows, const AgeClass& age) const;

  const ReplayCase& what_;
  const Replay& replay_;
  ReplayMemo& memo_;
  const ColdNumbers& numbers_;
  Calendar calendar_;
  std::vector<AgeClass> ages_;  // the coverable ones first
  std::size_t coverable_ = 0;
  std::array<bool, kRoot + 1> covers_{};
  bool roots_ = false;  // covered, in a pot
  bool all_ = false;    // is covered that can be at stake
  const bool works_ = what_.work_hundredths > 0 && what_.free_cover == 0 && what_.covers != 0 &&
                      std::max(what_.cover_still, what_.cover_windy) > 0;
  using Points = std::array<int, kTissueCount>;  // killing points, kNever if not covered
  std::vector<Points> points_;  // by hardening
  int calls_below_ = kNever;  // no air as mild as this calls for work
  int tenderest_ = 0, pot_ = 0;
  // Of the winter under way.
  std::array<Work, kAges> work_;  // by class
  std::vector<Felt> felt_;
};

Player::Tracks Player::tracks(bool covered) {
  Tracks found{};
  for (std::size_t tissue = 0; tissue <= kTissueCount; ++tissue) {
    TrackCase one;
    one.lean = what_.lean;
    one.warmer = what_.warmer;
    if (covered && covers_[tissue]) {
      one.cover_still = what_.cover_still;
      one.cover_windy = what_.cover_windy;
    }
    if (tissue <= kTrunk) {
      one.point = what_.points[tissue];
      one.stock_gain = what_.stock_gain;
    } else if (tissue == kRoot) {
      if (what_.litres == 0) continue;
      one.stake = Stake::root;
      one.from = what_.litres;
    } else {
      one.stake = tissue == kFruit ? Stake::fruit : Stake::bloom;
      one.point = what_.points[tissue];
      one.from = tissue == kFruit ? what_.ripe_from : what_.bloom_from;
      one.months = tissue == kFruit ? what_.ripe_months : what_.bloom_months;
    }
    found[tissue] = &track(one, replay_, memo_);
  }
  return found;
}

// Whether the winter takes nothing from a tree of any age.
bool Player::untouched(const Tracks& tracks, std::size_t winter) {
  for (const Track* one : tracks)
    if (one != nullptr && one->start[winter] != one->start[winter + 1]) return false;
  return true;
}

Player::Rows Player::rows_of(const Tracks& tracks, std::size_t winter, std::size_t from) {
  Rows rows;
  for (std::size_t k = 0; k <= kRoot; ++k) rows[k] = tracks[k] != nullptr ? rest_of(*tracks[k], winter, from) : kWhole.data();
  return rows;
}

Shares Player::shares(const Left& left, bool ripe, double worked) const {
  const double alive = left[kTrunk] * left[kRoot];  // dead roots are a dead tree
  const double kept_wood = alive * left[kWood];
  const double leafy = 1 - numbers_.leaf_crop_share * (1 - left[kLeaf]);
  return {alive, kept_wood, kept_wood * leafy * left[kBloom], ripe ? left[kFruit] : 0, ripe ? 1 - left[kFruit] : 0, worked};
}

void Player::plan_work() {
  points_.resize(kHardenings);
  for (std::size_t tissue = 0; tissue < kTissueCount; ++tissue) {
    const Curve curve(what_.points[tissue], tissue <= kTrunk ? what_.stock_gain : 0, memo_);
    for (std::size_t hardening = 0; hardening < kHardenings; ++hardening) points_[hardening][tissue] = covers_[tissue] ? curve.at(hardening) : kNever;
  }
  int point = kNever;  // the warmest that any covered tissue can have
  for (std::size_t tissue = 0; tissue <= kRoot; ++tissue) {
    if (!covers_[tissue]) continue;
    if (tissue == kRoot) point = std::max(point, what_.litres > 0 ? numbers_.root : kNever);
    else point = std::max(point, what_.points[tissue].unhardened + (tissue <= kTrunk ? tenderest_ + std::max(0, -what_.stock_gain) : 0));
  }
  if (point == kNever) return;
  calls_below_ = point + numbers_.call_margin + 1 + std::max(0, -what_.warmer);
}

// Fills `felt` and says true if the freeze can hurt what is covered, or call for work.
bool Player::feel(const Replay::Cold& cold, Felt& felt) const {
  const int harmless = cold.lowest - std::max(numbers_.width, numbers_.call_margin + 1);  // the warmest killing point left in peace
  const Points& points = points_[cold.hardening];
  felt.air = cold.windy ? 0 : what_.warmer;
  felt.root = roots_ ? numbers_.root - (cold.long_freeze ? 0 : pot_) - felt.air : kNever;
  felt.crown = std::max({points[kLeaf], points[kWood], points[kTrunk]}) - felt.air;
  const int fruit = points[kFruit] - felt.air, bloom = points[kBloom] - felt.air;
  felt.fruit_share = fruit > harmless ? calendar_.fruit(cold.day) : 0;
  felt.bloom_share = bloom > harmless ? calendar_.bloom(cold.month) : 0;
  const auto or_root = [&](double share, int point) { return share > 0 ? std::max(point, felt.root) : felt.root; };
  const int with_fruit = or_root(felt.fruit_share, fruit), with_bloom = or_root(felt.bloom_share, bloom);
  felt.rest = {felt.root, with_fruit, with_bloom, std::max(with_fruit, with_bloom)};
  felt.cold = &cold;
  felt.cover = cold.windy ? what_.cover_windy : what_.cover_still;
  return std::max(felt.crown + tenderest_, felt.rest.back()) > harmless;
}

// One freeze; `killed` tells the share killed at a threshold so far above its lowest hour, from what it kills by itself.
template <class Killed>
void Player::endure(Work& work, const AgeClass& age, const Felt& felt, int cover, Killed killed) const {
  const int above = numbers_.width - felt.cold->lowest, tenderer = above + age.shift - felt.air;
  if (felt.tenderest(age) + above <= cover) return;
  work.whole = false;
  const float* injuries = &replay_.injuries[felt.cold->injuries];
  const int most = kWarmestThreshold - felt.cold->lowest;
  const auto by_itself = [&](int threshold) { return share_killed(injuries, most, threshold); };
  const Points& points = points_[felt.cold->hardening];
  for (std::size_t k = 0; k <= kTrunk; ++k) work.kept[k] *= 1 - killed(by_itself, points[k] + tenderer);
  if (felt.fruit_share > 0) work.kept[kFruit] *= 1 - killed(by_itself, points[kFruit] + above - felt.air) * felt.fruit_share;
  if (felt.bloom_share > 0) work.kept[kBloom] *= 1 - killed(by_itself, points[kBloom] + above - felt.air) * felt.bloom_share;
  if (roots_) work.kept[kRoot] *= 1 - killed(by_itself, felt.root + above);
}

void Player::endure(Work& work, const AgeClass& age, const Felt& felt, int cover) const {
  endure(work, age, felt, cover, [cover](const auto& by_itself, int threshold) { return by_itself(threshold - cover); });
}

// The last nights of a household hold a freeze off in part.
void Player::endure_in_part(Work& work, const AgeClass& age, const Felt& felt, double share) const {
  endure(work, age, felt, 0, [&](const auto& by_itself, int threshold) {
    const double bare = by_itself(threshold);
    return bare + share * (by_itself(threshold - felt.cover) - bare);
  });
}

// One freeze, for trees of every age whose household has nights to spare; false if none has any left.
bool Player::work_on(std::size_t at) {
  const Felt& felt = felt_[at];
  const std::int16_t *lows = &replay_.night_lows[felt.cold->first_night], *lows_end = lows + felt.cold->nights;
  bool any = false;
  for (std::size_t c = 0; c < coverable_; ++c) {
    Work& work = work_[c];
    if (!(work.spare > 0)) continue;
    const AgeClass& age = ages_[c];
    const int limit = felt.tenderest(age) + numbers_.call_margin;
    int called = 0;
    while (lows + called != lows_end && lows[called] <= limit) ++called;  // coldest first
    if (called > 0) {
      for (; work.seen < at; ++work.seen) endure(work, age, felt_[work.seen], 0);
      if (work.spare < called) endure_in_part(work, age, felt, work.spare / called);
      else endure(work, age, felt, felt.cover);
      ++work.seen;
      const double done = std::min(work.spare, static_cast<double>(called));
      work.spare -= done;
      work.worked += done;
    }
    any |= work.spare > 0;
  }
  return any;
}

// Plays the winter's work for trees of every age that can be covered, the worst nights first until a household's nights
// are spent; false if it calls for none. Freezes milder than the last that a tree of some age calls for are left out.
bool Player::work_through(std::size_t winter) {
  const std::uint32_t first = winter == 0 ? 0 : replay_.winter_end[winter - 1], end = replay_.winter_end[winter];
  if (felt_.size() < end - first) felt_.resize(end - first);
  std::size_t count = 0;
  bool calls = false;
  for (std::uint32_t at = first; at < end && replay_.colds[at].lowest < calls_below_; ++at) {
    Felt& felt = felt_[count];
    if (!feel(replay_.colds[at], felt)) continue;
    felt.place = at - first;
    ++count;
    if (felt.cover <= 0 || felt.cold->lowest > std::max(felt.crown + tenderest_, felt.rest.back()) + numbers_.call_margin) continue;
    if (!calls)
      for (std::size_t c = 0; c < coverable_; ++c) {
        work_[c] = {what_.work_hundredths / 100.0, 0, {}, true, 0};
        work_[c].kept.fill(1);
      }
    calls = true;
    if (!work_on(count - 1)) break;
  }
  return calls;
}

Left Player::left_of(const Rows& rows, const AgeClass& age) const {
  return {rows[kLeaf][age.crown], rows[kWood][age.crown], rows[kTrunk][age.crown],
          age.bearing ? *rows[kFruit] : 1, age.bears_next ? *rows[kBloom] : 1, *rows[kRoot]};
}

// The place from which on no freeze takes anything from a tree of any age.
std::size_t Player::harmless_from(const Tracks& bare, std::size_t winter) {
  std::size_t from = 0;
  for (const Track* one : bare)
    if (one != nullptr && one->start[winter] != one->start[winter + 1])
      from = std::max<std::size_t>(from, one->place[one->start[winter + 1] - 1] + 1);
  return from;
}

Played Player::play(bool with_rows) {
  Played played;
  const std::size_t winters = replay_.winter_end.size();
  for (int age = 1; age <= kAges; ++age) {
    AgeClass one;
    one.shift = state_shift(numbers_, age, Health::good, false);
    one.crown = static_cast<std::size_t>(std::min(age, crown_ages(numbers_)) - 1);
    one.bearing = bears(what_, age) > 0;
    one.bears_next = bears(what_, age + 1) > 0;
    one.covered = age <= what_.cover_ages;
    if (ages_.empty() || ages_.back() != one) {
      ages_.push_back(one);
      coverable_ += one.covered ? 1 : 0;
    }
    played.class_of_age[static_cast<std::size_t>(age - 1)] = static_cast<int>(ages_.size()) - 1;
  }
  played.classes = ages_.size();
  if (with_rows) played.rows.reserve(winters * ages_.size());

  const Tracks bare = tracks(false);
  const Tracks covered = what_.free_cover != 0 ? tracks(true) : bare;
  for (std::size_t w = 0; w < winters; ++w) {
    const bool ripe = ripens(what_, replay_.heat[w]), safe = untouched(bare, w);
    const bool calls = works_ && work_through(w);
    const std::size_t harmless = calls && all_ ? harmless_from(bare, w) : 0;
    Rows bare_rows{}, covered_rows{};
    if (calls || !safe) {
      bare_rows = rows_of(bare, w, 0);
      covered_rows = what_.free_cover != 0 ? rows_of(covered, w, 0) : bare_rows;
    }
    Rows milder_rows = bare_rows;
    std::size_t milder = 0;
    for (std::size_t c = 0; c < ages_.size(); ++c) {
      const AgeClass& age = ages_[c];
      const Work& work = work_[c];
      Shares one{1, 1, 1, ripe ? 1.0 : 0.0, 0, 0};
      const bool works = calls && age.covered && work.worked > 0;
      const std::size_t from = works ? felt_[work.seen - 1].place + 1 : 0;
      if (works && work.whole && all_ && from >= harmless) {
        one[nights] = work.worked;
      } else if (works || !safe) {
        Left left = left_of(age.covered ? covered_rows : bare_rows, age);
        if (works) {
          // Freezes milder than the last one worked on are as if nobody worked.
          if (from != milder) milder_rows = rows_of(bare, w, milder = from);
          const Left rest = left_of(milder_rows, age);
          for (std::size_t k = 0; k <= kRoot; ++k)
            if (covers_[k]) left[k] = work.kept[k] * rest[k];
        }
        one = shares(left, ripe, works ? work.worked : 0);
      }
      for (std::size_t s = 0; s < kShares; ++s) played.sums[c][s] += one[s];
      if (with_rows) played.rows.push_back(one);
    }
  }
  return played;
}

Sums mean_of(Sums sums, std::size_t classes, std::size_t winters) {
  for (std::size_t c = 0; c < classes; ++c)
    for (double& one : sums[c]) one /= static_cast<double>(winters);
  return sums;
}

// In the order of TenYears.
constexpr std::size_t kFigures = std::size(kTenYearFigures);

// Nine in ten of the records that such a climate could have left lie within so many standard errors.
constexpr double kNineInTen = 1.645;

Prospect closed(const ReplayCase& what, const Replay& replay, const TenYears& best) {
  Prospect result;
  for (std::size_t q = 0; q < kFigures; ++q) result.*kTenYearFigures[q] = {best[q], best[q], best[q]};
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
                   mean_of(sums, played.classes, winters));
}

// The spread between records: every winter is left out once (the jackknife), and the standard error is
// taken from how far the answer moves.
Prospect resampled(const ReplayCase& what, const Replay& replay, ReplayMemo& memo) {
  const Played played = play(what, true, replay, memo);
  const std::size_t winters = replay.winter_end.size();
  const std::size_t classes = played.classes;
  Prospect result = closed(what, replay, ten_years_of(what, replay, played, played.sums, winters));
  if (winters < 2) return result;
  std::vector<TenYears> without;
  TenYears mean{};
  for (std::size_t w = 0; w < winters; ++w) {
    Sums rest = played.sums;
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
    Interval& interval = result.*kTenYearFigures[q];
    interval.low = std::max(0.0, interval.best - error);
    interval.high = std::min(kMostOfFigure[q], interval.best + error);
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
    const Played played = play(what, false, replay, memo);
    return closed(what, replay, ten_years_of(what, replay, played, played.sums, replay.winter_end.size()));
  });
}

}  // namespace

std::size_t ReplayMemo::Hash::of(const std::int32_t* words, std::size_t count) {
  std::uint64_t hash = 14695981039346656037u;
  for (std::size_t i = 0; i < count; ++i) hash = (hash ^ static_cast<std::uint32_t>(words[i])) * 1099511628211u;
  return static_cast<std::size_t>(hash ^ (hash >> 32));
}

Played play(const ReplayCase& what, bool with_rows, const Replay& replay, ReplayMemo& memo) { return Player(what, replay, memo).play(with_rows); }

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

TreeProspects::TreeProspects(const Planting& tree, const Replay& replay, ReplayMemo& memo)
    : replay_(replay), memo_(memo), tree_(std::bit_cast<ReplayMemo::Key>(tree_case(tree, replay, Lean::best))) {}

const Prospect& TreeProspects::expected(const Planting& planting) const {
  static constexpr Prospect kNoWinters;
  if (replay_.winter_end.empty()) return kNoWinters;
  return tenwinters::expected(with_care(std::bit_cast<ReplayCase>(tree_), planting, replay_), replay_, memo_);
}

Prospect expected_prospect(const Planting& planting, const Replay& replay, ReplayMemo& memo) {
  return TreeProspects(planting, replay, memo).expected(planting);
}

ProspectParts prospect_parts(const Planting& planting, const Replay& replay, ReplayMemo& memo) {
  if (replay.winter_end.empty()) return {};
  const auto leaning = [&](Lean lean) { return with_care(tree_case(planting, replay, lean), planting, replay); };
  const ReplayCase what = leaning(Lean::best);
  return {remember(memo.with_interval, what, [&] { return resampled(what, replay, memo); }),
          expected(leaning(Lean::worse), replay, memo), expected(leaning(Lean::kinder), replay, memo)};
}

Prospect prospect(const Planting& planting, const Replay& replay, ReplayMemo& memo) {
  const ProspectParts parts = prospect_parts(planting, replay, memo);
  Prospect result = parts.record;
  for (std::size_t q = 0; q < kFigures; ++q) {
    Interval& interval = result.*kTenYearFigures[q];
    const double one = (parts.worse.*kTenYearFigures[q]).best, other = (parts.kinder.*kTenYearFigures[q]).best;
    const double down = interval.best - std::min({interval.best, one, other});
    const double up = std::max({interval.best, one, other}) - interval.best;
    const double below = interval.best - interval.low, above = interval.high - interval.best;
    interval.low = std::max(0.0, interval.best - std::sqrt(below * below + down * down));
    interval.high = std::min(kMostOfFigure[q], interval.best + std::sqrt(above * above + up * up));
  }
  return result;
}

}  // namespace tenwinters
