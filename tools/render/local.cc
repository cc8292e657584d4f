#include "render/local.h"

#include <algorithm>
#include <cmath>

#include "tenwinters/units.h"

namespace tenwinters {
namespace {

constexpr int kMonths = 12, kYear = 365;
constexpr int kShortestMonths = 3;  // between bloom and harvest, as in the replay
constexpr int kEverbearing = 11;
constexpr std::array<int, kMonths> kLengths = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

int start_of(int month) {  // 0..11
  int days = 0;
  for (int m = 0; m < month; ++m) days += kLengths[static_cast<std::size_t>(m)];
  return days;
}

int length_of(const Window& window) { return (window.to_month - window.from_month + kMonths) % kMonths + 1; }

// Calls `visit(day, celsius)` for every cold hour of a winter. From noon on the hours of a night count as the next
// day's, whose reading at dawn they lead to: a freeze bears the date that the thermometer's reader wrote down.
template <class Visit>
void each_hour(const Winter& winter, Visit visit) {
  for (const Spell& spell : winter.spells)
    for (std::size_t i = 0; i < spell.tenths_c.size(); ++i)
      if (spell.tenths_c[i] != kWarm) visit(spell.day + (spell.start_hour + static_cast<int>(i) + 12) / 24, spell.tenths_c[i] / 10.0);
}

// The calendar month, 1..12, of a day as Spell::day.
int month_of(int day, bool south) {
  int left = ((south ? day : day + 181) % kYear + kYear) % kYear, month = 0;
  while (left >= kLengths[static_cast<std::size_t>(month)]) left -= kLengths[static_cast<std::size_t>(month++)];
  return month + 1;
}

}  // namespace

std::vector<WinterLow> lows_of(const Winters& winters) {
  std::vector<WinterLow> lows;
  for (const Winter& winter : winters.winters) {
    WinterLow low;
    low.year = winter.year;
    low.lowest_c = winter.lowest_tenths_c / 10.0;
    low.first_freeze.fill(-1);
    low.last_freeze.fill(-1);
    for (std::size_t i = 0; i < kFreezeCount; ++i) {
      const double limit = to_celsius(Fahrenheit{kFreezeThresholdsF[i]}).degrees + kRoundingC;
      each_hour(winter, [&](int day, double celsius) {
        if (celsius > limit) return;
        if (low.first_freeze[i] < 0) low.first_freeze[i] = day;
        low.first_freeze[i] = std::min(low.first_freeze[i], day);
        low.last_freeze[i] = std::max(low.last_freeze[i], day);
      });
    }
    low.first_freeze[0] = winter.first_freeze_day;
    low.last_freeze[0] = winter.last_freeze_day;
    lows.push_back(low);
  }
  return lows;
}

double middle_of(const Window& window) {
  const int first = start_of(window.from_month - 1);
  int days = 0;
  for (int i = 0; i < length_of(window); ++i) days += kLengths[static_cast<std::size_t>((window.from_month - 1 + i) % kMonths)];
  return std::fmod(first + days / 2.0, kYear);
}

std::optional<double> day_with_heat(const Winters& winters, double from_day, double need) {
  std::array<double, kMonths> a_day{};
  for (const Winter& winter : winters.winters)
    for (std::size_t m = 0; m < a_day.size(); ++m) a_day[m] += winter.heat_units[m];
  if (winters.winters.empty()) return std::nullopt;
  for (std::size_t m = 0; m < a_day.size(); ++m) a_day[m] /= kLengths[m] * static_cast<double>(winters.winters.size());
  double day = from_day;
  for (int month = 0; month < 2 * kMonths + 1; ++month) {
    const int year = month / kMonths * kYear;
    const double end = year + start_of(month % kMonths) + kLengths[static_cast<std::size_t>(month % kMonths)];
    if (end <= day) continue;
    if (day - from_day > 2 * kYear) break;
    const double rate = a_day[static_cast<std::size_t>(month % kMonths)], given = rate * (end - day);
    if (given >= need && rate > 0) return day + need / rate;
    need -= given;
    day = end;
  }
  return std::nullopt;
}

int winters_with_heat(const Winters& winters, const Window& bloom, const Window& ripe, double need) {
  const int middle = bloom.from_month - 1 + (length_of(bloom) - 1) / 2, first = middle + 1;
  int months = kMonths;
  if (length_of(ripe) < kEverbearing) {
    int wait = (ripe.from_month - 1 - middle + 2 * kMonths) % kMonths;
    if (wait < kShortestMonths) wait += kMonths;
    months = wait + length_of(ripe) - 1;
  }
  return static_cast<int>(std::count_if(winters.winters.begin(), winters.winters.end(), [&](const Winter& winter) {
    double sum = 0;
    for (int i = 0; i < months; ++i) sum += winter.heat_units[static_cast<std::size_t>((first + i) % kMonths)];
    return sum >= need;
  }));
}

ColdCount cold_count(const Winters& winters, double celsius) {
  ColdCount count;
  for (const Winter& winter : winters.winters) {
    bool cold = winter.lowest_tenths_c / 10.0 <= celsius;
    each_hour(winter, [&](int day, double air) {
      if (air > celsius) return;
      cold = true;
      if (count.earliest_day < 0 || day < count.earliest_day) count.earliest_day = day;
    });
    count.winters += cold ? 1 : 0;
  }
  return count;
}

int winters_cold_in(const Winters& winters, double celsius, int month) {
  const bool south = winters.latitude_deg < 0;
  return static_cast<int>(std::count_if(winters.winters.begin(), winters.winters.end(), [&](const Winter& winter) {
    bool found = false;
    each_hour(winter, [&](int day, double air) { found = found || (air <= celsius && month_of(day, south) == month); });
    return found;
  }));
}

}  // namespace tenwinters
