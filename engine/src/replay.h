// One planting as whole numbers, and its ten years: shared by prospect.cc and its tables.
#pragma once

#include <array>
#include <bit>
#include <cstdint>
#include <span>
#include <vector>

#include "tenwinters/prospect.h"

namespace tenwinters {

inline constexpr int kAges = 10;
// The first day of each month of the season, 1 July onwards, and the end.
inline constexpr int kMonthStart[] = {0, 31, 62, 92, 123, 153, 184, 215, 243, 274, 304, 335, 365};

// All that the outcome depends on besides the replay: equal cases have equal outcomes.
struct ReplayCase {
  std::array<KillingPoint, kTissueCount> points{};
  std::int32_t lean = 0;
  std::int32_t stock_gain = 0;           // tenths, hardened
  std::int32_t warmer = 0;               // tenths, still nights
  std::int32_t cover_still = 0, cover_windy = 0;  // tenths
  std::int32_t covers = 0;               // bit per Tissue
  std::int32_t cover_ages = 0;           // protection fits at ages 1..this
  std::int32_t free_cover = 0;           // 1: stands all winter, costs no night
  std::int32_t work_hundredths = 0;      // nights
  std::int32_t litres = 0;               // 0 = in the ground
  std::int32_t bearing_hundredths = 0;   // years
  std::int32_t ripe_from = 0, ripe_months = 0;    // month of the season, 0 = July; 0 months = never
  std::int32_t bloom_from = 0, bloom_months = 0;  // the same
  std::int32_t heat_from = 0, heat_months = 0;    // calendar month 0..11 after bloom, and how many count
  std::int32_t heat_need = 0;            // degree-days that a crop needs
  std::array<std::int32_t, 4> spare{};   // fills the key
};
static_assert(sizeof(ReplayCase) == sizeof(ReplayMemo::Key));

// What cultivar, stock and region decide, and the rest: spot, pot, protection and work.
[[nodiscard]] ReplayCase tree_case(const Planting& planting, const Replay& replay, Lean lean);
[[nodiscard]] ReplayCase with_care(ReplayCase tree, const Planting& planting, const Replay& replay);

// Shares of one winter at one age, averaged over winters by the chain.
enum Share { survives, keeps_wood, next_crop, crop_kept, crop_frozen, nights, kShares };
using Shares = std::array<double, kShares>;

using Sums = std::array<Shares, kAges>;  // by class

// Ages that fare alike are one class.
struct Played {
  std::array<int, kAges> class_of_age{};
  std::size_t classes = 0;
  Sums sums{};                           // over the winters
  std::vector<Shares> rows;              // winter by winter, class by class; only if asked for
};
[[nodiscard]] Played play(const ReplayCase& what, bool with_rows, const Replay& replay, ReplayMemo& memo);

// The ten years that follow from the averages of each class: alive at ten, harvests, nights, crops lost.
using TenYears = std::array<double, 4>;
[[nodiscard]] TenYears ten_years(const ReplayCase& what, const ColdNumbers& numbers, const Played& played,
                                const std::array<Shares, kAges>& averages);

// Share of a full crop that a tree of this age bears, 0..1.
[[nodiscard]] double bears(const ReplayCase& what, int age);

// Month of the season, 0 = July, of a day since 1 July.
[[nodiscard]] int season_month(int day);

}  // namespace tenwinters
