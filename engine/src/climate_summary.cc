#include <algorithm>
#include <cmath>

#include "tenwinters/climate.h"

namespace tenwinters {
namespace {

constexpr std::size_t kNormalWinters = 30, kFitWinters = 10, kColdestShown = 5;
constexpr double kReturnYears[] = {2, 5, 10, 20, 50, 100};

void count_days(std::span<const Day> days, ClimateSummary& summary) {
  summary.last_day = -1;
  int previous = 0;
  bool any = false;
  for (const Day& day : days) {
    if (std::isnan(day.min_c)) continue;
    const int number = day_number(day.year, day.month, day.day);
    if (!any)
      summary.first_day = number;
    else if (number > previous + 1) {
      summary.gaps.push_back({previous + 1, number - previous - 1});
      summary.days_missing += number - previous - 1;
    }
    any = true;
    previous = summary.last_day = number;
    ++summary.days;
  }
}

std::vector<WinterLow> chosen_winters(const std::vector<WinterLow>& complete, const ClimateOptions& options) {
  if (options.first_winter == 0 && options.last_winter == 0) {
    const std::size_t n = std::min(kNormalWinters, complete.size());
    return {complete.end() - static_cast<std::ptrdiff_t>(n), complete.end()};
  }
  std::vector<WinterLow> chosen;
  for (const WinterLow& winter : complete)
    if (winter.year >= options.first_winter && (options.last_winter == 0 || winter.year <= options.last_winter))
      chosen.push_back(winter);
  return chosen;
}

void fit_extremes(ClimateSummary& summary) {
  const std::vector<WinterLow>& all = summary.winters.complete;
  if (all.size() < kFitWinters) return;
  std::vector<double> negated, years, lows;
  for (const WinterLow& winter : all) {
    negated.push_back(-winter.lowest_c);
    years.push_back(winter.year / 10.0);
    lows.push_back(winter.lowest_c);
  }
  summary.negated_moments = sample_l_moments(negated);
  summary.trend_c_per_decade = theil_sen(years, lows);
  if (!(summary.negated_moments.l2 > 0)) return;  // every winter the same: nothing to fit
  summary.gev = fit_gev(summary.negated_moments);
  const std::vector<Range> limits = bootstrap_return_levels(*summary.gev, all.size(), kReturnYears);
  for (std::size_t i = 0; i < std::size(kReturnYears); ++i)
    summary.return_levels.push_back(
        {kReturnYears[i], return_level_of_minima(*summary.gev, kReturnYears[i]), limits[i]});
}

void list_coldest(std::span<const Day> days, double latitude_deg, ClimateSummary& summary) {
  std::vector<WinterLow> order = summary.winters.complete;
  std::stable_sort(order.begin(), order.end(),
                   [](const WinterLow& a, const WinterLow& b) { return a.lowest_c < b.lowest_c; });
  order.resize(std::min(order.size(), kColdestShown));
  if (order.empty()) return;
  const HourlySeries hours = hourly_series(days, latitude_deg, true);
  const std::vector<float> hardening = hardening_by_day(hours, summary.southern);
  for (const WinterLow& winter : order) {
    const auto day = static_cast<std::size_t>(winter.lowest_day - hours.first_day);
    summary.coldest.push_back({winter, static_cast<double>(hardening[day]), cool_hours_500(hours, day * 24)});
  }
}

}  // namespace

ClimateSummary summarize(std::span<const Day> days, const ClimateOptions& options) {
  ClimateSummary summary;
  summary.southern =
      options.southern ? *options.southern : (options.latitude_known ? options.latitude_deg < 0 : seasons_turned(days));
  count_days(days, summary);
  summary.winters = list_winters(days, summary.southern);
  const std::vector<WinterLow> chosen = chosen_winters(summary.winters.complete, options);
  if (!chosen.empty()) {
    summary.normal = {chosen.front().year, chosen.back().year, static_cast<int>(chosen.size()), 0};
    for (const WinterLow& winter : chosen) summary.normal.mean_c += winter.lowest_c;
    summary.normal.mean_c /= static_cast<double>(chosen.size());
    summary.zone = hardiness_zone(summary.normal.mean_c);
    for (const WinterLow& winter : summary.winters.complete) summary.mean_all_c += winter.lowest_c;
    summary.mean_all_c /= static_cast<double>(summary.winters.complete.size());
  }
  for (std::size_t i = 0; i < kFreezeCount; ++i) summary.freezes.push_back(freeze_dates(chosen, i));
  fit_extremes(summary);
  summary.heat = heat_units(days);
  // Day length is the same north and south half a year apart; without a latitude the sign still matters.
  const double latitude = summary.southern && options.latitude_deg > 0 && !options.latitude_known
                              ? -options.latitude_deg
                              : options.latitude_deg;
  list_coldest(days, latitude, summary);
  return summary;
}

}  // namespace tenwinters
