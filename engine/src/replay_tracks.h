// What every winter leaves of one tissue if nobody works against the cold. Trees share these: two cultivars
// of one hardiness on one stock lose the same wood, however much their crops differ.
#pragma once

#include <algorithm>
#include <cstdint>
#include <vector>

#include "replay.h"

namespace tenwinters {

// Leaf, wood and trunk are one kind of stake: they differ only by their killing points.
enum class Stake : std::int32_t { crown, fruit, bloom, root };

struct TrackCase {
  Stake stake = Stake::crown;
  std::int32_t lean = 0;
  KillingPoint point;                             // crown, fruit, bloom
  std::int32_t stock_gain = 0;                    // crown: tenths, hardened
  std::int32_t warmer = 0;                        // tenths, still nights
  std::int32_t cover_still = 0, cover_windy = 0;  // tenths; of a cover that stands all winter
  std::int32_t from = 0, months = 0;              // fruit: ripening; bloom: bloom; root: litres, 0
};
static_assert(sizeof(TrackCase) == sizeof(ReplayMemo::TrackKey));

// Of the crown, for each of the ages 1 to `crown_ages`; of the others, for all ages alike. The freezes of a winter are
// multiplied from the mildest to the coldest.
using Track = ReplayMemo::Track;
const Track& track(const TrackCase& what, const Replay& replay, ReplayMemo& memo);

inline constexpr std::array<double, kAges> kWhole = {1, 1, 1, 1, 1, 1, 1, 1, 1, 1};

// What the freezes of a winter from the `from`th coldest on leave, by age.
[[nodiscard]] inline const double* rest_of(const Track& track, std::size_t winter, std::size_t from) {
  std::size_t at = track.start[winter];
  const std::size_t end = track.start[winter + 1];
  while (at < end && track.place[at] < from) ++at;
  return at < end ? &track.left[at * track.ages] : kWhole.data();
}

// Killing points at every hardening, by hundredths. Draws on the memo it was made with.
class Curve {
 public:
  Curve(const KillingPoint& point, int stock_gain, ReplayMemo& memo)
      : unhardened_(point.unhardened), fall_(scaled(point.hardened - point.unhardened, memo)), gain_(scaled(stock_gain, memo)) {}
  [[nodiscard]] int at(std::size_t hundredths) const { return unhardened_ + fall_[hundredths] - gain_[hundredths]; }

 private:
  static const std::int16_t* scaled(int tenths, ReplayMemo& memo);

  int unhardened_ = 0;
  const std::int16_t *fall_, *gain_;
};

// Trees of this age and older are grown: they fare alike.
[[nodiscard]] int crown_ages(const ColdNumbers& numbers);

// Share killed by one freeze at a threshold (killing point + width, in the station's air), so much above its lowest
// hour; `most` is that of kWarmestThreshold.
[[nodiscard]] inline double share_killed(const float* injuries, int most, int above) {
  return static_cast<double>(injuries[std::max(std::min(above, most), 0)]);
}

// A season's fruit or bloom that is out on a day, for the length of one replay.
class Calendar {
 public:
  Calendar(int ripe_from, int ripe_months, int bloom_from, int bloom_months);
  [[nodiscard]] double fruit(int day) const;        // share still on the tree
  [[nodiscard]] double bloom(int month) const { return bloom_[static_cast<std::size_t>(month)]; }

 private:
  int start_ = 0, end_ = 0;
  bool never_ = false, always_ = false;
  std::array<double, 12> bloom_{};
};

}  // namespace tenwinters
