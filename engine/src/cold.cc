#include "tenwinters/cold.h"

#include <algorithm>

namespace tenwinters {
namespace {

constexpr int kHalfHours = 4;  // a killing point is defined at four hours
constexpr int kDayHours = 24;

int whole(double value) { return static_cast<int>(value + 0.5); }  // value >= 0

}  // namespace

double lean_on(const Fact& fact, Lean lean, bool more_is_kinder) {
  if (lean == Lean::best) return fact.best;
  const bool up = (lean == Lean::kinder) == more_is_kinder;
  return fact.best + ((up ? fact.high : fact.low) - fact.best) / 2;
}

int to_tenths(double celsius) {
  const double scaled = celsius * 10;
  return static_cast<int>(scaled >= 0 ? scaled + 0.5 : scaled - 0.5);
}

ColdNumbers cold_numbers(const ColdModel& model, Lean lean) {
  ColdNumbers n;
  n.width = std::max(1, to_tenths(model.dose_width_c.best));
  n.power = std::clamp(whole(model.dose_power.best), 1, 6);
  n.young = to_tenths(lean_on(model.young_c, lean, false));
  n.grown_years = std::max(2, whole(model.grown_years.best));
  n.fair_health = to_tenths(lean_on(model.fair_health_c, lean, false));
  n.poor_health = std::max(n.fair_health, to_tenths(lean_on(model.poor_health_c, lean, false)));
  n.heavy_crop = to_tenths(lean_on(model.heavy_crop_c, lean, false));
  n.root = to_tenths(lean_on(model.root_c, lean, false));
  n.small_pot_c = lean_on(model.small_pot_c, lean, true);
  n.large_pot_c = std::max(n.small_pot_c, lean_on(model.large_pot_c, lean, true));
  n.call_margin = to_tenths(model.call_margin_c.best);
  n.regrowth_years = std::clamp(whole(model.regrowth_years.best), 0, 3);
  n.leaf_crop_share = lean_on(model.leaf_crop_share, lean, false);
  n.heat_share = lean_on(model.heat_share, lean, false);
  n.reach_m = model.reach_m.best;
  n.full_height_years = std::max(1.0, model.full_height_years.best);
  return n;
}

KillingPoint killing_point(const TissueCold& tissue, Lean lean) {
  KillingPoint point{to_tenths(lean_on(tissue.hardened, lean, false)),
                     to_tenths(lean_on(tissue.unhardened, lean, false))};
  point.hardened = std::min(point.hardened, point.unhardened);
  return point;
}

int state_shift(const ColdNumbers& numbers, int age, Health health, bool heavy_crop) {
  int shift = 0;
  if (age < numbers.grown_years) {
    const int missing = numbers.grown_years - std::max(1, age);
    const int span = numbers.grown_years - 1;
    shift += (2 * numbers.young * missing + span) / (2 * span);
  }
  if (health == Health::fair) shift += numbers.fair_health;
  if (health == Health::poor) shift += numbers.poor_health;
  if (heavy_crop) shift += numbers.heavy_crop;
  return shift;
}

int pot_shift(const ColdNumbers& numbers, double litres, bool long_freeze) {
  if (long_freeze) return 0;
  const double at = std::clamp(litres, kSmallPotLitres, kLargePotLitres);
  const double share = (at - kSmallPotLitres) / (kLargePotLitres - kSmallPotLitres);
  return to_tenths(numbers.small_pot_c + (numbers.large_pot_c - numbers.small_pot_c) * share);
}

std::int64_t dose(std::span<const std::int16_t> tenths_c, int threshold) {
  std::int64_t sum = 0;
  for (const std::int16_t air : tenths_c) sum += std::max(0, threshold - air);
  return sum;
}

double injury(std::int64_t dose, const ColdNumbers& numbers) {
  if (dose <= 0) return 0;
  const double ratio = static_cast<double>(dose) / static_cast<double>(kHalfHours * numbers.width);
  double grown = ratio;
  for (int i = 1; i < numbers.power; ++i) grown *= ratio;
  return grown / (grown + 1);
}

bool long_freeze(std::span<const std::int16_t> tenths_c) {
  int run = 0;
  for (const std::int16_t air : tenths_c) {
    run = air <= 0 ? run + 1 : 0;
    if (run >= kDayHours) return true;
  }
  return false;
}

std::vector<Freeze> freezes(std::span<const std::int16_t> tenths_c) {
  std::vector<Freeze> all;
  bool frozen = false, thawed = true;  // since the start of the piece; by the hour before
  std::size_t first = 0;
  for (std::size_t hour = 0; hour < tenths_c.size(); ++hour) {
    const bool frost = tenths_c[hour] <= 0;
    if (frost && thawed && frozen) {
      all.push_back({first, hour - first});
      first = hour;
    }
    frozen = frozen || frost;
    thawed = !frost;
  }
  if (first < tenths_c.size()) all.push_back({first, tenths_c.size() - first});
  return all;
}

double injury_of_spell(std::span<const std::int16_t> tenths_c, int threshold, const ColdNumbers& numbers) {
  double left = 1;
  for (const Freeze& freeze : freezes(tenths_c))
    left *= 1 - injury(dose(tenths_c.subspan(freeze.first, freeze.count), threshold), numbers);
  return 1 - left;
}

}  // namespace tenwinters
