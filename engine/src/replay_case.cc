// A planting in whole numbers: which figures of tree, stock, spot and protection decide its winters.
#include <algorithm>

#include "replay.h"
#include "ripening.h"

namespace tenwinters {
namespace {

constexpr int kMonthsInYear = 12;
constexpr int kJuly = 7;
constexpr int kShortestMonths = 3;      // no citrus ripens sooner after bloom: the next year's window is meant

int season_index(int month) { return (month - kJuly + kMonthsInYear) % kMonthsInYear; }

int to_hundredths(double value) { return static_cast<int>(std::clamp(value, 0.0, 1e6) * 100 + 0.5); }

// Heat of an average year by calendar month, degree-days.
std::array<int, 12> average_heat(const Replay& replay) {
  std::array<int, 12> sum{};
  for (const Replay::HeatSums& sums : replay.heat)
    for (std::size_t month = 0; month < sum.size(); ++month) sum[month] += sums[month + 1] - sums[month];
  for (int& one : sum) one /= std::max(1, static_cast<int>(replay.heat.size()));
  return sum;
}

// Months after bloom in which an average year gathers the heat, or 0 if it does not within two years.
int months_to_ripen(const std::array<int, 12>& heat, int first_month, int need) {
  int sum = 0;
  for (int months = 1; months <= 2 * kMonthsInYear; ++months) {
    sum += heat[static_cast<std::size_t>((first_month + months - 1) % kMonthsInYear)];
    if (sum >= need) return months;
  }
  return 0;
}

void set_season(ReplayCase& what, const Traits& traits, Region region, const Replay& replay, Lean lean) {
  what.bloom_from = season_index(traits.bloom.from_month);
  what.bloom_months = window_months(traits.bloom);
  what.bearing_hundredths = to_hundredths(lean_on(traits.bearing_age_years, lean, false));
  what.heat_need = static_cast<int>(lean_on(traits.heat_units_c, lean, false) *
                                    replay.numbers[static_cast<std::size_t>(lean)].heat_share + 0.5);

  bool local = false;
  const Window* window = ripening_window(traits, region, &local);
  if (window == nullptr) return;  // a checked catalogue lists at least one

  // Heat counts from the month after the middle of bloom.
  const int mid_bloom = traits.bloom.from_month - 1 + (what.bloom_months - 1) / 2;
  what.heat_from = (mid_bloom + 1) % kMonthsInYear;
  what.ripe_months = window_months(*window);
  if (what.ripe_months >= kEverbearingMonths) {
    what.ripe_from = season_index(window->from_month);
    what.heat_months = kMonthsInYear;
    return;
  }
  int first = window->from_month - 1;
  if (!local) {
    const int months = months_to_ripen(average_heat(replay), what.heat_from, what.heat_need);
    if (months > 0) first = (what.heat_from + months - 1) % kMonthsInYear;
  }
  what.ripe_from = season_index(first + 1);
  int wait = (first - mid_bloom + 2 * kMonthsInYear) % kMonthsInYear;
  if (wait < kShortestMonths) wait += kMonthsInYear;
  what.heat_months = wait + what.ripe_months - 1;
}

void set_protection(ReplayCase& what, const Planting& planting, const Traits& traits, const Replay& replay, Lean lean) {
  const Protection& protection = *planting.protection;
  if (protection.container_only && !(planting.container_l > 0 && planting.moves_indoors)) return;
  what.cover_still = std::max(0, to_tenths(lean_on(protection.gain_c, lean, true)));
  what.cover_windy = std::max(0, to_tenths(lean_on(protection.windy_gain_c, lean, true)));
  for (std::size_t tissue = 0; tissue < kTissueCount; ++tissue)
    if (protection.covers[tissue]) what.covers |= 1 << tissue;
  what.free_cover = protection.minutes_per_night.best > 0 ? 0 : 1;
  what.work_hundredths = to_hundredths(planting.work_nights);
  what.cover_ages = kAges;
  if (protection.fits_tall_trees || planting.container_l > 0) return;
  // Height grows evenly: the last age at which a household still reaches over the tree.
  const ColdNumbers& numbers = replay.numbers[static_cast<std::size_t>(lean)];
  const double full = traits.height_m.best * planting.rootstock->size_share.best;
  while (what.cover_ages > 0 && full * what.cover_ages > numbers.reach_m * numbers.full_height_years) --what.cover_ages;
}

}  // namespace

int season_month(int day) {
  int month = 0;
  while (month < kMonthsInYear - 1 && day >= kMonthStart[month + 1]) ++month;
  return month;
}

ReplayCase tree_case(const Planting& planting, const Replay& replay, Lean lean) {
  const Traits& traits = planting.cultivar->traits;
  ReplayCase what;
  what.lean = static_cast<std::int32_t>(lean);
  for (std::size_t tissue = 0; tissue < kTissueCount; ++tissue)
    what.points[tissue] = killing_point(traits.cold[tissue], lean);
  what.stock_gain = to_tenths(lean_on(planting.rootstock->cold_gain_c, lean, true));
  set_season(what, traits, planting.region, replay, lean);
  return what;
}

ReplayCase with_care(ReplayCase tree, const Planting& planting, const Replay& replay) {
  tree.warmer = to_tenths(planting.warmer_c);
  if (planting.container_l > 0)  // smaller and larger pots than these are as cold as they
    tree.litres = static_cast<int>(std::clamp(planting.container_l, kSmallPotLitres, kLargePotLitres) + 0.5);
  set_protection(tree, planting, planting.cultivar->traits, replay, static_cast<Lean>(tree.lean));
  return tree;
}

double bears(const ReplayCase& what, int age) {
  return std::clamp(age * 100 - what.bearing_hundredths + 100, 0, 100) / 100.0;
}

}  // namespace tenwinters
