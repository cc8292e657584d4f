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
  std::size_t crown = 0;     // its row of a crown's track
  bool bearing = false, bears_next = false, covered = false;

  friend bool operator==(const AgeClass&, const AgeClass&) = default;
};

using Left = std::array<double, kTissueCount + 1>;  // of each tissue, after a winter

// A freeze on whose nights the household may work, as one planting feels it.
struct Felt {
  const Replay::Cold* cold;
  std::size_t place;                      // among the freezes of its winter, 0 = coldest
  int cover;                              // tenths
  std::array<int, 3> threshold;           // leaf, wood, trunk of a grown tree, in the station's air
  int limit_crown, fruit, bloom, root;    // each calls for work at or below, if covered; the crown of a grown tree
  double fruit_share, bloom_share;        // at stake if the tree bears
};

// One planting through all winters.
class Player {
 public:
  Player(const ReplayCase& what, const Replay& replay, ReplayMemo& memo)
      : what_(what), replay_(replay), memo_(memo), numbers_(replay.numbers[static_cast<std::size_t>(what.lean)]),
        calendar_(what.ripe_from, what.ripe_months, what.bloom_from, what.bloom_months) {
    if (!works_) return;
    tenderest_ = state_shift(numbers_, 1, Health::good, false);
    if (what_.litres > 0) pot_ = pot_shift(numbers_, what_.litres, false);
    for (std::size_t tissue = 0; tissue < kTissueCount; ++tissue) curves_.emplace_back(what_.points[tissue], tissue <= kTrunk ? what_.stock_gain : 0);
    plan_work();
  }

  Played play();

 private:
  using Tracks = std::array<const Track*, kTissueCount + 1>;  // of the roots only in a pot
  Tracks tracks(bool covered, bool with_rest);
  [[nodiscard]] Left left_by(const Tracks& tracks, const AgeClass& age, std::size_t winter) const;
  [[nodiscard]] Shares shares(const Left& left, bool ripe, double worked) const;

  // Work on single nights.
  void plan_work();
  void feel_winter(std::size_t winter);
  bool feel(const Replay::Cold& cold, Felt& felt) const;
  [[nodiscard]] double killed(const Replay::Cold& cold, int threshold, int cover, double share) const;
  double work_through(const Tracks& bare, const AgeClass& age, std::size_t winter, Left& left);

  const ReplayCase& what_;
  const Replay& replay_;
  ReplayMemo& memo_;
  const ColdNumbers& numbers_;
  Calendar calendar_;
  std::vector<AgeClass> ages_;
  const bool works_ = what_.work_hundredths > 0 && what_.free_cover == 0 && what_.covers != 0 &&
                      std::max(what_.cover_still, what_.cover_windy) > 0;
  std::vector<Curve> curves_;  // by tissue
  int calls_below_ = kNever;  // no air as mild as this calls for work
  int tenderest_ = 0, pot_ = 0;
  std::vector<Felt> felt_;    // of the winter under way, down to the last that a tree of any age calls for work on
};

Player::Tracks Player::tracks(bool covered, bool with_rest) {
  Tracks found{};
  for (std::size_t tissue = 0; tissue <= kTissueCount; ++tissue) {
    TrackCase one;
    one.lean = what_.lean;
    one.warmer = what_.warmer;
    if (covered && covers(what_, tissue)) {
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
    found[tissue] = &track(one, with_rest && covers(what_, tissue), replay_, memo_);
  }
  return found;
}

Left Player::left_by(const Tracks& tracks, const AgeClass& age, std::size_t winter) const {
  Left left;
  for (std::size_t tissue = 0; tissue <= kTrunk; ++tissue) left[tissue] = tracks[tissue]->left[age.crown * replay_.winter_end.size() + winter];
  left[kFruit] = age.bearing ? tracks[kFruit]->left[winter] : 1;
  left[kBloom] = age.bears_next ? tracks[kBloom]->left[winter] : 1;
  left[kRoot] = what_.litres > 0 ? tracks[kRoot]->left[winter] : 1;
  return left;
}

Shares Player::shares(const Left& left, bool ripe, double worked) const {
  const double alive = left[kTrunk] * left[kRoot];  // dead roots are a dead tree
  const double kept_wood = alive * left[kWood];
  const double leafy = 1 - numbers_.leaf_crop_share * (1 - left[kLeaf]);
  return {alive, kept_wood, kept_wood * leafy * left[kBloom], ripe ? left[kFruit] : 0, ripe ? 1 - left[kFruit] : 0, worked};
}

void Player::plan_work() {
  int point = kNever;  // the warmest that any covered tissue can have
  for (std::size_t tissue = 0; tissue <= kRoot; ++tissue) {
    if (!covers(what_, tissue)) continue;
    if (tissue == kRoot) point = std::max(point, what_.litres > 0 ? numbers_.root : kNever);
    else point = std::max(point, what_.points[tissue].unhardened + (tissue <= kTrunk ? tenderest_ + std::max(0, -what_.stock_gain) : 0));
  }
  if (point == kNever) return;
  calls_below_ = point + numbers_.call_margin + 1 + std::max(0, -what_.warmer);
}

// By one freeze, a share of its nights being worked on.
double Player::killed(const Replay::Cold& cold, int threshold, int cover, double share) const {
  if (share >= 1) return share_killed(replay_, cold, threshold - cover);
  const double bare = share_killed(replay_, cold, threshold);
  return share > 0 ? bare + share * (share_killed(replay_, cold, threshold - cover) - bare) : bare;
}

// Fills `felt` and says true if the freeze can hurt what is covered, or call for work.
bool Player::feel(const Replay::Cold& cold, Felt& felt) const {
  const int air = cold.windy ? 0 : what_.warmer;
  const int reach = std::max(numbers_.width, numbers_.call_margin + 1);
  bool any = false;
  felt.limit_crown = kNever;
  for (std::size_t tissue = 0; tissue <= kTrunk; ++tissue) {
    if (!covers(what_, tissue)) continue;
    const int point = curves_[tissue].at(cold.hardening) - air;
    felt.threshold[tissue] = point + numbers_.width;
    felt.limit_crown = std::max(felt.limit_crown, point + numbers_.call_margin);
    any = any || point + tenderest_ + reach > cold.lowest;
  }
  const int fruit = curves_[kFruit].at(cold.hardening) - air;
  const int bloom = curves_[kBloom].at(cold.hardening) - air;
  felt.fruit_share = covers(what_, kFruit) && fruit + reach > cold.lowest ? calendar_.fruit(cold.day) : 0;
  felt.bloom_share = covers(what_, kBloom) && bloom + reach > cold.lowest ? calendar_.bloom(cold.month) : 0;
  const bool roots = what_.litres > 0 && covers(what_, kRoot);
  const int root = roots ? numbers_.root - (cold.long_freeze ? 0 : pot_) - air : kNever;
  if (!any && !(felt.fruit_share > 0) && !(felt.bloom_share > 0) && root + reach <= cold.lowest) return false;
  felt.cold = &cold;
  felt.cover = cold.windy ? what_.cover_windy : what_.cover_still;
  felt.fruit = felt.fruit_share > 0 ? fruit + numbers_.call_margin : kNever;
  felt.bloom = felt.bloom_share > 0 ? bloom + numbers_.call_margin : kNever;
  felt.root = root + numbers_.call_margin;
  return true;
}

void Player::feel_winter(std::size_t winter) {
  felt_.clear();
  Felt felt;
  std::size_t last = 0;
  const std::uint32_t first = winter == 0 ? 0 : replay_.winter_end[winter - 1], end = replay_.winter_end[winter];
  for (std::uint32_t at = first; at < end && replay_.colds[at].lowest < calls_below_; ++at) {
    if (!feel(replay_.colds[at], felt)) continue;
    felt.place = at - first;
    felt_.push_back(felt);
    int limit = std::max(felt.root, felt.limit_crown + tenderest_);
    if (felt.fruit_share > 0) limit = std::max(limit, felt.fruit);
    if (felt.bloom_share > 0) limit = std::max(limit, felt.bloom);
    if (felt.cover > 0 && felt.cold->lowest <= limit) last = felt_.size();
  }
  felt_.resize(last);
}

// What the covered tissues keep, the household working on the worst nights first until its nights are
// spent. `left` comes in with the winter's end if nobody works; returns the nights spent. Freezes milder
// than the last one worked on are as if nobody worked.
double Player::work_through(const Tracks& bare, const AgeClass& age, std::size_t winter, Left& left) {
  double spare = what_.work_hundredths / 100.0, worked = 0;
  Left now, kept{};
  now.fill(1);
  std::size_t milder = 0;  // place of the first freeze after the last one worked on
  const int beyond = numbers_.width - numbers_.call_margin;  // from the air that calls to the air that first hurts
  for (const Felt& felt : felt_) {
    if (!(spare > 0)) break;
    const Replay::Cold& cold = *felt.cold;
    const bool fruit = age.bearing && felt.fruit_share > 0, bloom = age.bears_next && felt.bloom_share > 0;
    int limit = std::max(felt.root, felt.limit_crown + age.shift);
    if (fruit) limit = std::max(limit, felt.fruit);
    if (bloom) limit = std::max(limit, felt.bloom);
    int called = 0;
    if (felt.cover > 0)
      for (std::uint32_t n = 0; n < cold.nights && replay_.night_lows[cold.first_night + n] <= limit; ++n) ++called;
    const double done = std::min(spare, static_cast<double>(called));
    const double share = called > 0 ? done / called : 0;
    const int least = share < 1 ? 0 : felt.cover;  // what every dangerous hour is warmed by
    if (felt.limit_crown + beyond + age.shift - least > cold.lowest) {
      for (std::size_t k = kLeaf; k <= kTrunk; ++k) {
        const int threshold = felt.threshold[k] + age.shift;
        if (covers(what_, k) && threshold - least > cold.lowest) now[k] *= 1 - killed(cold, threshold, felt.cover, share);
      }
    }
    if (fruit && felt.fruit + beyond - least > cold.lowest)
      now[kFruit] *= 1 - felt.fruit_share * killed(cold, felt.fruit + beyond, felt.cover, share);
    if (bloom && felt.bloom + beyond - least > cold.lowest)
      now[kBloom] *= 1 - felt.bloom_share * killed(cold, felt.bloom + beyond, felt.cover, share);
    if (felt.root + beyond - least > cold.lowest) now[kRoot] *= 1 - killed(cold, felt.root + beyond, felt.cover, share);
    if (called == 0) continue;
    spare -= done;
    worked += done;
    kept = now;
    milder = felt.place + 1;
  }
  if (!(worked > 0)) return 0;
  for (std::size_t k = 0; k <= kRoot; ++k) {
    const bool at_stake = k == kFruit ? age.bearing : k == kBloom ? age.bears_next : k != kRoot || what_.litres > 0;
    if (covers(what_, k) && at_stake) left[k] = kept[k] * rest_of(*bare[k], k <= kTrunk ? age.crown : 0, winter, milder);
  }
  return worked;
}

Played Player::play() {
  Played played;
  const std::size_t winters = replay_.winter_end.size();
  for (int age = 1; age <= kAges; ++age) {
    AgeClass one;
    one.shift = state_shift(numbers_, age, Health::good, false);
    one.crown = static_cast<std::size_t>(std::min(age, crown_ages(numbers_)) - 1);
    one.bearing = bears(what_, age) > 0;
    one.bears_next = bears(what_, age + 1) > 0;
    one.covered = age <= what_.cover_ages;
    if (ages_.empty() || ages_.back() != one) ages_.push_back(one);
    played.class_of_age[static_cast<std::size_t>(age - 1)] = static_cast<int>(ages_.size()) - 1;
  }
  played.classes = static_cast<int>(ages_.size());
  played.rows.reserve(winters * ages_.size());

  const Tracks bare = tracks(false, works_);
  const Tracks covered = what_.free_cover != 0 ? tracks(true, false) : bare;
  for (std::size_t w = 0; w < winters; ++w) {
    const bool ripe = ripens(what_, replay_.heat[w]);
    if (works_) feel_winter(w);
    for (const AgeClass& age : ages_) {
      Left left = left_by(age.covered ? covered : bare, age, w);
      const double worked = works_ && age.covered && !felt_.empty() ? work_through(bare, age, w, left) : 0;
      played.rows.push_back(shares(left, ripe, worked));
    }
  }
  return played;
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
Prospect resampled(const ReplayCase& what, const Replay& replay, ReplayMemo& memo) {
  const Played played = play(what, replay, memo);
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
    const Played played = play(what, replay, memo);
    return closed(what, replay, ten_years_of(what, replay, played, sum_of(played), replay.winter_end.size()));
  });
}

}  // namespace

std::size_t ReplayMemo::Hash::of(const std::int32_t* words, std::size_t count) {
  std::uint64_t hash = 14695981039346656037u;
  for (std::size_t i = 0; i < count; ++i) hash = (hash ^ static_cast<std::uint32_t>(words[i])) * 1099511628211u;
  return static_cast<std::size_t>(hash ^ (hash >> 32));
}

Played play(const ReplayCase& what, const Replay& replay, ReplayMemo& memo) { return Player(what, replay, memo).play(); }

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
    Interval& interval = result.*kIntervals[q];
    const double one = (parts.worse.*kIntervals[q]).best, other = (parts.kinder.*kIntervals[q]).best;
    const double down = interval.best - std::min({interval.best, one, other});
    const double up = std::max({interval.best, one, other}) - interval.best;
    const double below = interval.best - interval.low, above = interval.high - interval.best;
    interval.low = std::max(0.0, interval.best - std::sqrt(below * below + down * down));
    interval.high = std::min(kMost[q], interval.best + std::sqrt(above * above + up * up));
  }
  return result;
}

}  // namespace tenwinters
