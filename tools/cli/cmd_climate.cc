// tenwinters climate: what a station's record says about its winters.
#include <fmt/core.h>

#include <cmath>
#include <memory>
#include <nlohmann/json.hpp>

#include "cli/commands.h"
#include "records/describe.h"
#include "records/records.h"

namespace tenwinters::cli {
namespace {

using Json = nlohmann::ordered_json;

struct Options {
  std::string file, unit, svg;
  std::optional<double> latitude;
  bool south = false, json = false;
  int from = 0, to = 0;
};

// What was read, and how the place of the station was settled.
struct Reading {
  Record record;
  ClimateOptions options;
  Phrase latitude_said;
  ClimateSummary summary;
  std::vector<CurveError> curve;  // hourly files only
};

double rounded(double value, int digits) {
  const double scale = std::pow(10, digits);
  const double result = std::round(value * scale) / scale;
  return result == 0 ? 0 : result;  // no negative nought
}

Json number(double value, int digits) {
  return std::isfinite(value) ? Json(rounded(value, digits)) : Json(nullptr);
}

std::string iso(int day) {
  const CivilDate d = civil_date(day);
  return fmt::format("{:04}-{:02}-{:02}", d.year, d.month, d.day);
}

void settle_latitude(const Options& options, Reading& reading) {
  ClimateOptions& o = reading.options;
  o.first_winter = options.from;
  o.last_winter = options.to;
  if (options.latitude) {
    o.latitude_deg = *options.latitude;
    o.latitude_known = true;
    reading.latitude_said = {"climate.record.latitude_given", {{"degrees", fmt::format("{}", o.latitude_deg)}}};
  } else if (reading.record.latitude_deg && std::abs(*reading.record.latitude_deg) <= 90) {
    o.latitude_deg = *reading.record.latitude_deg;
    o.latitude_known = true;
    reading.latitude_said = {"climate.record.latitude_file", {{"degrees", fmt::format("{}", o.latitude_deg)}}};
  } else {
    const bool turned = options.south || seasons_turned(reading.record.days);
    o.latitude_deg = turned ? -30 : 30;
    reading.latitude_said = {turned ? "climate.record.latitude_south" : "climate.record.latitude_north", {}};
  }
  if (options.south) o.southern = true;
}

Json freeze_json(const FreezeDates& f, bool southern) {
  Json first = Json::object(), last = Json::object();
  const auto date = [southern](const std::optional<int>& day) -> Json {
    if (!day) return nullptr;
    const CivilDate d = civil_date(winter_start(southern ? 2001 : 2002, southern) + *day);
    return fmt::format("{:02}-{:02}", d.month, d.day);
  };
  for (std::size_t i = 0; i < kChances.size(); ++i) {
    first[std::to_string(kChances[i])] = date(f.first[i]);
    last[std::to_string(kChances[i])] = date(f.last[i]);
  }
  return {{"threshold_f", f.threshold_f},
          {"threshold_c", number((f.threshold_f - 32) * 5 / 9, 1)},
          {"winters", f.winters},
          {"winters_with_freeze", f.winters_with_freeze},
          {"first_by_percent_of_winters", first},
          {"last_on_or_after_percent_chance", last}};
}

Json gev_json(const ClimateSummary& s) {
  if (!s.gev) return nullptr;
  Json levels = Json::object(), limits = Json::object();
  for (const ReturnLevel& level : s.return_levels) {
    const std::string years = fmt::format("{:.0f}", level.years);
    levels[years] = number(level.level_c, 2);
    limits[years] = {number(level.limits_c.low, 1), number(level.limits_c.high, 1)};
  }
  return {{"of", "winter minima in degrees C, negated"},
          {"method", "L-moments"},
          {"winters", s.winters.complete.size()},
          {"location", number(s.gev->location, 4)},
          {"scale", number(s.gev->scale, 4)},
          {"shape", number(s.gev->shape, 4)},
          {"shape_sign", "Hosking k, minus Coles xi: positive means that cold has a floor"},
          {"return_level_c", levels},
          {"interval_90_c", limits},
          {"l_moments",
           {{"l1", number(s.negated_moments.l1, 5)},
            {"l2", number(s.negated_moments.l2, 5)},
            {"t3", number(s.negated_moments.t3, 5)},
            {"t4", number(s.negated_moments.t4, 5)}}}};
}

Json coldest_json(const ClimateSummary& s) {
  Json list = Json::array();
  for (const ColdestWinter& c : s.coldest)
    list.push_back({{"winter", c.winter.year},
                    {"min_c", number(c.winter.lowest_c, 1)},
                    {"date", iso(c.winter.lowest_day)},
                    {"hardening", number(c.hardening, 2)},
                    {"cool_hours_500", c.cool_hours_500}});
  return list;
}

Json record_json(const Record& record, const ClimateSummary& s) {
  Json long_gaps = Json::array();
  for (const Gap& gap : s.gaps)
    if (gap.days > 20) long_gaps.push_back({{"from", iso(gap.first_day)}, {"days", gap.days}});
  const RecordDropped& d = record.dropped;
  return {{"first_day", s.days > 0 ? Json(iso(s.first_day)) : Json(nullptr)},
          {"last_day", s.days > 0 ? Json(iso(s.last_day)) : Json(nullptr)},
          {"days", s.days},
          {"days_missing", s.days_missing},
          {"gaps", s.gaps.size()},
          {"gaps_over_20_days", long_gaps},
          {"dropped",
           {{"flagged", d.flagged},
            {"impossible", d.impossible},
            {"min_above_max", d.min_above_max},
            {"lone_dips", d.lone_dips},
            {"duplicates", d.duplicates}}},
          {"winters", s.winters.complete.size()},
          {"left_out", s.winters.left_out}};
}

Json curve_json(const std::vector<CurveError>& curve) {
  Json months = Json::array();
  for (const CurveError& e : curve)
    months.push_back({{"month", fmt::format("{:04}-{:02}", e.year, e.month)},
                      {"hours", e.hours},
                      {"rmse_c", number(e.rmse_c, 2)},
                      {"bias_c", number(e.bias_c, 2)},
                      {"hours_at_or_below_0c", {{"read", e.read_below_0}, {"rebuilt", e.rebuilt_below_0}}},
                      {"hours_at_or_below_5c", {{"read", e.read_below_5}, {"rebuilt", e.rebuilt_below_5}}}});
  return months;
}

Json yearly_lows_json(const YearlyLows& lows) {
  Json levels = Json::object();
  for (std::size_t i = 0; i < kYearlyLowYears.size(); ++i)
    levels[std::to_string(kYearlyLowYears[i])] = number(lows.level_c[i], 1);
  return {{"of", "coldest hour of each year, from the file's header"},
          {"mean_c", number(lows.mean_c, 1)},
          {"standard_deviation_c", number(lows.deviation_c, 1)},
          {"level_c", levels}};
}

Json to_json(const Reading& reading, const ClimateVoice& voice) {
  const ClimateSummary& s = reading.summary;
  Json notes = Json::array();
  for (const Phrase& note : reading.record.notes) notes.push_back(say_phrase(voice.language, note));
  const bool any = s.normal.winters > 0;
  Json heat = Json::array();
  for (const double month : s.heat.month) heat.push_back(number(month, 1));
  Json freezes = Json::array(), warnings = Json::array();
  for (const FreezeDates& f : s.freezes) freezes.push_back(freeze_json(f, s.southern));
  for (const Diagnostic& d : reading.record.faults)
    warnings.push_back({{"line", d.line}, {"column", d.column}, {"message", d.message}});
  Json out{{"station", reading.record.station},
           {"remark", reading.record.remark},
           {"format", say_phrase(voice.language, reading.record.format)},
           {"unit_said", say_phrase(voice.language, reading.record.unit_said)},
           {"hemisphere", s.southern ? "south" : "north"},
           {"latitude_said", say_phrase(voice.language, reading.latitude_said)},
           {"mean_annual_extreme_min_c", any ? number(s.normal.mean_c, 3) : Json(nullptr)},
           {"mean_annual_extreme_min_f", any ? number(s.normal.mean_c * 9 / 5 + 32, 2) : Json(nullptr)},
           {"over",
            {{"first_winter", any ? Json(s.normal.first_winter) : Json(nullptr)},
             {"last_winter", any ? Json(s.normal.last_winter) : Json(nullptr)},
             {"winters", s.normal.winters}}},
           {"zone", any ? Json(zone_name(s.zone)) : Json(nullptr)},
           {"mean_annual_extreme_min_all_c", any ? number(s.mean_all_c, 3) : Json(nullptr)},
           {"coldest", coldest_json(s)},
           {"gev", gev_json(s)},
           {"freeze_dates", freezes},
           {"heat_units", {{"base_c", kHeatBaseC}, {"month_c_days", heat}, {"year_c_days", number(s.heat.year, 0)}}},
           {"trend", nullptr},
           {"record", record_json(reading.record, s)},
           {"said", describe_climate(s, voice)},
           {"notes", notes},
           {"warnings", warnings}};
  if (s.trend_c_per_decade)
    out["trend"] = {
        {"c_per_decade", number(s.trend_c_per_decade->slope, 3)},
        {"limits_90", {number(s.trend_c_per_decade->limits.low, 3), number(s.trend_c_per_decade->limits.high, 3)}}};
  if (reading.record.yearly_lows) out["header_yearly_lows"] = yearly_lows_json(*reading.record.yearly_lows);
  if (!reading.curve.empty()) out["hourly_curve"] = curve_json(reading.curve);
  return out;
}

// "1971-1984, 1990"
std::string year_runs(const std::vector<int>& years) {
  std::string out;
  for (std::size_t i = 0; i < years.size();) {
    std::size_t j = i;
    while (j + 1 < years.size() && years[j + 1] == years[j] + 1) ++j;
    out += (out.empty() ? "" : ", ") + std::to_string(years[i]) + (j > i ? "-" + std::to_string(years[j]) : "");
    i = j + 1;
  }
  return out;
}

void print_record(const Reading& reading, const ClimateVoice& voice) {
  const Record& record = reading.record;
  const ClimateSummary& s = reading.summary;
  const Language& words = voice.language;
  using Fills = std::vector<std::pair<std::string, std::string>>;
  const auto bullet = [](const std::string& text) { fmt::print("- {}\n", wrap(text, 2).substr(2)); };
  const auto say = [&](const std::string& key, Fills fills) { bullet(voice.say("record." + key, std::move(fills))); };
  fmt::print("{}\n\n", record.station);
  say("read", {{"format", say_phrase(words, record.format)}, {"unit", say_phrase(words, record.unit_said)}});
  if (!record.remark.empty()) say("remark", {{"remark", record.remark}});
  for (const Phrase& note : record.notes) bullet(say_phrase(words, note));
  if (s.days == 0) return;
  say("span", {{"first", iso(s.first_day)},
               {"last", iso(s.last_day)},
               {"days", std::to_string(s.days)},
               {"missing", std::to_string(s.days_missing)},
               {"gaps", std::to_string(s.gaps.size())}});
  const RecordDropped& d = record.dropped;
  if (d.flagged + d.impossible + d.min_above_max + d.lone_dips + d.duplicates > 0)
    say("dropped", {{"flagged", std::to_string(d.flagged)},
                    {"impossible", std::to_string(d.impossible)},
                    {"crossed", std::to_string(d.min_above_max)},
                    {"dips", std::to_string(d.lone_dips)},
                    {"repeated", std::to_string(d.duplicates)}});
  say(s.winters.left_out.empty() ? "winters_all" : "winters_some",
      {{"count", std::to_string(s.winters.complete.size())}, {"years", year_runs(s.winters.left_out)}});
  say(s.southern ? "seasons_south" : "seasons_north", {{"latitude", say_phrase(words, reading.latitude_said)}});
}

void print_text(const Reading& reading, const ClimateVoice& voice) {
  const ClimateSummary& s = reading.summary;
  print_record(reading, voice);
  if (reading.record.yearly_lows)
    fmt::print("\n{}\n", wrap(describe_yearly_lows(*reading.record.yearly_lows, voice), 0));
  for (const std::string& paragraph : describe_climate(s, voice)) fmt::print("\n{}\n", wrap(paragraph, 0));
  if (!s.coldest.empty()) {
    fmt::print("\n{}\n", voice.say("coldest_table"));
    for (const ColdestWinter& c : s.coldest)
      fmt::print("  {}  {:>8}    {:.2f}\n", iso(c.winter.lowest_day), voice.temperature(c.winter.lowest_c), c.hardening);
  }
  if (reading.curve.empty()) return;
  fmt::print("\n{}\n", wrap(voice.say("curve_table"), 0));
  for (const CurveError& e : reading.curve)
    fmt::print("  {}\n", voice.say("curve_row", {{"month", fmt::format("{:04}-{:02}", e.year, e.month)},
                                                {"rmse", fmt::format("{:.2f}", e.rmse_c)},
                                                {"bias", fmt::format("{:+.2f}", e.bias_c)},
                                                {"read", std::to_string(e.read_below_0)},
                                                {"rebuilt", std::to_string(e.rebuilt_below_0)}}));
}

int climate(const Session& session, const Options& options) {
  Loaded loaded;
  if (const int status = load(session, loaded, Records::unread)) return status;
  const ClimateVoice voice{loaded.language(session.language), loaded.units};
  if (options.from > options.to && options.to != 0) {
    complain(fmt::format("--from {} is after --to {}", options.from, options.to));
    return kMisuse;
  }
  std::string why;
  const std::optional<std::string> text = DiskReader().read(options.file, 256u << 20u, why);
  if (!text) {
    complain("cannot read " + options.file + ": " + why);
    return kMisuse;
  }
  const RecordUnit unit = unit_named(options.unit);
  Reading reading;
  reading.record = read_record(*text, options.file, unit);
  for (const Diagnostic& d : reading.record.faults) fmt::print(stderr, "{}\n", to_text(d));
  if (failed(reading.record.faults)) return kFindings;
  settle_latitude(options, reading);
  reading.summary = summarize(reading.record.days, reading.options);
  if (looks_hourly(*text))
    reading.curve = curve_errors(read_hourly(*text, options.file, unit), reading.options.latitude_deg);
  if (!options.svg.empty()) {
    const auto failure = write_output(
        options.svg, climate_charts(reading.summary, reading.record.station, reading.record.remark, voice));
    if (failure) {
      complain(*failure);
      return kFindings;
    }
  }
  if (options.json)
    fmt::print("{}\n", to_json(reading, voice).dump(2, ' ', false, Json::error_handler_t::replace));
  else
    print_text(reading, voice);
  return kDone;
}

}  // namespace

void add_climate(const Command& app, Session& session) {
  const Command command = app.add_command("climate", "What a station's daily record says about its winters");
  const auto options = std::make_shared<Options>();
  command.add_option("FILE", options->file, "GHCN-Daily .dly or CSV, NCEI daily summaries, any table with a date, a minimum and a maximum, or hourly EPW")
      .required();
  command.add_option("--latitude", options->latitude, "Degrees, south negative; sets the length of days")
      .between(-90.0, 90.0)
      .type_name("DEGREES");
  command.add_option("--unit", options->unit, "f, c or tenths (of a degree C), instead of telling it from the values")
      .one_of({"f", "c", "tenths"})
      .type_name("UNIT");
  command.add_flag("--south", options->south, "Southern seasons: a winter is a calendar year");
  command.add_option("--from", options->from, "First winter of the means (default: the last 30 complete ones)")
      .between(1600, 2999)
      .type_name("YEAR");
  command.add_option("--to", options->to, "Last winter of the means")
      .between(1600, 2999)
      .type_name("YEAR");
  command.add_flag("--json", options->json, "The same, and more, as JSON");
  command.add_option("--svg", options->svg, "Folder for drawings of the same").type_name("DIR");
  command.footer(
      "Example:\n  tenwinters climate station.csv --latitude 29.9\n  tenwinters climate USW00012816.dly --from 1991 "
      "--to 2020 --json\n"
      "What was left out goes to standard error with its line.\nExit status: 0 done, 1 the file is at fault, 2 "
      "misuse.");
  command.does(session, [&session, options] { return climate(session, *options); });
}

}  // namespace tenwinters::cli
