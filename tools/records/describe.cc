#include "records/describe.h"

#include <fmt/core.h>

#include <array>
#include <cmath>

namespace tenwinters {
namespace {

constexpr std::string_view kMonths[] = {"January", "February", "March",     "April",   "May",      "June",
                                        "July",    "August",   "September", "October", "November", "December"};

std::string day_and_year(int number) {
  const CivilDate d = civil_date(number);
  return fmt::format("{} {} {}", d.day, kMonths[d.month - 1], d.year);
}

std::string threshold(double f, Units units) {
  return units == Units::us ? fmt::format("{:.0f} °F", f) : fmt::format("{:.1f} °C", (f - 32) * 5 / 9);
}

std::string zone_words(const ClimateSummary& s, Units units) {
  const double f = s.normal.mean_c * 9 / 5 + 32;
  const double low_edge = -60 + 5 * std::floor((f + 60) / 5 + 1e-9);
  std::string words = fmt::format("That is hardiness zone {}", zone_name(s.zone));
  const double to_low = f - low_edge, to_high = low_edge + 5 - f;
  if (std::min(to_low, to_high) < 1)
    words +=
        fmt::format(", though only {} from the next {} one", say_difference(std::min(to_low, to_high) * 5 / 9, units),
                    to_low < to_high ? "colder" : "warmer");
  return words + ".";
}

std::string coldest_words(const ClimateSummary& s, Units units) {
  const ColdestWinter& worst = s.coldest.front();
  std::string words = fmt::format("The coldest night on record was {} on {}.",
                                  say_temperature(worst.winter.lowest_c, units), day_and_year(worst.winter.lowest_day));
  if (worst.winter.lowest_c > 0) return words;
  if (worst.hardening < 0.35)
    words += " It came out of mild weather, when trees were hardly hardened.";
  else if (worst.hardening > 0.7)
    words += " It came after long cool weather, when trees were well hardened.";
  return words;
}

std::string level_words(const ClimateSummary& s, Units units) {
  std::string words;
  for (const ReturnLevel& level : s.return_levels) {
    if (level.years != 10 && level.years != 50) continue;
    words += fmt::format("{} in {:.0f} should see {} or colder (nine times in ten this lies between {} and {}). ",
                         words.empty() ? "One winter" : "One", level.years, say_temperature(level.level_c, units),
                         say_temperature(level.limits_c.low, units), say_temperature(level.limits_c.high, units));
  }
  if (!words.empty() && !s.coldest.empty() && s.coldest.front().winter.lowest_c < s.return_levels.back().level_c)
    words +=
        fmt::format("The fit puts even the 100-winter low at {}, warmer than what has happened: do not lean on it. ",
                    say_temperature(s.return_levels.back().level_c, units));
  if (!words.empty()) words.pop_back();
  return words;
}

std::string freeze_words(const ClimateSummary& s, const FreezeDates& f, Units units) {
  const std::string cold = threshold(f.threshold_f, units);
  if (f.winters_with_freeze == 0) return fmt::format("It reached {} in none of the {} winters.", cold, f.winters);
  std::string words = f.winters_with_freeze == f.winters
                          ? fmt::format("It reached {} in every winter", cold)
                          : fmt::format("It reached {} in {} of {} winters", cold, f.winters_with_freeze, f.winters);
  if (f.first[2] && f.last[2])
    words += fmt::format(": half have had it by {}, and half still do on or after {}",
                         winter_date(*f.first[2], s.southern), winter_date(*f.last[2], s.southern));
  else
    words += ", not in more than half of them, so there is no usual date";
  if (f.first[0] && f.last[0])
    words += fmt::format("; one in ten by {}, and one in ten as late as {}", winter_date(*f.first[0], s.southern),
                         winter_date(*f.last[0], s.southern));
  return words + ".";
}

std::string trend_words(const Trend& trend, Units units) {
  const std::string change = say_difference(std::abs(trend.slope), units);
  const std::string way = trend.slope >= 0 ? "warmer" : "colder";
  if (trend.limits.low > 0 || trend.limits.high < 0)
    return fmt::format("Winter lows have become {} {} a decade.", change, way);
  return fmt::format("Winter lows show no clear trend ({} {} a decade, which chance alone can make).", change, way);
}

}  // namespace

std::string winter_date(int days_since_start, bool southern) {
  // A year without 29 February: the calendar people think in.
  const CivilDate d = civil_date(winter_start(southern ? 2001 : 2002, southern) + days_since_start);
  return fmt::format("{} {}", d.day, kMonths[d.month - 1]);
}

std::string say_temperature(double celsius, Units units) {
  return units == Units::us ? fmt::format("{:.0f} °F", celsius * 9 / 5 + 32) : fmt::format("{:.1f} °C", celsius);
}

std::string say_difference(double celsius, Units units) {
  return units == Units::us ? fmt::format("{:.1f} °F", celsius * 9 / 5) : fmt::format("{:.1f} °C", celsius);
}

std::vector<std::string> describe_climate(const ClimateSummary& s, Units units) {
  if (s.normal.winters == 0)
    return {"The record holds no complete winter, so nothing can be said of the winters here."};
  std::vector<std::string> paragraphs;
  std::string winters =
      fmt::format("In {} complete winters, {} to {}, the lowest reading of the winter averaged {}. ", s.normal.winters,
                  s.normal.first_winter, s.normal.last_winter, say_temperature(s.normal.mean_c, units));
  if (s.normal.winters < 10)
    winters += "So few winters say little; take the zone as a guess. ";
  else if (s.normal.winters < 30)
    winters += "Fewer than 30 winters: the zone may shift with more. ";
  winters += zone_words(s, units);
  if (!s.coldest.empty()) winters += " " + coldest_words(s, units);
  paragraphs.push_back(winters);
  if (const std::string levels = level_words(s, units); !levels.empty()) paragraphs.push_back(levels);
  std::string freezes;
  for (const FreezeDates& f : s.freezes) {
    freezes += (freezes.empty() ? "" : " ") + freeze_words(s, f, units);
    if (f.winters_with_freeze == 0) break;  // nor will the colder ones
  }
  paragraphs.push_back(freezes);
  std::string rest;
  if (!std::isnan(s.heat.year))
    rest = units == Units::us
               ? fmt::format("Heat above 55 °F adds up to {:.0f} degree-days (°F) a year. ", s.heat.year * 9 / 5)
               : fmt::format("Heat above 12.8 °C adds up to {:.0f} degree-days a year. ", s.heat.year);
  if (s.trend_c_per_decade) rest += trend_words(*s.trend_c_per_decade, units);
  if (!rest.empty()) paragraphs.push_back(rest);
  return paragraphs;
}

}  // namespace tenwinters
