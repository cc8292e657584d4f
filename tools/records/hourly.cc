// Hourly files: EPW weather files, and tables with a time and one temperature.
#include <algorithm>
#include <cmath>

#include "records/columns.h"
#include "records/records.h"
#include "records/unit.h"

namespace tenwinters {
namespace records {
namespace {

constexpr std::string_view kEpwMark = "LOCATION,";

// "Extremes", three wind speeds, a wet bulb, then mean and standard deviation of the yearly lows and highs (low,
// high, low, high), then low and high of 5, 10, 20 and 50 years. nullopt where the header does not say.
std::optional<YearlyLows> yearly_lows(const std::vector<Cell>& cells) {
  const auto mark = std::find_if(cells.begin(), cells.end(), [](const Cell& cell) { return cell.text == "Extremes"; });
  if (cells.end() - mark < 16) return std::nullopt;
  const auto number = [&](std::size_t place) {
    return to_number((mark + static_cast<std::ptrdiff_t>(place))->text).value_or(std::nan(""));
  };
  YearlyLows lows{number(5), number(7), {}};
  double sum = lows.mean_c + lows.deviation_c;
  for (std::size_t i = 0; i < lows.level_c.size(); ++i) sum += lows.level_c[i] = number(9 + 2 * i);
  return std::isnan(sum) ? std::nullopt : std::optional(lows);
}

// EPW: a LOCATION line, seven more header lines, then year, month, day, hour 1-24, minute, flags, dry bulb C.
void read_epw(std::string_view text, HourlyRecord& record, Reports& reports) {
  record.format = {"climate.format.epw", {}};
  record.unit_said = {"climate.unit_said.stated",
                      {{"unit", unit_name_key(RecordUnit::celsius)}, {"by", "@" + std::string(kByFormat)}}};
  Lines lines(text);
  std::string_view line;
  std::vector<Cell> cells;
  while (lines.next(line)) {
    const int number = lines.number();
    split(line, ',', cells);
    if (number == 1) {
      if (cells.size() > 1) record.station = std::string(cells[1].text);
      if (cells.size() > 8) {
        record.latitude_deg = to_number(cells[6].text);
        record.longitude_deg = to_number(cells[7].text);
        record.utc_offset_h = to_number(cells[8].text);
      }
    }
    if (number == 2) record.yearly_lows = yearly_lows(cells);
    if (number <= 8 || trim(line).empty()) continue;
    if (cells.size() < 7) {
      reports.fault(number, static_cast<int>(line.size()) + 1,
                    "expected at least 7 columns, found " + std::to_string(cells.size()));
      continue;
    }
    int field[4] = {};
    bool whole = true;
    for (std::size_t i = 0; i < 4 && whole; ++i) {
      const auto value = to_whole(cells[i].text);
      if (!value) reports.fault(number, cells[i].column, "expected a whole number, found " + quoted(cells[i].text));
      whole = value.has_value();
      field[i] = value.value_or(0);
    }
    if (!whole) continue;
    if (!is_date(field[0], field[1], field[2]) || field[3] < 1 || field[3] > 24) {
      reports.warn(number, 1, "there is no such day or hour; left out", "dates that do not exist");
      continue;
    }
    const auto air = to_number(cells[6].text);
    if (!air)
      reports.fault(number, cells[6].column, "expected a temperature, found " + quoted(cells[6].text));
    else if (*air < 90)
      record.hours.push_back({field[0], field[1], field[2], field[3], *air, number});  // 99.9 is missing
  }
}

void read_hours(std::string_view text, const Header& header, HourlyRecord& record, RecordUnit asked, Reports& reports) {
  record.format = {"climate.format.hourly", {}};
  const Columns& c = header.columns;
  Lines lines(text);
  std::string_view line;
  std::vector<Cell> cells;
  std::vector<std::string_view> dates;
  if (c.date >= 0) {
    while (lines.next(line)) {
      if (lines.number() <= header.line || trim(line).empty() || trim(line).front() == '#') continue;
      split(line, header.separator, cells);
      if (c.date < static_cast<int>(cells.size())) dates.push_back(cells[static_cast<std::size_t>(c.date)].text);
    }
  }
  bool guessed = false, year_last = false;
  const DateOrder order = date_order(dates, guessed, year_last);
  if (year_last) record.notes.push_back(date_order_note(order, guessed));
  std::vector<double> raw;
  std::array<int, 12> months{};
  lines = Lines(text);
  while (lines.next(line)) {
    const int number = lines.number();
    if (number <= header.line || trim(line).empty() || trim(line).front() == '#') continue;
    split(line, header.separator, cells);
    if (static_cast<int>(cells.size()) <= c.last()) {
      reports.fault(
          number, static_cast<int>(line.size()) + 1,
          "expected at least " + std::to_string(c.last() + 1) + " columns, found " + std::to_string(cells.size()));
      continue;
    }
    const auto at = [&](int column) { return cells[static_cast<std::size_t>(column)]; };
    Hour hour;
    std::optional<int> of_day;
    bool whole = true;
    if (c.date >= 0) {
      const auto date = read_date(at(c.date).text, order);
      if (!date) {
        reports.fault(number, at(c.date).column, "expected a date and time, found " + quoted(at(c.date).text));
        continue;
      }
      hour = {date->year, date->month, date->day, 0, 0, number};
      of_day = date->hour;
    } else {
      const int columns[] = {c.year, c.month, c.day};
      int* fields[] = {&hour.year, &hour.month, &hour.day};
      for (std::size_t i = 0; i < 3 && whole; ++i) {
        const auto value = columns[i] >= 0 ? to_whole(at(columns[i]).text) : std::nullopt;
        whole = value.has_value();
        if (whole)
          *fields[i] = *value;
        else
          reports.fault(number, columns[i] >= 0 ? at(columns[i]).column : 1, "expected year, month and day");
      }
    }
    if (!whole) continue;
    if (c.hour >= 0) {
      const std::string_view clock = at(c.hour).text.substr(0, at(c.hour).text.find(':'));
      const auto value = to_number(clock);
      if (value) of_day = static_cast<int>(*value >= 100 ? *value / 100 : *value);  // 1300 is one in the afternoon
    }
    if (!of_day || *of_day < 0 || *of_day > 24 || !is_date(hour.year, hour.month, hour.day)) {
      reports.fault(number, 1, "expected a day and an hour from 0 to 24");
      continue;
    }
    const Cell air = at(c.temperature);
    if (is_missing(air.text)) continue;
    const auto value = to_number(air.text, header.separator == ';');
    if (!value) {
      reports.fault(number, air.column, "expected a temperature, found " + quoted(air.text));
      continue;
    }
    hour.hour = *of_day;
    hour.line = number;
    hour.air_c = *value;
    ++months[static_cast<std::size_t>(hour.month - 1)];
    raw.push_back(*value);
    record.hours.push_back(hour);
  }
  if (raw.empty()) return;
  const bool whole_year = std::all_of(months.begin(), months.end(), [](int n) { return n >= 24 * 20; });
  const UnitFound unit = find_unit(raw, raw, whole_year, c.unit, kByHeader, asked);
  record.unit_said = unit.said;
  if (!unit.fault.empty()) reports.fault(0, 0, unit.fault);
  for (Hour& hour : record.hours) hour.air_c = to_celsius(hour.air_c, unit.unit);
  std::erase_if(record.hours, [&](const Hour& hour) {
    if (hour.air_c >= -90 && hour.air_c <= 57) return false;
    reports.warn(hour.line, 1, "a temperature impossible in " + unit_name(unit.unit) + "; left out",
                 "impossible values");
    return true;
  });
}

}  // namespace
}  // namespace records

bool looks_hourly(std::string_view text) {
  if (text.substr(0, records::kEpwMark.size()) == records::kEpwMark) return true;
  if (!records::not_text(text).empty()) return false;
  const records::Header header = records::find_header(text);
  return header.line > 0 && header.columns.hourly();
}

HourlyRecord read_hourly(std::string_view text, const std::string& file, RecordUnit unit) {
  HourlyRecord record;
  records::Reports reports(file);
  if (const std::string why = records::not_text(text); !why.empty()) {
    reports.fault(0, 0, "the file " + why);
  } else if (text.substr(0, records::kEpwMark.size()) == records::kEpwMark) {
    records::read_epw(text, record, reports);
  } else if (const records::Header header = records::find_header(text); header.line > 0 && header.columns.hourly()) {
    records::read_hours(text, header, record, unit, reports);
  } else {
    reports.fault(1, 1, "expected a header that names a time (or date and hour) and one air temperature");
  }
  if (record.hours.empty() && !reports.any_fault()) reports.fault(0, 0, "the file holds no hourly temperature");
  record.faults = reports.take(text);
  return record;
}

std::vector<CurveError> curve_errors(const HourlyRecord& record, double latitude_deg, NightFall fall) {
  struct Sums {
    CurveError error;
    double square = 0, sum = 0;
  };
  std::vector<Sums> months;
  // Each day's own lowest and highest hour.
  struct DayHours {
    int number = 0;
    CurveDay curve;
    std::vector<const Hour*> hours;
  };
  std::vector<DayHours> days;
  for (const Hour& hour : record.hours) {
    const int number = day_number(hour.year, hour.month, hour.day);
    if (days.empty() || days.back().number != number) {
      DayHours day;
      day.number = number;
      day.curve = {hour.air_c, hour.air_c, day_length_h(latitude_deg, day_of_year({hour.year, hour.month, hour.day}))};
      days.push_back(day);
    }
    days.back().curve.min_c = std::min(days.back().curve.min_c, hour.air_c);
    days.back().curve.max_c = std::max(days.back().curve.max_c, hour.air_c);
    days.back().hours.push_back(&hour);
  }
  // From the clock to the sun, where the file says where it stands.
  const double shift =
      record.longitude_deg && record.utc_offset_h ? (15 * *record.utc_offset_h - *record.longitude_deg) / 15 : 0;
  for (std::size_t i = 0; i < days.size(); ++i) {
    const DayHours& day = days[i];
    const CurveDay& yesterday = i > 0 && days[i - 1].number == day.number - 1 ? days[i - 1].curve : day.curve;
    const CurveDay& tomorrow =
        i + 1 < days.size() && days[i + 1].number == day.number + 1 ? days[i + 1].curve : day.curve;
    for (const Hour* hour : day.hours) {
      if (months.empty() || months.back().error.month != hour->month || months.back().error.year != hour->year) {
        months.emplace_back();
        months.back().error.year = hour->year;
        months.back().error.month = hour->month;
      }
      Sums& sums = months.back();
      const double rebuilt = air_at(yesterday, day.curve, tomorrow, hour->hour - shift, fall);
      sums.sum += rebuilt - hour->air_c;
      sums.square += (rebuilt - hour->air_c) * (rebuilt - hour->air_c);
      CurveError& error = sums.error;
      ++error.hours;
      error.read_below_0 += hour->air_c <= 0, error.rebuilt_below_0 += rebuilt <= 0;
      error.read_below_5 += hour->air_c <= 5, error.rebuilt_below_5 += rebuilt <= 5;
    }
  }
  std::vector<CurveError> errors;
  for (Sums& sums : months) {
    sums.error.bias_c = sums.sum / sums.error.hours;
    sums.error.rmse_c = std::sqrt(sums.square / sums.error.hours);
    errors.push_back(sums.error);
  }
  return errors;
}

}  // namespace tenwinters
