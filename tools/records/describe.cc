#include "records/describe.h"

#include <array>
#include <cmath>

#include "tenwinters/units.h"

namespace tenwinters {
namespace {

constexpr double kNearEdgeF = 1;  // a zone's edge so near is worth a word

std::string zone_words(const ClimateSummary& s, const ClimateVoice& voice) {
  const double f = to_fahrenheit(Celsius{s.normal.mean_c}).degrees;
  const double low_edge = -60 + 5 * std::floor((f + 60) / 5 + 1e-9);
  const double to_low = f - low_edge, to_high = low_edge + 5 - f;
  if (std::min(to_low, to_high) >= kNearEdgeF) return voice.say("zone", {{"zone", zone_name(s.zone)}});
  return voice.say(to_low < to_high ? "zone_near_colder" : "zone_near_warmer",
                   {{"zone", zone_name(s.zone)}, {"by", voice.difference(std::min(to_low, to_high) * 5 / 9)}});
}

std::string winters_words(const ClimateSummary& s, const ClimateVoice& voice) {
  std::string words = voice.say("winters", {{"n", std::to_string(s.normal.winters)},
                                            {"first", std::to_string(s.normal.first_winter)},
                                            {"last", std::to_string(s.normal.last_winter)},
                                            {"low", voice.temperature(s.normal.mean_c)}});
  if (s.normal.winters < 10)
    words += " " + voice.say("winters_few");
  else if (s.normal.winters < 30)
    words += " " + voice.say("winters_some");
  words += " " + zone_words(s, voice);
  if (s.coldest.empty()) return words;
  const ColdestWinter& worst = s.coldest.front();
  words += " " + voice.say("coldest", {{"low", voice.temperature(worst.winter.lowest_c)},
                                       {"date", voice.full_date(worst.winter.lowest_day)}});
  if (worst.winter.lowest_c > 0) return words;
  if (worst.hardening < 0.35)
    words += " " + voice.say("coldest_sudden");
  else if (worst.hardening > 0.7)
    words += " " + voice.say("coldest_hardened");
  return words;
}

std::string level_words(const ClimateSummary& s, const ClimateVoice& voice) {
  std::string words;
  for (const ReturnLevel& level : s.return_levels) {
    if (level.years != 10 && level.years != 50) continue;
    words += (words.empty() ? "" : " ") + voice.say(words.empty() ? "level" : "level_more",
                                                    {{"winters", voice.whole(level.years)},
                                                     {"level", voice.temperature(level.level_c)},
                                                     {"low", voice.temperature(level.limits_c.low)},
                                                     {"high", voice.temperature(level.limits_c.high)}});
  }
  if (!words.empty() && !s.coldest.empty() && s.coldest.front().winter.lowest_c < s.return_levels.back().level_c)
    words += " " + voice.say("level_doubt", {{"level", voice.temperature(s.return_levels.back().level_c)}});
  return words;
}

std::string freeze_words(const ClimateSummary& s, const FreezeDates& f, const ClimateVoice& voice) {
  const std::vector<std::pair<std::string, std::string>> fills{
      {"cold", voice.temperature(to_celsius(Fahrenheit{f.threshold_f}).degrees)},
      {"froze", std::to_string(f.winters_with_freeze)},
      {"winters", std::to_string(f.winters)}};
  if (f.winters_with_freeze == 0) return voice.say("freeze_never", fills);
  const auto dates = [&](std::size_t chance) {
    auto more = fills;
    more.emplace_back("first", voice.winter_date(*f.first[chance], s.southern));
    more.emplace_back("last", voice.winter_date(*f.last[chance], s.southern));
    return more;
  };
  std::string words = voice.say(f.winters_with_freeze == f.winters ? "freeze_always" : "freeze_some", fills);
  words += " " + (f.first[2] && f.last[2] ? voice.say("freeze_half", dates(2)) : voice.say("freeze_no_date"));
  if (f.first[0] && f.last[0]) words += " " + voice.say("freeze_tenth", dates(0));
  return words;
}

std::string trend_words(const Trend& trend, const ClimateVoice& voice) {
  const bool clear = trend.limits.low > 0 || trend.limits.high < 0;
  return voice.say(std::string(clear ? "trend_" : "no_trend_") + (trend.slope >= 0 ? "warmer" : "colder"),
                   {{"by", voice.difference(std::abs(trend.slope))}});
}

}  // namespace

std::string ClimateVoice::say(const std::string& key, std::vector<std::pair<std::string, std::string>> fills) const {
  return say_phrase(language, {"climate." + key, std::move(fills)});
}

std::string ClimateVoice::temperature(double celsius) const {
  return units == Units::us
             ? say_phrase(language, {"units.fahrenheit", {{"v", say_number(language, to_fahrenheit(Celsius{celsius}).degrees, 0)}}})
             : say_phrase(language, {"units.celsius", {{"v", say_number(language, celsius, 1)}}});
}

std::string ClimateVoice::difference(double celsius) const {
  const bool us = units == Units::us;
  return say_phrase(language, {us ? "units.fahrenheit_difference" : "units.celsius_difference",
                               {{"v", say_number(language, us ? celsius * 9 / 5 : celsius, 1)}}});
}

std::string ClimateVoice::whole(double value) const { return say_number(language, value, 0); }

std::string ClimateVoice::winter_date(int days_since_start, bool southern) const {
  // A year without 29 February: the calendar people think in.
  const CivilDate d = civil_date(winter_start(southern ? 2001 : 2002, southern) + days_since_start);
  return say("date", {{"day", std::to_string(d.day)}, {"month", language.say("language.months." + std::to_string(d.month))}});
}

std::string ClimateVoice::full_date(int number) const {
  const CivilDate d = civil_date(number);
  return say("full_date", {{"day", std::to_string(d.day)},
                           {"month", language.say("language.months." + std::to_string(d.month))},
                           {"year", std::to_string(d.year)}});
}

std::vector<std::string> describe_climate(const ClimateSummary& s, const ClimateVoice& voice) {
  if (s.normal.winters == 0) return {voice.say("nothing")};
  std::vector<std::string> paragraphs{winters_words(s, voice)};
  if (std::string levels = level_words(s, voice); !levels.empty()) paragraphs.push_back(std::move(levels));
  std::string freezes;
  for (const FreezeDates& f : s.freezes) {
    freezes += (freezes.empty() ? "" : " ") + freeze_words(s, f, voice);
    if (f.winters_with_freeze == 0) break;  // nor will the colder ones
  }
  paragraphs.push_back(std::move(freezes));
  std::string rest;
  if (!std::isnan(s.heat.year))
    rest = voice.units == Units::us ? voice.say("heat_us", {{"sum", voice.whole(s.heat.year * 9 / 5)}})
                                    : voice.say("heat_metric", {{"sum", voice.whole(s.heat.year)}});
  if (s.trend_c_per_decade) rest += (rest.empty() ? "" : " ") + trend_words(*s.trend_c_per_decade, voice);
  if (!rest.empty()) paragraphs.push_back(std::move(rest));
  return paragraphs;
}

std::string describe_yearly_lows(const YearlyLows& lows, const ClimateVoice& voice) {
  std::vector<std::pair<std::string, std::string>> fills{{"mean", voice.temperature(lows.mean_c)},
                                                         {"deviation", voice.difference(lows.deviation_c)}};
  for (std::size_t i = 0; i < kYearlyLowYears.size(); ++i)
    fills.emplace_back("in" + std::to_string(kYearlyLowYears[i]), voice.temperature(lows.level_c[i]));
  return voice.say("yearly_lows", std::move(fills));
}

}  // namespace tenwinters
