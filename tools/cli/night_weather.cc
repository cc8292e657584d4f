// The cold that is coming: one low held for some hours, or the worst spell of a daily or hourly file.
#include <fmt/core.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "cli/night_input.h"
#include "records/records.h"
#include "tenwinters/units.h"

namespace tenwinters::cli {
namespace {

constexpr std::size_t kFileLimit = 64u << 20u;
constexpr int kHoursInDay = 24;
constexpr int kLeadDays = 30;          // days before the cold from which hardening can be told
constexpr std::size_t kThawHours = 8;  // hours on end above +5 C end a spell
constexpr double kWarmC = 5;

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
  return text;
}

// A number and what follows it.
std::optional<double> leading_number(std::string_view& text) {
  text = trimmed(text);
  if (!text.empty() && text.front() == '+') text.remove_prefix(1);
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || !std::isfinite(value)) return std::nullopt;
  text = trimmed(text.substr(static_cast<std::size_t>(end - text.data())));
  return value;
}

// A run of hours with how hardened trees are at its start.
struct Series {
  std::vector<double> air_c;           // hour by hour, NaN where unknown
  std::vector<int> day;                // day_number of each
  int first_hour = 0;                  // of the day, of the first entry
};

std::string percent(double share) { return std::to_string(std::lround(share * 100)); }

// How hardened the trees are to begin with, and the key of the sentence that says why.
struct Start {
  double hardening = hardening_after(Before::unsaid) / 1000.0;
  std::string key = "unsaid";
  bool stated = false;
};
Start start_of(const NightOptions& options) {
  if (options.hardening >= 0) return {options.hardening, "given", true};
  if (const std::optional<Before> before = parse<Before>(options.before); before && *before != Before::unsaid)
    return {hardening_after(*before) / 1000.0, options.before, true};
  return {};
}

int from_low(const NightOptions& options, const Loaded& loaded, NightWeather& weather) {
  const std::optional<double> low = parse_temperature_c(options.low, loaded.units);
  if (!low) {
    complain("--low \"" + options.low + "\" is no temperature; expected such as 25F or -4C");
    return kMisuse;
  }
  const Start start = start_of(options);
  NightAir air = steady_night(*low, options.hours);
  air.hardening_permille = static_cast<int>(start.hardening * 1000 + 0.5);
  air.windy = options.windy;
  air.month = options.month;
  weather.air = std::move(air);
  weather.said.push_back({start.key, {{"n", percent(start.hardening)}}, {}});
  return kDone;
}

// The spell about the coldest hour (of the night of `wanted`, if any).
int from_series(const NightOptions& options, const Series& series, double lead_days, bool southern, NightWeather& weather) {
  const std::size_t size = series.air_c.size();
  std::size_t coldest = size;
  std::optional<int> wanted;
  if (!options.date.empty()) {
    int y = 0, m = 0, d = 0;
    if (std::sscanf(options.date.c_str(), "%4d-%2d-%2d", &y, &m, &d) != 3 || !is_date(y, m, d)) {
      complain("--date \"" + options.date + "\" is no date; expected YYYY-MM-DD");
      return kMisuse;
    }
    wanted = day_number(y, m, d);
  }
  for (std::size_t i = 0; i < size; ++i) {
    if (std::isnan(series.air_c[i]) || (wanted && series.day[i] != *wanted)) continue;
    if (coldest == size || series.air_c[i] < series.air_c[coldest]) coldest = i;
  }
  if (coldest == size) {
    complain(wanted ? "the file has no reading on " + options.date : "the file has no temperatures to go by");
    return kFindings;
  }
  const auto warm = [&](std::size_t i) { return std::isnan(series.air_c[i]) || series.air_c[i] > kWarmC; };
  std::size_t first = coldest, last = coldest;
  for (std::size_t i = coldest, run = 0; i-- > 0 && run < kThawHours;) {
    run = warm(i) ? run + 1 : 0;
    if (run == 0) first = i;
  }
  for (std::size_t i = coldest + 1, run = 0; i < size && run < kThawHours; ++i) {
    run = warm(i) ? run + 1 : 0;
    if (run == 0) last = i;
  }

  const Start start = start_of(options);
  const bool long_lead = !start.stated && lead_days >= kLeadDays;
  const HardeningModel model;
  Hardening state{long_lead ? 0 : start.hardening, 0};
  for (std::size_t i = 0; i < first; ++i) {
    const CivilDate day = civil_date(series.day[i]);
    if (series.day[i] == winter_start(winter_year(day, southern), southern)) state.lost = 0;
    if (!std::isnan(series.air_c[i])) state = harden(model, state, series.air_c[i], 1);
  }
  weather.air.hardening_permille = static_cast<int>(state.h * 1000 + 0.5);
  if (!long_lead) weather.said.push_back({start.key, {{"n", percent(start.hardening)}}, {}});
  weather.said.push_back({"file", {{"n", percent(state.h)}}, {}});

  weather.air.start_hour = (series.first_hour + static_cast<int>(first)) % kHoursInDay;
  for (std::size_t i = first; i <= last; ++i)
    weather.air.tenths_c.push_back(std::isnan(series.air_c[i]) ? kWarm : static_cast<std::int16_t>(to_tenths(series.air_c[i])));
  const CivilDate date = civil_date(series.day[coldest]);
  if (weather.air.month == 0) weather.air.month = date.month;
  weather.said.push_back({"spell", {{"date", fmt::format("{:04}-{:02}-{:02}", date.year, date.month, date.day)}}, {}});
  const auto freezing = std::find_if(weather.air.tenths_c.begin(), weather.air.tenths_c.end(), [](int air) { return air <= 0; });
  if (freezing != weather.air.tenths_c.end()) {
    const auto hours = static_cast<int>(freezing - weather.air.tenths_c.begin());
    weather.said.push_back({"freezes", {{"hour", fmt::format("{}:00", (weather.air.start_hour + hours) % kHoursInDay)}}, {}});
  }
  return kDone;
}

int read_file(const std::string& path, std::string& text) {
  const DiskReader disk;
  std::string why;
  std::optional<std::string> read = disk.read(path, kFileLimit, why);
  if (!read) {
    complain("cannot read " + path + ": " + why);
    return kMisuse;
  }
  text = std::move(*read);
  return kDone;
}

int tell(const std::vector<Diagnostic>& faults) {
  for (const Diagnostic& fault : faults)
    if (!fault.warning) fmt::print(stderr, "{}\n", to_text(fault));
  return failed(faults) ? kFindings : kDone;
}

int from_daily(const NightOptions& options, RecordUnit unit, double latitude_deg, NightWeather& weather) {
  std::string text;
  if (const int status = read_file(options.daily, text)) return status;
  const Record record = read_record(text, options.daily, unit);
  if (const int status = tell(record.faults)) return status;
  const HourlySeries hours = hourly_series(record.days, latitude_deg, true);
  Series series;
  for (std::size_t i = 0; i < hours.air_c.size(); ++i) {
    series.air_c.push_back(static_cast<double>(hours.air_c[i]));
    series.day.push_back(hours.first_day + static_cast<int>(i) / kHoursInDay);
  }
  double lead = 0;
  if (!record.days.empty()) {
    const auto coldest = std::min_element(record.days.begin(), record.days.end(), [](const Day& a, const Day& b) {
      return (std::isnan(a.min_c) ? 99 : a.min_c) < (std::isnan(b.min_c) ? 99 : b.min_c);
    });
    const Day& first = record.days.front();
    lead = day_number(coldest->year, coldest->month, coldest->day) - day_number(first.year, first.month, first.day);
  }
  const int status = from_series(options, series, lead, latitude_deg < 0, weather);
  if (status == kDone) weather.said.push_back({"daily", {}, record.unit_said});
  return status;
}

int from_hourly(const NightOptions& options, RecordUnit unit, double latitude_deg, NightWeather& weather) {
  std::string text;
  if (const int status = read_file(options.hourly, text)) return status;
  const HourlyRecord record = read_hourly(text, options.hourly, unit);
  if (const int status = tell(record.faults)) return status;
  if (record.hours.empty()) {
    complain(options.hourly + ": no hours in it");
    return kFindings;
  }
  // On a grid of hours, gaps unknown.
  const auto stamp = [](const Hour& h) { return day_number(h.year, h.month, h.day) * kHoursInDay + h.hour; };
  const int start = stamp(record.hours.front());
  Series series;
  series.first_hour = start % kHoursInDay;
  for (const Hour& hour : record.hours) {
    const int at = stamp(hour) - start;
    if (at < 0 || at > 200 * 366 * kHoursInDay) continue;
    const auto index = static_cast<std::size_t>(at);
    if (series.air_c.size() <= index) series.air_c.resize(index + 1, std::nan(""));
    series.air_c[index] = hour.air_c;
  }
  for (std::size_t i = 0; i < series.air_c.size(); ++i)
    series.day.push_back((start + static_cast<int>(i)) / kHoursInDay);
  const int status = from_series(options, series, static_cast<double>(series.air_c.size()) / kHoursInDay, latitude_deg < 0, weather);
  if (status == kDone) weather.said.push_back({"hourly", {}, record.unit_said});
  return status;
}

}  // namespace

std::optional<double> parse_temperature_c(std::string_view text, Units units) {
  std::optional<double> value = leading_number(text);
  if (!value) return std::nullopt;
  if (text.starts_with("\u00b0")) text = trimmed(text.substr(2));
  bool fahrenheit = units == Units::us;
  if (text == "F" || text == "f") fahrenheit = true;
  else if (text == "C" || text == "c") fahrenheit = false;
  else if (!text.empty()) return std::nullopt;
  const double celsius = fahrenheit ? to_celsius(Fahrenheit{*value}).degrees : *value;
  return celsius < -60 || celsius > 50 ? std::nullopt : std::optional(celsius);
}

int read_weather(const NightOptions& options, const Loaded& loaded, const Place& place, NightWeather& weather) {
  const int ways = (options.low.empty() ? 0 : 1) + (options.daily.empty() ? 0 : 1) + (options.hourly.empty() ? 0 : 1);
  if (ways != 1) {
    complain(ways == 0 ? "say how cold it gets: --low 25F --hours 4, or --daily FILE, or --hourly FILE"
                       : "--low, --daily and --hourly say the same thing; give one of them");
    return kMisuse;
  }
  if (!options.before.empty() && options.hardening >= 0) {
    complain("--before and --hardening say the same thing; give one of them");
    return kMisuse;
  }
  if (!options.before.empty()) {
    std::vector<std::string_view> ids;
    for (const std::string_view id : names_of<Before>())
      if (id != name_of(Before::unsaid)) ids.push_back(id);
    if (std::find(ids.begin(), ids.end(), options.before) == ids.end()) {
      complain("--before \"" + options.before + "\" is not one of mild, gradual, sudden",
               std::string(nearest_name(options.before, ids)));
      return kMisuse;
    }
  }
  weather.air.windy = options.windy;
  weather.air.month = options.month;
  const double latitude = options.latitude.value_or(place.winters.latitude_deg);
  if (!options.low.empty()) return from_low(options, loaded, weather);
  const RecordUnit usual = loaded.units == Units::us ? RecordUnit::usually_fahrenheit : RecordUnit::infer;
  const RecordUnit unit = options.unit.empty() ? usual : unit_named(options.unit);
  return options.daily.empty() ? from_hourly(options, unit, latitude, weather) : from_daily(options, unit, latitude, weather);
}

}  // namespace tenwinters::cli
