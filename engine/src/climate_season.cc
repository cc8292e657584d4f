#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "order_statistic.h"
#include "tenwinters/climate.h"

namespace tenwinters {

Zone hardiness_zone(double mean_annual_extreme_min_c) {
  const double f = mean_annual_extreme_min_c * 9 / 5 + 32;
  const int half = static_cast<int>(std::floor((f + 60) / 5 + 1e-9));  // an edge belongs to the warmer side
  const int held = std::clamp(half, 0, 25);
  return {held / 2 + 1, held % 2 == 0 ? 'a' : 'b'};
}

std::string zone_name(const Zone& zone) {
  return std::to_string(zone.number) + zone.half;
}

FreezeDates freeze_dates(std::span<const WinterLow> winters, std::size_t threshold_index) {
  FreezeDates result;
  result.threshold_f = kFreezeThresholdsF[threshold_index];
  result.winters = static_cast<int>(winters.size());
  std::vector<int> first, last;
  for (const WinterLow& winter : winters) {
    if (winter.first_freeze[threshold_index] < 0) continue;
    first.push_back(winter.first_freeze[threshold_index]);
    last.push_back(winter.last_freeze[threshold_index]);
  }
  result.winters_with_freeze = static_cast<int>(first.size());
  std::sort(first.begin(), first.end());
  std::sort(last.rbegin(), last.rend());
  for (std::size_t i = 0; i < kChances.size(); ++i) {
    result.first[i] = order_statistic(first, result.winters, kChances[i]);
    result.last[i] = order_statistic(last, result.winters, kChances[i]);
  }
  return result;
}

double degree_days_mean(double min, double max, double base) {
  return std::max(0.0, (min + max) / 2 - base);
}

double degree_days_lifted(double min, double max, double base) {
  return (std::max(min, base) + std::max(max, base)) / 2 - base;
}

double degree_days_triangle(double min, double max, double base, double upper) {
  // Area of the triangle above a level, over a day.
  const auto above = [&](double level) {
    if (max <= level) return 0.0;
    if (min >= level) return (min + max) / 2 - level;
    return (max - level) * (max - level) / (2 * (max - min));
  };
  return above(base) - above(upper);
}

double degree_days_sine(double min, double max, double base, double upper) {
  const double mean = (min + max) / 2, swing = (max - min) / 2;
  const auto above = [&](double level) {
    if (max <= level) return 0.0;
    if (min >= level) return mean - level;
    const double angle = std::asin((level - mean) / swing);
    return ((mean - level) * (std::numbers::pi / 2 - angle) + swing * std::cos(angle)) / std::numbers::pi;
  };
  return above(base) - above(upper);
}

std::optional<double> month_heat(std::span<const Day> days, int year, int month) {
  const auto before = [](const Day& day, const CivilDate& date) {
    return day_number(day.year, day.month, day.day) < day_number(date.year, date.month, date.day);
  };
  auto at = std::lower_bound(days.begin(), days.end(), CivilDate{year, month, 1}, before);
  double sum = 0;
  int read = 0;
  for (; at != days.end() && at->year == year && at->month == month; ++at) {
    if (std::isnan(at->min_c) || std::isnan(at->max_c)) continue;
    sum += degree_days_mean(at->min_c, at->max_c, kHeatBaseC);
    ++read;
  }
  if (read < 20) return std::nullopt;
  return sum * days_in_month(year, month) / read;
}

HeatUnits heat_units(std::span<const Day> days) {
  HeatUnits heat;
  heat.month.fill(std::numeric_limits<double>::quiet_NaN());
  for (int month = 1; month <= 12; ++month) {
    double sum = 0;
    int years = 0;
    for (int year = days.empty() ? 1 : days.front().year; year <= (days.empty() ? 0 : days.back().year); ++year)
      if (const auto total = month_heat(days, year, month)) sum += *total, ++years;
    if (years > 0) heat.month[static_cast<std::size_t>(month - 1)] = sum / years;
  }
  for (const double month : heat.month) heat.year += month;
  return heat;
}

}  // namespace tenwinters
