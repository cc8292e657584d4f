// One freezing night and one tissue: how cold, how long, how hardened -> how much of it dies.
//
//   Each tissue has a killing point: the air temperature at which four hours kill half of it. It runs
//   from its unhardened to its hardened value as the tree hardens, and shifts with stock, age, health
//   and crop. Hours count from `width` above that point, each by its depth:
//
//     dose   = sum over hours of max(0, killing point + width - air)
//     injury = dose^n / (dose^n + (4 h x width)^n)
//
//   So four hours at the killing point give one half, a short dip a little below it next to nothing,
//   and the same depth held all night nearly all.
//
// Temperatures are whole tenths of a degree, so that a sum is the same number in whatever order and on
// whatever machine it is taken.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "tenwinters/catalog.h"
#include "tenwinters/cold_model.h"
#include "tenwinters/winters.h"

namespace tenwinters {

enum class Health { good, fair, poor };
template <> struct Names<Health> {
  static constexpr std::string_view list[] = {"good", "fair", "poor"};
};

// Which end of the evidence to read: the best figure, or half way to the end that is worse or kinder
// for the tree. Half, because facts that err independently seldom all err fully to one side: four of
// them, each half way, are as unlikely together as one of them all the way.
enum class Lean { best, worse, kinder };

// A fact read with a lean; `more_is_kinder` says which end is which.
[[nodiscard]] double lean_on(const Fact& fact, Lean lean, bool more_is_kinder);

// Nearest whole tenth of a degree, halves away from zero. |celsius| < 1e6.
[[nodiscard]] int to_tenths(double celsius);

// The constants a replay needs, quantised.
struct ColdNumbers {
  int width = 0;                 // tenths of a degree
  int power = 1;
  int young = 0;                 // tenths
  int grown_years = 2;
  int fair_health = 0, poor_health = 0, heavy_crop = 0;  // tenths
  int root = 0;                  // tenths
  double small_pot_c = 0, large_pot_c = 0;
  int call_margin = 0;           // tenths
  int regrowth_years = 0;
  double leaf_crop_share = 0;
  double heat_share = 0;
  double reach_m = 0;
  double full_height_years = 1;
};
[[nodiscard]] ColdNumbers cold_numbers(const ColdModel& model, Lean lean);

// A tissue's two end points, tenths of a degree.
struct KillingPoint {
  int hardened = 0;
  int unhardened = 0;
};
[[nodiscard]] KillingPoint killing_point(const TissueCold& tissue, Lean lean);

// `tenths` scaled by hardening 0..1000, to the nearest tenth, halves away from zero.
[[nodiscard]] constexpr int at_hardening(int tenths, int permille) {
  const int product = tenths * permille;
  return (product >= 0 ? product + 500 : product - 500) / 1000;
}

// The killing point at a hardening of 0..1000, before any shift.
[[nodiscard]] constexpr int killing_tenths(const KillingPoint& point, int permille) {
  return point.unhardened + at_hardening(point.hardened - point.unhardened, permille);
}

// How much tenderer (tenths, never negative) a tree's age, health and crop make leaf, wood and trunk.
// Age counts winters since planting, from 1.
[[nodiscard]] int state_shift(const ColdNumbers& numbers, int age, Health health, bool heavy_crop);

// How much warmer (tenths) than the air the roots in a pot of so many litres stay on one night; none
// after a day of unbroken frost.
[[nodiscard]] int pot_shift(const ColdNumbers& numbers, double litres, bool long_freeze);

// Dose above a threshold (killing point + width), tenths of degree-hours. Hours of kWarm add nothing.
[[nodiscard]] std::int64_t dose(std::span<const std::int16_t> tenths_c, int threshold);

// Share of the tissue killed, 0..1.
[[nodiscard]] double injury(std::int64_t dose, const ColdNumbers& numbers);

// A whole day (24 hours on end) at or below freezing.
[[nodiscard]] bool long_freeze(std::span<const std::int16_t> tenths_c);

// A spell of cold hours, cut where it freezes again after a thaw (an hour above 0 C, or kWarm): each piece
// is a freeze of its own, and what one leaves alive the next can kill. A spell without frost is one piece.
struct Freeze {
  std::size_t first = 0, count = 0;        // hours of the spell
};
[[nodiscard]] std::vector<Freeze> freezes(std::span<const std::int16_t> tenths_c);

// The share killed by all the freezes of a spell, at one threshold.
[[nodiscard]] double injury_of_spell(std::span<const std::int16_t> tenths_c, int threshold, const ColdNumbers& numbers);

}  // namespace tenwinters
