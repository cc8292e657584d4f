#include "replay_tracks.h"

#include <algorithm>
#include <bit>

#include "ripening.h"

namespace tenwinters {
namespace {

constexpr int kMonthsInYear = 12;

// A freeze that hurts.
struct Hurt {
  const Replay::Cold* cold;
  std::size_t place;  // among the freezes of its winter
  double at_stake;    // share of the tissue that is out
  int threshold;      // of the tenderest row
};

class Maker {
 public:
  Maker(const TrackCase& what, const Replay& replay)
      : what_(what), replay_(replay), numbers_(replay.numbers[static_cast<std::size_t>(what.lean)]),
        calendar_(what.from, what.stake == Stake::fruit ? what.months : 0, what.from, what.stake == Stake::bloom ? what.months : 0),
        curve_(what.point, what.stock_gain) {
    if (what.stake == Stake::root) pot_ = pot_shift(numbers_, what.from, false);
    if (what.stake != Stake::crown) return;
    tenderest_ = state_shift(numbers_, 1, Health::good, false);
    for (int age = 2; age <= crown_ages(numbers_); ++age) hardier_.push_back(tenderest_ - state_shift(numbers_, age, Health::good, false));
  }

  Track make(bool with_rest) {
    Track made;
    const std::size_t winters = replay_.winter_end.size(), rows = hardier_.size() + 1;
    made.left.assign(rows * winters, 1.0);
    find_hurts();
    if (with_rest) {
      made.start = start_;
      for (const Hurt& one : hurts_) made.place.push_back(static_cast<std::uint16_t>(one.place));
      made.rest.resize(rows * hurts_.size());
    }
    for (std::size_t row = 0; row < rows; ++row) {
      const int shift = row == 0 ? 0 : hardier_[row - 1];
      for (std::size_t w = 0; w < winters; ++w) {
        double left = 1;
        for (std::size_t i = start_[w + 1]; i-- > start_[w];) {
          const Hurt& one = hurts_[i];
          const int threshold = one.threshold - shift;
          if (threshold > one.cold->lowest) left *= 1 - one.at_stake * share_killed(replay_, *one.cold, threshold);
          if (with_rest) made.rest[row * hurts_.size() + i] = left;
        }
        made.left[row * winters + w] = left;
      }
    }
    return made;
  }

 private:
  // The warmest killing point it can ever have.
  [[nodiscard]] int warmest() const {
    switch (what_.stake) {
      case Stake::crown: return what_.point.unhardened + std::max(0, -what_.stock_gain) + state_shift(numbers_, 1, Health::good, false);
      case Stake::root: return numbers_.root;
      case Stake::fruit:
      case Stake::bloom: break;
    }
    return what_.point.unhardened;
  }

  void find_hurts() {
    const int below = warmest() + numbers_.width + std::max(0, -what_.warmer);
    std::uint32_t first = 0;
    for (const std::uint32_t end : replay_.winter_end) {
      start_.push_back(static_cast<std::uint32_t>(hurts_.size()));
      for (std::uint32_t at = first; at < end && replay_.colds[at].lowest < below; ++at) {
        const Replay::Cold& cold = replay_.colds[at];
        const int point = what_.stake == Stake::root ? numbers_.root - (cold.long_freeze ? 0 : pot_) : curve_.at(cold.hardening) + tenderest_;
        const int threshold = point - (cold.windy ? 0 : what_.warmer) + numbers_.width - std::max(0, cold.windy ? what_.cover_windy : what_.cover_still);
        if (threshold <= cold.lowest) continue;
        const double at_stake = what_.stake == Stake::fruit ? calendar_.fruit(cold.day) : what_.stake == Stake::bloom ? calendar_.bloom(cold.month) : 1;
        if (at_stake > 0) hurts_.push_back({&cold, at - first, at_stake, threshold});
      }
      first = end;
    }
    start_.push_back(static_cast<std::uint32_t>(hurts_.size()));
  }

  const TrackCase& what_;
  const Replay& replay_;
  const ColdNumbers& numbers_;
  Calendar calendar_;
  Curve curve_;
  int pot_ = 0, tenderest_ = 0;
  std::vector<int> hardier_;  // tenths, by row after the first
  std::vector<Hurt> hurts_;
  std::vector<std::uint32_t> start_;  // by winter
};

}  // namespace

int crown_ages(const ColdNumbers& numbers) { return std::min(kAges, numbers.grown_years); }

const Track& track(const TrackCase& what, bool with_rest, const Replay& replay, ReplayMemo& memo) {
  const auto [at, added] = memo.tracks.try_emplace(std::bit_cast<ReplayMemo::TrackKey>(what));
  if (added || (with_rest && at->second.start.empty())) at->second = Maker(what, replay).make(with_rest);
  return at->second;
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
