#include <cmath>

#include "tenwinters/climate.h"

namespace tenwinters {
namespace {

constexpr bool leap(int year) {
  return year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
}
constexpr int kBefore[] = {0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334};

// Enough cold-season minima (of 151 or 152, and 153) to trust that the lowest reading is among them.
constexpr int kNeeded = 143;

bool cold_season(int month, bool southern) {
  return southern ? 5 <= month && month <= 9 : month >= 11 || month <= 3;
}

}  // namespace

int days_in_month(int year, int month) {
  constexpr int lengths[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  return month == 2 && leap(year) ? 29 : lengths[month - 1];
}

bool is_date(int year, int month, int day) {
  return year >= 1600 && year <= 2999 && month >= 1 && month <= 12 && day >= 1 && day <= days_in_month(year, month);
}

int day_of_year(const CivilDate& date) {
  return kBefore[date.month - 1] + date.day + (date.month > 2 && leap(date.year) ? 1 : 0);
}

int day_number(int year, int month, int day) {
  const int y = year - 1;
  constexpr int before_1970 = 1969 * 365 + 1969 / 4 - 1969 / 100 + 1969 / 400;
  return y * 365 + y / 4 - y / 100 + y / 400 - before_1970 + day_of_year({year, month, day}) - 1;
}

CivilDate civil_date(int number) {
  int year = 1970 + number / 366;  // never late, at most a year or two early per century
  if (number < 0) year = 1970 + number / 365 - 1;
  while (day_number(year + 1, 1, 1) <= number) ++year;
  int left = number - day_number(year, 1, 1), month = 1;
  while (left >= days_in_month(year, month)) left -= days_in_month(year, month++);
  return {year, month, left + 1};
}

int winter_year(const CivilDate& date, bool southern) {
  return date.year + (!southern && date.month >= 7 ? 1 : 0);
}

int winter_start(int winter, bool southern) {
  return southern ? day_number(winter, 1, 1) : day_number(winter - 1, 7, 1);
}

WinterList list_winters(std::span<const Day> days, bool southern) {
  struct Seen {
    WinterLow low;
    int readings = 0, minima = 0;
  };
  std::vector<Seen> seen;  // by winter, without holes
  for (const Day& day : days) {
    if (std::isnan(day.min_c)) continue;
    const int year = winter_year({day.year, day.month, day.day}, southern);
    while (seen.empty() || seen.back().low.year < year) {
      Seen next;
      next.low.year = seen.empty() ? year : seen.back().low.year + 1;
      next.low.first_freeze.fill(-1);
      next.low.last_freeze.fill(-1);
      seen.push_back(next);
    }
    Seen& winter = seen.back();
    const int number = day_number(day.year, day.month, day.day);
    if (winter.readings++ == 0 || day.min_c < winter.low.lowest_c) {
      winter.low.lowest_c = day.min_c;
      winter.low.lowest_day = number;
    }
    if (cold_season(day.month, southern)) ++winter.minima;
    for (std::size_t i = 0; i < kFreezeCount; ++i) {
      if (day.min_c > (kFreezeThresholdsF[i] - 32) * 5 / 9 + kRoundingC) continue;
      const int since = number - winter_start(year, southern);
      if (winter.low.first_freeze[i] < 0) winter.low.first_freeze[i] = since;
      winter.low.last_freeze[i] = since;
    }
  }
  // A record that starts or ends in summer touches a winter it says nothing about: not worth a word.
  while (!seen.empty() && seen.back().minima == 0) seen.pop_back();
  std::size_t first = 0;
  while (first < seen.size() && seen[first].minima == 0) ++first;
  WinterList list;
  for (std::size_t i = first; i < seen.size(); ++i) {
    if (seen[i].minima >= kNeeded)
      list.complete.push_back(seen[i].low);
    else
      list.left_out.push_back(seen[i].low.year);
  }
  return list;
}

bool seasons_turned(std::span<const Day> days) {
  double june = 0, december = 0;
  int june_days = 0, december_days = 0;
  for (const Day& day : days) {
    if (std::isnan(day.min_c)) continue;
    if (day.month >= 6 && day.month <= 8) june += day.min_c, ++june_days;
    if (day.month == 12 || day.month <= 2) december += day.min_c, ++december_days;
  }
  if (june_days < 30 || december_days < 30) return false;
  return june / june_days + 1 < december / december_days;
}

}  // namespace tenwinters
