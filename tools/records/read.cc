// From a table of readings to a clean daily record: unit, impossible values, repeated days, lone dips.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <limits>
#include <map>

#include "records/records.h"
#include "records/table.h"
#include "records/unit.h"

namespace tenwinters {
namespace records {
namespace {

constexpr double kNan = std::numeric_limits<double>::quiet_NaN();

// Nothing outside these was ever read at a station on this Earth.
constexpr double kLeastMin = -90, kMostMin = 45, kLeastMax = -75, kMostMax = 57;

// A lone dip: freezing, so far below both neighbours, and this far out of its season in robust standard
// deviations. Cold air stays for more than one night; a slipped digit or a misplaced month does not.
// Genuine freezes in the station files we have stand at most 10.6 C below both neighbours.
constexpr double kDipC = 11.0, kDipSpreads = 2.5, kAnyDipC = 25.0;

std::string shown(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.5g", value);
  return text;
}

std::string date_text(int number) {
  const CivilDate d = civil_date(number);
  char text[40];
  std::snprintf(text, sizeof text, "%04d-%02d-%02d", d.year, d.month, d.day);
  return text;
}

int number_of(const Day& day) {
  return day_number(day.year, day.month, day.day);
}

// "data/gannet_quay.csv" -> "gannet_quay": a name for files that give none.
std::string stem(const std::string& file) {
  const std::size_t slash = file.find_last_of("/\\");
  const std::string name = slash == std::string::npos ? file : file.substr(slash + 1);
  return name.substr(0, name.find_last_of('.'));
}

// "# Invented record" on the first line -> "Invented record".
std::string first_comment(std::string_view text) {
  Lines lines(text);
  std::string_view line;
  if (!lines.next(line) || line.empty() || line.front() != '#') return "";
  return std::string(trim(line.substr(1)));
}

// Several stations in one file: the one with the most readings.
void choose_station(Table& table, Record& record) {
  if (table.stations.empty()) return;
  std::vector<std::size_t> count(table.stations.size());
  for (const Reading& r : table.readings) ++count[static_cast<std::size_t>(r.station)];
  const auto best = std::max_element(count.begin(), count.end()) - count.begin();
  record.station = table.stations[static_cast<std::size_t>(best)];
  if (table.stations.size() == 1) return;
  std::erase_if(table.readings, [best](const Reading& r) { return r.station != static_cast<int>(best); });
  record.notes.push_back({"climate.note.stations",
                          {{"count", std::to_string(table.stations.size())}, {"name", quoted(record.station)}}});
}

UnitFound unit_of(const Table& table, RecordUnit asked) {
  std::vector<double> highs, lows;
  std::array<int, 12> months{};
  const Reading* before = nullptr;
  std::size_t month = 0;
  for (const Reading& r : table.readings) {
    (r.is_max ? highs : lows).push_back(r.raw);
    if (before == nullptr || before->day != r.day) month = static_cast<std::size_t>(civil_date(r.day).month - 1);
    before = &r;
    ++months[month];
  }
  const bool whole_year = std::all_of(months.begin(), months.end(), [](int n) { return n >= 20; });
  return find_unit(std::move(highs), std::move(lows), whole_year, table.stated, table.stated_by, asked);
}

void drop_impossible(Table& table, RecordUnit unit, Record& record, Reports& reports) {
  std::erase_if(table.readings, [&](const Reading& r) {
    if (r.raw == -99 && unit != RecordUnit::tenths_celsius) return true;  // a code, not a cold day
    const double c = to_celsius(r.raw, unit);
    if (r.is_max ? c >= kLeastMax && c <= kMostMax : c >= kLeastMin && c <= kMostMin) return false;
    ++record.dropped.impossible;
    reports.warn(r.line, r.column,
                 std::string("a daily ") + (r.is_max ? "maximum" : "minimum") + " of " + shown(r.raw) +
                     " is impossible in " + unit_name(unit) + "; left out",
                 "impossible values");
    return true;
  });
}

CivilDate day_after(CivilDate date) {
  if (++date.day > days_in_month(date.year, date.month)) {
    date.day = 1;
    if (++date.month > 12) date = {date.year + 1, 1, 1};
  }
  return date;
}

void gather_days(Table& table, RecordUnit unit, Record& record, Reports& reports) {
  const auto earlier = [](const Reading& a, const Reading& b) { return a.day < b.day; };
  if (!std::is_sorted(table.readings.begin(), table.readings.end(), earlier))
    std::stable_sort(table.readings.begin(), table.readings.end(), earlier);
  record.days.reserve(table.readings.size() / 2 + 1);
  CivilDate date{};
  int last = std::numeric_limits<int>::min();
  for (std::size_t i = 0; i < table.readings.size();) {
    const int number = table.readings[i].day;
    date = number - 1 == last ? day_after(date) : civil_date(number);
    last = number;
    Day day{date.year, date.month, date.day, kNan, kNan, table.readings[i].line};
    bool repeated = false, differs = false;
    int again = 0;
    for (; i < table.readings.size() && table.readings[i].day == number; ++i) {
      const Reading& r = table.readings[i];
      double& slot = r.is_max ? day.max_c : day.min_c;
      const double c = to_celsius(r.raw, unit);
      if (std::isnan(slot)) {
        slot = c;
        continue;
      }
      if (!repeated) again = r.line;
      repeated = true;
      differs = differs || slot != c;
    }
    if (repeated) {
      ++record.dropped.duplicates;
      reports.warn(again, 1,
                   date_text(number) + " is here again, first on line " + std::to_string(day.line) +
                       (differs ? ", with other values" : "") + "; the first is kept",
                   "repeated days");
    }
    record.days.push_back(day);
  }
}

void drop_crossed(Record& record, Reports& reports) {
  for (Day& day : record.days) {
    if (!(day.min_c > day.max_c)) continue;
    ++record.dropped.min_above_max;
    reports.warn(day.line, 1,
                 date_text(number_of(day)) + ": the minimum (" + shown(day.min_c) + " C) is above the maximum (" +
                     shown(day.max_c) + " C); both left out",
                 "days whose minimum is above their maximum");
    day.min_c = day.max_c = kNan;
  }
}

// How far a low stands from its season, in robust standard deviations (median and MAD of the lows within
// fifteen days of the date in every year); 0 when there are too few to say.
double spreads_from_season(const std::vector<Day>& days, const Day& odd) {
  const int at = day_of_year({odd.year, odd.month, odd.day});
  std::vector<double> season;
  for (const Day& day : days) {
    const int apart = std::abs(day_of_year({day.year, day.month, day.day}) - at);
    if (!std::isnan(day.min_c) && (apart <= 15 || apart >= 350)) season.push_back(day.min_c);
  }
  if (season.size() < 100) return 0;
  const auto median = [](std::vector<double>& values) {
    const auto half = static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), values.begin() + half, values.end());
    return values[static_cast<std::size_t>(half)];
  };
  const double middle = median(season);
  for (double& value : season) value = std::abs(value - middle);
  return (odd.min_c - middle) / std::max(1.0, 1.4826 * median(season));
}

void drop_lone_dips(Record& record, Reports& reports) {
  std::vector<Day>& days = record.days;
  std::vector<std::size_t> dips;
  for (std::size_t i = 1; i + 1 < days.size(); ++i) {
    const Day &before = days[i - 1], &day = days[i], &after = days[i + 1];
    const double dip = std::min(before.min_c, after.min_c) - day.min_c;
    if (!(dip >= kDipC) || number_of(after) - number_of(before) != 2) continue;
    const bool freezing = day.min_c <= kRoundingC;
    if (dip >= kAnyDipC || (freezing && spreads_from_season(days, day) <= -kDipSpreads)) dips.push_back(i);
  }
  for (const std::size_t i : dips) {
    ++record.dropped.lone_dips;
    reports.warn(days[i].line, 1,
                 date_text(number_of(days[i])) + ": the minimum (" + shown(days[i].min_c) +
                     " C) stands alone, far below the nights before and after (" + shown(days[i - 1].min_c) + ", " +
                     shown(days[i + 1].min_c) + " C); left out",
                 "minima that stand alone");
    days[i].min_c = kNan;
  }
}

Record days_of(HourlyRecord hourly) {
  Record record;
  record.station = std::move(hourly.station);
  record.faults = std::move(hourly.faults);
  record.unit_said = std::move(hourly.unit_said);
  record.format = std::move(hourly.format);
  record.notes = std::move(hourly.notes);
  record.latitude_deg = hourly.latitude_deg;
  record.yearly_lows = hourly.yearly_lows;
  struct Extremes {
    double min = 1e9, max = -1e9;
    int line = 0;
    unsigned hours = 0;
  };
  std::map<int, Extremes> by_day;
  for (const Hour& hour : hourly.hours) {
    Extremes& day = by_day[day_number(hour.year, hour.month, hour.day)];
    if (day.line == 0) day.line = hour.line;
    day.min = std::min(day.min, hour.air_c);
    day.max = std::max(day.max, hour.air_c);
    day.hours |= 1u << static_cast<unsigned>(hour.hour);
  }
  int short_days = 0;
  for (const auto& [number, day] : by_day) {
    int hours = 0;
    for (unsigned bits = day.hours; bits != 0; bits &= bits - 1) ++hours;
    if (hours < 20) {
      ++short_days;
      continue;
    }
    const CivilDate date = civil_date(number);
    record.days.push_back({date.year, date.month, date.day, day.min, day.max, day.line});
  }
  record.notes.push_back({"climate.note.hours", {}});
  const bool joined = std::adjacent_find(hourly.hours.begin(), hourly.hours.end(), [](const Hour& a, const Hour& b) {
                        return b.year < a.year;
                      }) != hourly.hours.end();
  if (joined) record.notes.push_back({"climate.note.joined", {}});
  if (short_days > 0) record.notes.push_back({"climate.note.short_days", {{"n", std::to_string(short_days)}}});
  return record;
}

}  // namespace
}  // namespace records

bool failed(const std::vector<Diagnostic>& faults) {
  return std::any_of(faults.begin(), faults.end(), [](const Diagnostic& d) { return !d.warning; });
}

Record read_record(std::string_view text, const std::string& file, RecordUnit unit) {
  if (looks_hourly(text)) return records::days_of(read_hourly(text, file, unit));
  records::Reports reports(file);
  records::Table table = records::read_table(text, reports);
  Record record;
  record.format = table.format;
  record.notes = table.notes;
  record.remark = records::first_comment(text);
  record.latitude_deg = table.latitude_deg;
  record.dropped = table.dropped;
  records::choose_station(table, record);
  if (table.readings.empty()) {
    if (!reports.any_fault()) reports.fault(0, 0, "the file holds no daily minimum or maximum");
  } else {
    const records::UnitFound found = records::unit_of(table, unit);
    record.unit = found.unit;
    record.unit_said = found.said;
    if (!found.fault.empty()) {
      reports.fault(0, 0, found.fault);
    } else {
      records::drop_impossible(table, found.unit, record, reports);
      records::gather_days(table, found.unit, record, reports);
      records::drop_crossed(record, reports);
      records::drop_lone_dips(record, reports);
    }
  }
  record.faults = reports.take(text);
  if (record.station.empty()) record.station = records::stem(file);
  return record;
}

}  // namespace tenwinters
