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
  std::int32_t above;      // threshold of the tenderest row, above the lowest hour
  std::int32_t most;       // the highest that is told apart
  double at_stake;         // share of the tissue that is out
  std::size_t place;       // among the freezes of its winter
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
      rows_ = static_cast<std::size_t>(crown_ages(numbers_));
    }
    for (std::size_t row = 1; row < rows_; ++row)
      hardier_[row] = tenderest_ - state_shift(numbers_, static_cast<int>(row) + 1, Health::good, false);
  }

  Track make(bool with_rest) {
    Track made;
    const std::size_t winters = replay_.winter_end.size();
    made.left.resize(rows_ * winters);
    find_hurts();
    if (with_rest) {
      std::size_t sum = 0;
      for (std::size_t w = 0; w <= winters; ++w) {
        made.start.push_back(static_cast<std::uint32_t>(sum));
        if (w < winters) sum += start_[w + 1] > start_[w] ? hurts_[start_[w + 1] - 1].place + 2 : 1;
      }
      made.rest.resize(rows_ * sum, 1.0);
    }
    for (std::size_t w = 0; w < winters; ++w) {
      std::array<double, kAges> left;
      left.fill(1);
      for (std::size_t i = start_[w + 1]; i-- > start_[w];) {
        const Hurt& one = hurts_[i];
        for (std::size_t row = 0; row < rows_; ++row)
          left[row] *= 1 - one.at_stake * share_killed(one.injuries, one.most, one.above - hardier_[row]);
        if (!with_rest) continue;
        const std::size_t harsher = i > start_[w] ? hurts_[i - 1].place + 1 : 0;
        for (std::size_t row = 0; row < rows_; ++row)
          for (std::size_t place = harsher; place <= one.place; ++place)
            made.rest[row * made.start.back() + made.start[w] + place] = left[row];
      }
      for (std::size_t row = 0; row < rows_; ++row) made.left[row * winters + w] = left[row];
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

  void find_hurts() {
    const int below = warmest() + numbers_.width + std::max(0, -what_.warmer) - std::max(0, std::min(what_.cover_still, what_.cover_windy));
    const int still = tenderest_ + numbers_.width - what_.warmer - std::max(0, what_.cover_still);
    const int windy = tenderest_ + numbers_.width - std::max(0, what_.cover_windy);
    const bool root = what_.stake == Stake::root, always = root || what_.stake == Stake::crown;
    hurts_.reserve(replay_.colds.size());
    start_.reserve(replay_.winter_end.size() + 1);
    std::uint32_t first = 0;
    for (const std::uint32_t end : replay_.winter_end) {
      start_.push_back(static_cast<std::uint32_t>(hurts_.size()));
      for (std::uint32_t at = first; at < end; ++at) {
        const Replay::Cold& cold = replay_.colds[at];
        if (cold.lowest >= below) break;
        const int point = root ? numbers_.root - (cold.long_freeze ? 0 : pot_) : curve_.at(cold.hardening);
        const int threshold = point + (cold.windy ? windy : still);
        if (threshold <= cold.lowest) continue;
        const double at_stake = always ? 1 : what_.stake == Stake::fruit ? calendar_.fruit(cold.day) : calendar_.bloom(cold.month);
        if (at_stake > 0) hurts_.push_back({&replay_.injuries[cold.injuries], threshold - cold.lowest, kWarmestThreshold - cold.lowest, at_stake, at - first});
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
  std::size_t rows_ = 1;
  std::array<int, kAges> hardier_{};  // tenths, by row; rising
  std::vector<Hurt> hurts_;
  std::vector<std::uint32_t> start_;  // by winter
};

}  // namespace

int crown_ages(const ColdNumbers& numbers) { return std::min(kAges, numbers.grown_years); }

const Track& track(const TrackCase& what, bool with_rest, const Replay& replay, ReplayMemo& memo) {
  const auto [at, added] = memo.tracks.try_emplace(std::bit_cast<ReplayMemo::TrackKey>(what));
  if (added || (with_rest && at->second.start.empty())) at->second = Maker(what, replay, memo).make(with_rest);
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
