#include "replay_tracks.h"

#include <algorithm>
#include <bit>

#include "ripening.h"

namespace tenwinters {
namespace {

constexpr int kMonthsInYear = 12;

// A freeze that hurts.
struct Hurt {
  const float* injuries;
  int above, most;      // its threshold at the tenderest age, and the highest that is told apart, above the lowest hour
  std::uint32_t place;  // among the freezes of its winter
  double at_stake;      // share of the tissue that is out
};

class Maker {
 public:
  Maker(const TrackCase& what, const Replay& replay, ReplayMemo& memo)
      : what_(what), replay_(replay), numbers_(replay.numbers[static_cast<std::size_t>(what.lean)]),
        // Of a root `from` is the pot's litres: no month.
        calendar_(what.stake == Stake::fruit ? what.from : 0, what.stake == Stake::fruit ? what.months : 0,
                  what.stake == Stake::bloom ? what.from : 0, what.stake == Stake::bloom ? what.months : 0),
        curve_(what.point, what.stock_gain, memo) {
    if (what.stake == Stake::root) pot_ = pot_shift(numbers_, what.from, false);
    if (what.stake == Stake::crown) {
      tenderest_ = state_shift(numbers_, 1, Health::good, false);
      ages_ = static_cast<std::size_t>(crown_ages(numbers_));
    }
    for (std::size_t age = 1; age < ages_; ++age)
      hardier_[age] = tenderest_ - state_shift(numbers_, static_cast<int>(age) + 1, Health::good, false);
  }

  Track make() {
    Track made{ages_};
    find_hurts(made.start);
    made.place.reserve(hurts_.size());
    for (const Hurt& one : hurts_) made.place.push_back(one.place);
    made.left.resize(hurts_.size() * ages_);
    for (std::size_t w = 0; w + 1 < made.start.size(); ++w) {
      std::array<double, kAges> left = kWhole;
      for (std::size_t i = made.start[w + 1]; i-- > made.start[w];) {
        const Hurt& one = hurts_[i];
        for (std::size_t age = 0; age < ages_; ++age)
          made.left[i * ages_ + age] = left[age] *= 1 - one.at_stake * share_killed(one.injuries, one.most, one.above - hardier_[age]);
      }
    }
    return made;
  }

 private:
  // The warmest killing point it can ever have.
  [[nodiscard]] int warmest() const {
    switch (what_.stake) {
      case Stake::crown: return what_.point.unhardened + std::max(0, -what_.stock_gain) + tenderest_;
      case Stake::root: return numbers_.root;
      case Stake::fruit:
      case Stake::bloom: break;
    }
    return what_.point.unhardened;
  }

  // Of every winter, coldest first; `start` is as in Track.
  void find_hurts(std::vector<std::uint32_t>& start) {
    const int below = warmest() + numbers_.width + std::max(0, -what_.warmer) - std::max(0, std::min(what_.cover_still, what_.cover_windy));
    const int still = tenderest_ + numbers_.width - what_.warmer - std::max(0, what_.cover_still);
    const int windy = tenderest_ + numbers_.width - std::max(0, what_.cover_windy);
    const bool root = what_.stake == Stake::root, always = root || what_.stake == Stake::crown;
    hurts_.reserve(replay_.colds.size());
    start.reserve(replay_.winter_end.size() + 1);
    std::uint32_t first = 0;
    for (const std::uint32_t end : replay_.winter_end) {
      start.push_back(static_cast<std::uint32_t>(hurts_.size()));
      for (std::uint32_t at = first; at < end; ++at) {
        const Replay::Cold& cold = replay_.colds[at];
        if (cold.lowest >= below) break;
        const int point = root ? numbers_.root - (cold.long_freeze ? 0 : pot_) : curve_.at(cold.hardening);
        const int threshold = point + (cold.windy ? windy : still);
        if (threshold <= cold.lowest) continue;
        const double at_stake = always ? 1 : what_.stake == Stake::fruit ? calendar_.fruit(cold.day) : calendar_.bloom(cold.month);
        if (at_stake > 0) hurts_.push_back({&replay_.injuries[cold.injuries], threshold - cold.lowest, kWarmestThreshold - cold.lowest, at - first, at_stake});
      }
      first = end;
    }
    start.push_back(static_cast<std::uint32_t>(hurts_.size()));
  }

  const TrackCase& what_;
  const Replay& replay_;
  const ColdNumbers& numbers_;
  Calendar calendar_;
  Curve curve_;
  int pot_ = 0, tenderest_ = 0;
  std::size_t ages_ = 1;
  std::array<int, kAges> hardier_{};  // tenths, by age; rising
  std::vector<Hurt> hurts_;
};

}  // namespace

int crown_ages(const ColdNumbers& numbers) { return std::min(kAges, numbers.grown_years); }

const Track& track(const TrackCase& what, const Replay& replay, ReplayMemo& memo) {
  const auto [at, added] = memo.tracks.try_emplace(std::bit_cast<ReplayMemo::TrackKey>(what));
  if (added) at->second = Maker(what, replay, memo).make();
  return at->second;
}

const std::int16_t* Curve::scaled(int tenths, ReplayMemo& memo) {
  const auto [at, added] = memo.scaled.try_emplace(tenths);
  if (added)
    for (std::size_t i = 0; i < at->second.size(); ++i) at->second[i] = static_cast<std::int16_t>(at_hardening(tenths, static_cast<int>(i) * 10));
  return at->second.data();
}

Calendar::Calendar(int ripe_from, int ripe_months, int bloom_from, int bloom_months)
    : never_(ripe_months <= 0), always_(ripe_months >= kEverbearingMonths) {
  const int last = ripe_from + ripe_months;
  start_ = kMonthStart[ripe_from];
  end_ = kMonthStart[last % kMonthsInYear] + (last >= kMonthsInYear ? kMonthStart[kMonthsInYear] : 0);
  for (int month = 0; month < kMonthsInYear; ++month)
    if ((month - bloom_from + kMonthsInYear) % kMonthsInYear < bloom_months) bloom_[static_cast<std::size_t>(month)] = 1.0 / bloom_months;
}

double Calendar::fruit(int day) const {
  if (never_) return 0;
  if (always_) return 0.5;
  // Picked evenly from the first day of the window to its last; green until then.
  if (day < start_) return 1;
  if (day >= end_) return 0;
  return static_cast<double>(end_ - day) / (end_ - start_);
}

}  // namespace tenwinters
