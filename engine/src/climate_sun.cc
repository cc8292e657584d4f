#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "tenwinters/climate.h"

namespace tenwinters {
namespace {

constexpr double kPi = std::numbers::pi;

// Hours of daylight when the sun's declination is `declination` (radians) and day starts and ends with
// the sun's centre `altitude` (radians) above the horizon.
double hours_above(double altitude, double latitude, double declination) {
  const double cosine =
      (std::sin(altitude) - std::sin(latitude) * std::sin(declination)) / (std::cos(latitude) * std::cos(declination));
  if (cosine >= 1) return 0;
  if (cosine <= -1) return 24;
  return 24 / kPi * std::acos(cosine);
}

double spencer_declination(int day_of_year) {
  const double g = 2 * kPi / 365 * (day_of_year - 1);
  return 0.006918 - 0.399912 * std::cos(g) + 0.070257 * std::sin(g) - 0.006758 * std::cos(2 * g) +
         0.000907 * std::sin(2 * g) - 0.002697 * std::cos(3 * g) + 0.00148 * std::sin(3 * g);
}

double fao56_declination(int day_of_year) { return 0.409 * std::sin(2 * kPi / 365 * day_of_year - 1.39); }

}  // namespace

double solar_declination_deg(int day_of_year, SunRule rule) {
  return (rule == SunRule::fao56 ? fao56_declination(day_of_year) : spencer_declination(day_of_year)) * 180 / kPi;
}

double day_length_h(double latitude_deg, int day_of_year, SunRule rule) {
  const double latitude = std::clamp(latitude_deg, -89.99, 89.99) * kPi / 180;
  if (rule == SunRule::fao56) return hours_above(0, latitude, fao56_declination(day_of_year));
  return hours_above(-0.8333 * kPi / 180, latitude, spencer_declination(day_of_year));
}

double air_by_day(const CurveDay& today, double hours_after_sunrise) {
  return today.min_c + (today.max_c - today.min_c) * std::sin(kPi * hours_after_sunrise / (today.day_length_h + 4));
}

double air_by_night(double at_sunset_c, double next_min_c, double night_h, double hours_after_sunset, NightFall fall) {
  const double done = fall == NightFall::from_sunset ? std::log(hours_after_sunset + 1) / std::log(night_h + 1)
                                                     : std::log(std::max(1.0, hours_after_sunset)) / std::log(night_h);
  return at_sunset_c - (at_sunset_c - next_min_c) * done;
}

double air_at(const CurveDay& yesterday, const CurveDay& today, const CurveDay& tomorrow, double hour, NightFall fall) {
  if (hour < today.sunrise_h()) {
    const double night = today.sunrise_h() + 24 - yesterday.sunset_h();
    return air_by_night(air_by_day(yesterday, yesterday.day_length_h), today.min_c, night,
                        hour + 24 - yesterday.sunset_h(), fall);
  }
  if (hour <= today.sunset_h()) return air_by_day(today, hour - today.sunrise_h());
  const double night = tomorrow.sunrise_h() + 24 - today.sunset_h();
  return air_by_night(air_by_day(today, today.day_length_h), tomorrow.min_c, night, hour - today.sunset_h(), fall);
}

HourlySeries hourly_series(std::span<const Day> days, double latitude_deg, bool bridge) {
  HourlySeries series;
  if (days.empty()) return series;
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  series.first_day = day_number(days.front().year, days.front().month, days.front().day);
  const int last = day_number(days.back().year, days.back().month, days.back().day);
  const auto count = static_cast<std::size_t>(last - series.first_day) + 1;

  std::array<double, 12> min_sum{}, range_sum{};
  std::array<int, 12> min_n{}, range_n{};
  for (const Day& day : days) {
    const auto m = static_cast<std::size_t>(day.month - 1);
    if (!std::isnan(day.min_c)) min_sum[m] += day.min_c, ++min_n[m];
    if (!std::isnan(day.min_c) && !std::isnan(day.max_c)) range_sum[m] += day.max_c - day.min_c, ++range_n[m];
  }
  double length[367];
  for (int j = 1; j <= 366; ++j) length[j] = day_length_h(latitude_deg, j);

  std::vector<CurveDay> curve(count, CurveDay{nan, nan, 12});
  series.read.assign(count, 0);
  for (const Day& day : days) {
    const auto i = static_cast<std::size_t>(day_number(day.year, day.month, day.day) - series.first_day);
    curve[i].min_c = day.min_c;
    curve[i].max_c = day.max_c;
    series.read[i] = !std::isnan(day.min_c);
  }
  CivilDate date = civil_date(series.first_day);
  for (std::size_t i = 0; i < count; ++i) {
    const auto m = static_cast<std::size_t>(date.month - 1);
    const double range = range_n[m] > 0 ? range_sum[m] / range_n[m] : 10;
    CurveDay& day = curve[i];
    day.day_length_h = length[day_of_year(date)];
    if (std::isnan(day.min_c) && bridge) {
      if (!std::isnan(day.max_c))
        day.min_c = day.max_c - range;
      else if (min_n[m] > 0)
        day.min_c = min_sum[m] / min_n[m];
    }
    if (std::isnan(day.max_c)) day.max_c = day.min_c + range;
    if (++date.day > days_in_month(date.year, date.month)) {
      date.day = 1;
      if (++date.month > 12) date.month = 1, ++date.year;
    }
  }
  series.air_c.resize(count * 24);
  for (std::size_t i = 0; i < count; ++i) {
    const CurveDay& today = curve[i];
    const CurveDay& yesterday = i > 0 && !std::isnan(curve[i - 1].min_c) ? curve[i - 1] : today;
    const CurveDay& tomorrow = i + 1 < count && !std::isnan(curve[i + 1].min_c) ? curve[i + 1] : today;
    const auto dawn = static_cast<int>(std::lround(today.sunrise_h()));
    for (int hour = 0; hour < 24; ++hour)
      series.air_c[i * 24 + static_cast<std::size_t>(hour)] =
          static_cast<float>(hour == dawn ? today.min_c : air_at(yesterday, today, tomorrow, hour));
  }
  return series;
}

}  // namespace tenwinters
