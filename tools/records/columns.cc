#include "records/columns.h"

#include <algorithm>
#include <initializer_list>

namespace tenwinters::records {
namespace {

bool any_of(std::string_view text, std::initializer_list<std::string_view> list) {
  return std::find(list.begin(), list.end(), text) != list.end();
}

bool holds_any(std::string_view text, std::initializer_list<std::string_view> parts) {
  return std::any_of(parts.begin(), parts.end(),
                     [&](std::string_view p) { return text.find(p) != std::string_view::npos; });
}

// A column that goes with a temperature and is none.
bool about_something_else(const Heading& h) {
  return holds_any(h.compact, {"dew",    "humid",     "relhum", "soil", "grass",    "wetbulb", "wind",  "gust",
                               "press",  "rain",      "prec",   "prcp", "snow",     "radia",   "solar", "vap",
                               "minute", "departure", "normal", "feel", "apparent", "water",   "sea",   "ground",
                               "avg",    "mean",      "chill",  "days", "record"}) ||
         h.has("rh") || h.has("time") || h.has("dp") || h.has("dwpt") || h.has("wb") || h.has("source") || h.has("at");
}

bool is_flag(const Heading& h) {
  return holds_any(h.compact, {"attribute", "qflag", "mflag", "sflag", "flag", "quality"}) || h.has("qc");
}

// How surely a heading names the daily minimum (or maximum): 0 not, else higher is surer.
int extreme_score(const Heading& h, bool max) {
  if (is_flag(h) || about_something_else(h)) return 0;
  const std::string_view part = max ? "max" : "min", other = max ? "min" : "max";
  if (h.compact.find(other) != std::string::npos) return 0;
  std::string_view name = h.compact;
  // "tminf", "tmaxc": the unit grown on to the name.
  if (name.size() == 5 && (name.back() == 'f' || name.back() == 'c')) name.remove_suffix(1);
  if (any_of(name, {max ? "tmax" : "tmin", max ? "maxtemp" : "mintemp", max ? "tempmax" : "tempmin",
                    max ? "maximumtemperature" : "minimumtemperature"}))
    return 4;
  if (holds_any(name, {part})) return holds_any(name, {"temp", "t2m", "air"}) || name.front() == 't' ? 3 : 2;
  if (any_of(name, {max ? "high" : "low", max ? "hightemp" : "lowtemp", max ? "tx" : "tn", max ? "tmx" : "tmn", max ? "highest" : "lowest",
                    max ? "dailyhigh" : "dailylow"}))
    return 2;
  if ((h.has(max ? "high" : "low") || h.has(max ? "highest" : "lowest")) && holds_any(name, {"temp", "air"})) return 2;
  return 0;
}

RecordUnit grown_on_unit(const Heading& h) {
  if (h.unit != RecordUnit::infer) return h.unit;
  if (any_of(h.compact, {"tminf", "tmaxf"})) return RecordUnit::fahrenheit;
  if (any_of(h.compact, {"tminc", "tmaxc"})) return RecordUnit::celsius;
  return RecordUnit::infer;
}

int temperature_score(const Heading& h) {
  if (is_flag(h) || about_something_else(h)) return 0;
  if (any_of(h.compact, {"drybulb", "drybulbtemperature", "airtemp", "airtemperature", "temperature", "temp", "tair"}))
    return 3;
  if (any_of(h.compact, {"t", "tmpf", "tmpc", "tempf", "tempc", "tmp", "air", "t2m", "temperature2m"})) return 2;
  if (holds_any(h.compact, {"temp", "drybulb"})) return 1;
  return 0;
}

}  // namespace

int Columns::last() const {
  if (by_element()) return std::max({date, year, month, day, day_of_year, element, value});
  return std::max({date, year, month, day, day_of_year, min, max, hour, hourly() ? temperature : -1});
}

Columns find_columns(const std::vector<Cell>& headings) {
  Columns c;
  int best_min = 0, best_max = 0, best_temperature = 0, spare_date = -1;
  RecordUnit min_unit = RecordUnit::infer, temperature_unit = RecordUnit::infer;
  std::vector<Heading> read;
  for (const Cell& cell : headings) read.push_back(read_heading(cell.text));
  for (std::size_t i = 0; i < read.size(); ++i) {
    const Heading& h = read[i];
    const int at = static_cast<int>(i);
    const auto first = [at](int& slot) {
      if (slot < 0) slot = at;
    };
    if (h.compact.empty()) continue;
    if (any_of(h.compact, {"doy", "dayofyear", "yday", "jday", "julian", "julianday"}))
      first(c.day_of_year);
    else if (any_of(h.compact, {"year", "yr", "yyyy", "y"}))
      first(c.year);
    else if (any_of(h.compact, {"month", "mon", "mo", "mm", "mth"}))
      first(c.month);
    else if (any_of(h.compact, {"day", "dy", "dd", "dayofmonth", "d"}))
      first(c.day);
    else if (any_of(h.compact, {"hour", "hr", "hh", "hourofday"}))
      first(c.hour);
    else if (h.has("date") || h.has("datetime") ||
             any_of(h.compact, {"yyyymmdd", "yearmonthday", "obsdate", "ymd", "fecha"}))
      first(c.date);
    else if (any_of(h.compact, {"time", "timestamp", "valid", "when"}))
      first(spare_date);
    else if (any_of(h.compact, {"element", "datatype", "parameter"}))
      first(c.element);
    else if (any_of(h.compact, {"value", "datavalue"}))
      first(c.value);
    else if (any_of(h.compact, {"qflag", "qualityflag"}))
      first(c.flags);
    else if (any_of(h.compact, {"station", "id", "stationid", "weatherstation", "stationname", "stnid"}))
      first(c.station);
    else if (any_of(h.compact, {"latitude", "lat"}))
      first(c.latitude);
    else {
      const int low = extreme_score(h, false), high = extreme_score(h, true), air = temperature_score(h);
      if (low > best_min) best_min = low, c.min = at, min_unit = grown_on_unit(h);
      if (high > best_max) best_max = high, c.max = at;
      if (low == 0 && high == 0 && air > best_temperature)
        best_temperature = air, c.temperature = at, temperature_unit = h.unit;
    }
  }
  if (c.date < 0 && c.year < 0) {
    c.date = spare_date;
    if (c.date < 0 && c.day >= 0 && c.month < 0) std::swap(c.date, c.day);  // "day" may well be the date
  }
  // Flags of the chosen columns: TMIN_ATTRIBUTES, tmin_qflag.
  for (std::size_t i = 0; i < read.size(); ++i) {
    const Heading& h = read[i];
    const bool attributes = h.has("attributes");
    if (!attributes && h.compact.find("qflag") == std::string::npos) continue;
    const bool low = h.compact.find("min") != std::string::npos, high = h.compact.find("max") != std::string::npos;
    if (low == high) {
      if (attributes && c.element >= 0) c.flags = static_cast<int>(i), c.attributes = true;
      continue;
    }
    (low ? c.min_flags : c.max_flags) = static_cast<int>(i);
    c.attributes = attributes;
  }
  c.unit = c.hourly() ? temperature_unit : min_unit;
  return c;
}

Header find_header(std::string_view text) {
  constexpr int kPreamble = 60;
  Lines lines(text);
  std::string_view line;
  std::vector<Cell> cells;
  while (lines.number() < kPreamble && lines.next(line)) {
    if (trim(line).empty() || trim(line).front() == '#') continue;
    Header header;
    header.separator = guess_separator(line);
    split(line, header.separator, cells);
    header.columns = find_columns(cells);
    const Columns& c = header.columns;
    if (!c.wide() && !c.by_element() && !c.hourly()) continue;
    header.line = lines.number();
    header.first_cell = std::string(cells.front().text);
    return header;
  }
  return {};
}

}  // namespace tenwinters::records
