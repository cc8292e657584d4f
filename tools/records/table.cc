#include "records/table.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "records/columns.h"
#include "records/unit.h"

namespace tenwinters::records {
namespace {

constexpr std::string_view kExpected =
    "expected a header that names a date (or year, month, day), a minimum and a maximum, or lines of numbers "
    "that begin with a date";

int station_index(Table& table, std::string_view name) {
  // Files hold one station, or runs of one: look at the last first.
  for (std::size_t i = table.stations.size(); i-- > 0;)
    if (table.stations[i] == name) return static_cast<int>(i);
  table.stations.emplace_back(name);
  return static_cast<int>(table.stations.size()) - 1;
}

bool comment(std::string_view line) {
  const std::string_view shown = trim(line);
  return shown.empty() || shown.front() == '#';
}

// ---- GHCN-Daily, fixed columns: station 1-11, year 12-15, month 16-17, element 18-21, then 31 times
// value (5), measurement flag, quality flag, source flag. Tenths of a degree C, -9999 missing.
bool looks_dly(std::string_view line) {
  if (line.size() < 29 || line.find(',') != std::string_view::npos || line.find('\t') != std::string_view::npos)
    return false;
  const auto year = to_whole(line.substr(11, 4)), month = to_whole(line.substr(15, 2));
  if (!year || !month || *month < 1 || *month > 12 || line.substr(0, 11).find(' ') != std::string_view::npos)
    return false;
  const std::string_view element = line.substr(17, 4);
  return element[0] >= 'A' && element[0] <= 'Z' && element[1] >= 'A' && element[1] <= 'Z';
}

void read_dly(std::string_view text, Table& table, Reports& reports) {
  table.format = {"climate.format.fixed_columns", {}};
  table.stated = RecordUnit::tenths_celsius;
  table.stated_by = kByFormat;
  Lines lines(text);
  std::string_view line;
  while (lines.next(line)) {
    if (trim(line).empty()) continue;
    const int number = lines.number();
    if (!looks_dly(line)) {
      reports.fault(number, 1, "expected a line of station, year, month, element and 31 values");
      continue;
    }
    const std::string_view element = line.substr(17, 4);
    if (element != "TMIN" && element != "TMAX") continue;
    const int year = *to_whole(line.substr(11, 4)), month = *to_whole(line.substr(15, 2));
    const int station = station_index(table, line.substr(0, 11));
    for (int day = 1; day <= 31; ++day) {
      const std::size_t at = 21 + static_cast<std::size_t>(day - 1) * 8;
      if (at + 5 > line.size()) {
        if (day <= days_in_month(year, month)) {
          reports.fault(number, static_cast<int>(line.size()), "the line ends before day " + std::to_string(day));
        }
        break;
      }
      const std::string_view value = trim(line.substr(at, 5));
      if (value == "-9999" || value.empty()) continue;
      const auto raw = to_number(value);
      const int column = static_cast<int>(at) + 1;
      if (!raw) {
        reports.fault(number, column, "expected a whole number of tenths of a degree, found " + quoted(value));
        continue;
      }
      if (!is_date(year, month, day)) {
        ++table.dropped.impossible;
        reports.warn(number, column, no_such_date(year, month, day) + "; left out", "dates that do not exist");
        continue;
      }
      if (at + 6 < line.size() && line[at + 6] != ' ') {
        ++table.dropped.flagged;
        continue;
      }
      table.readings.push_back({day_number(year, month, day), station, element == "TMAX", *raw, number, column});
    }
  }
}

// ---- One reading a line, without a header: station, date, element, value, flags.
bool looks_by_element(const std::vector<Cell>& cells) {
  if (cells.size() < 4 || cells[1].text.size() < 8 || !read_date(cells[1].text, DateOrder::month_first)) return false;
  const std::string_view element = cells[2].text;
  return element.size() == 4 &&
         std::all_of(element.begin(), element.end(),
                     [](char c) { return (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9'); }) &&
         element[0] >= 'A';
}

// ---- Tables with a header.
class HeadedReader {
 public:
  HeadedReader(std::string_view text, Header header, Table& table, Reports& reports)
      : text_(text), header_(std::move(header)), c_(header_.columns), table_(table), reports_(reports) {}

  void read() {
    settle_dates();
    table_.readings.reserve(table_.readings.size() + 2 * static_cast<std::size_t>(std::count(text_.begin(), text_.end(), '\n')));
    Lines lines(text_);
    std::string_view line;
    const int last = c_.last();
    while (lines.next(line)) {
      if (lines.number() <= header_.line || comment(line)) continue;
      split(line, header_.separator, cells_);
      if (header_.line > 0 && cells_.front().text == header_.first_cell) continue;  // files joined end to end
      line_ = lines.number();
      if (static_cast<int>(cells_.size()) <= last) {
        reports_.fault(
            line_, static_cast<int>(line.size()) + 1,
            "expected at least " + std::to_string(last + 1) + " columns, found " + std::to_string(cells_.size()));
        continue;
      }
      if (const auto day = date()) take(*day);
    }
  }

 private:
  std::string_view cell(int column) const { return cells_[static_cast<std::size_t>(column)].text; }
  int column_of(int column) const { return cells_[static_cast<std::size_t>(column)].column; }
  bool filled(int column) const {
    return column >= 0 && column < static_cast<int>(cells_.size()) && !cell(column).empty();
  }

  void settle_dates() {
    if (c_.date < 0) return;
    std::vector<std::string_view> dates;
    Lines lines(text_);
    std::string_view line;
    while (lines.next(line)) {
      if (lines.number() <= header_.line || comment(line)) continue;
      split(line, header_.separator, cells_);
      if (c_.date < static_cast<int>(cells_.size())) dates.push_back(cell(c_.date));
      if (dates.size() == 1 && cell(c_.date).find('/') == std::string_view::npos &&
          to_whole(cell(c_.date).substr(0, 4)))
        return;  // year first: nothing to settle
    }
    bool guessed = false, year_last = false;
    order_ = date_order(dates, guessed, year_last);
    if (year_last)
      table_.notes.push_back(date_order_note(order_, guessed));
  }

  std::optional<int> whole(int column, std::string_view what) {
    const auto value = to_number(cell(column));
    if (value && *value == std::floor(*value) && std::abs(*value) < 10000) return static_cast<int>(*value);
    reports_.fault(line_, column_of(column), "expected a " + std::string(what) + ", found " + quoted(cell(column)));
    return std::nullopt;
  }

  // The line's day, or nullopt after a report.
  std::optional<int> date() {
    int year = 0, month = 0, day = 0, column = 0;
    if (c_.date >= 0) {
      const auto read = read_date(cell(c_.date), order_);
      column = column_of(c_.date);
      if (!read) {
        reports_.fault(line_, column, "expected a date, found " + quoted(cell(c_.date)));
        return std::nullopt;
      }
      year = read->year, month = read->month, day = read->day;
    } else {
      const auto y = whole(c_.year, "year");
      column = column_of(c_.year);
      if (c_.month >= 0 && c_.day >= 0) {
        const auto m = y ? whole(c_.month, "month") : std::nullopt;
        const auto d = m ? whole(c_.day, "day") : std::nullopt;
        if (!d) return std::nullopt;
        year = *y, month = *m, day = *d;
      } else {
        const auto j = y ? whole(c_.day_of_year, "day of the year") : std::nullopt;
        if (!j) return std::nullopt;
        if (is_date(*y, 1, 1) && *j >= 1 && *j <= (is_date(*y, 2, 29) ? 366 : 365))
          return day_number(*y, 1, 1) + *j - 1;
        year = *y, month = 0, day = *j;
      }
    }
    if (is_date(year, month, day)) return day_number(year, month, day);
    ++table_.dropped.impossible;
    reports_.warn(line_, column, no_such_date(year, month, day) + "; the line is left out", "dates that do not exist");
    return std::nullopt;
  }

  void take(int day) {
    const int station = station_index(table_, filled(c_.station) ? cell(c_.station) : std::string_view());
    if (!table_.latitude_deg && filled(c_.latitude)) table_.latitude_deg = to_number(cell(c_.latitude));
    if (c_.by_element()) {
      const std::string_view element = cell(c_.element);
      if (element == "TMIN" || element == "TMAX") reading(day, station, element == "TMAX", c_.value, c_.flags);
      return;
    }
    reading(day, station, false, c_.min, c_.min_flags);
    reading(day, station, true, c_.max, c_.max_flags);
  }

  bool flagged(int column) const {
    if (!filled(column)) return false;
    const std::string_view flags = cell(column);
    if (!c_.attributes) return true;
    const std::size_t first = flags.find(',');  // measure,quality,source[,time]
    if (first == std::string_view::npos) return false;
    const std::size_t second = std::min(flags.find(',', first + 1), flags.size());
    return !trim(flags.substr(first + 1, second - first - 1)).empty();
  }

  void reading(int day, int station, bool is_max, int column, int flags) {
    const std::string_view shown = cell(column);
    if (is_missing(shown)) return;
    const auto raw = to_number(shown, header_.separator == ';');
    if (!raw) {
      reports_.fault(line_, column_of(column), "expected a temperature, found " + quoted(shown));
      return;
    }
    if (flagged(flags))
      ++table_.dropped.flagged;
    else
      table_.readings.push_back({day, station, is_max, *raw, line_, column_of(column)});
  }

  std::string_view text_;
  Header header_;
  const Columns& c_;
  Table& table_;
  Reports& reports_;
  DateOrder order_ = DateOrder::month_first;
  std::vector<Cell> cells_;
  int line_ = 0;
};

// ---- Tables without a header. The date is one column or three; which of the rest are the highs and the
// lows is found from the numbers: the first pair of columns of which one is nearly always the higher and
// both look like temperatures (rain is mostly nought and never below).
struct Pair {
  int min = -1, max = -1;
};

std::optional<Pair> find_pair(std::string_view text, char separator, std::size_t first_value, std::size_t width) {
  std::vector<std::vector<double>> columns(width);
  std::vector<Cell> cells;
  Lines lines(text);
  std::string_view line;
  while (lines.next(line)) {
    if (comment(line)) continue;
    split(line, separator, cells);
    for (std::size_t i = first_value; i < width; ++i) {
      const auto value =
          i < cells.size() && !is_missing(cells[i].text) ? to_number(cells[i].text, separator == ';') : std::nullopt;
      columns[i].push_back(value.value_or(std::numeric_limits<double>::quiet_NaN()));
    }
  }
  const auto temperature_like = [](const std::vector<double>& column) {
    std::size_t read = 0, same = 0;
    double previous = 0, sum = 0, square = 0, step = 0;
    for (const double value : column) {
      if (std::isnan(value)) continue;
      if (read > 0) same += value == previous, step += (value - previous) * (value - previous);
      sum += value, square += value * value;
      previous = value, ++read;
    }
    if (read < 3) return false;
    const auto n = static_cast<double>(read);
    const double variance = square / n - sum / n * (sum / n);
    // Mostly the same number (rain, flags) is no temperature, nor is one without memory from day to day.
    return static_cast<double>(same) < 0.5 * n && (read < 60 || step / (n - 1) < 1.4 * variance);
  };
  for (std::size_t a = first_value; a < width; ++a)
    for (std::size_t b = a + 1; b < width; ++b) {
      if (!temperature_like(columns[a]) || !temperature_like(columns[b])) continue;
      std::size_t both = 0, a_higher = 0;
      for (std::size_t row = 0; row < columns[a].size(); ++row) {
        if (std::isnan(columns[a][row]) || std::isnan(columns[b][row])) continue;
        ++both;
        a_higher += columns[a][row] >= columns[b][row];
      }
      if (both < 3) continue;
      const double share = static_cast<double>(a_higher) / static_cast<double>(both);
      if (share > 0.98) return Pair{static_cast<int>(b), static_cast<int>(a)};
      if (share < 0.02) return Pair{static_cast<int>(a), static_cast<int>(b)};
    }
  return std::nullopt;
}

bool read_bare(std::string_view text, const std::vector<Cell>& cells, char separator, Table& table, Reports& reports) {
  Header header;
  header.separator = separator;
  Columns& c = header.columns;
  std::size_t first_value = 1;
  const auto year = to_whole(cells[0].text);
  if (cells.size() >= 5 && year && *year >= 1600 && *year <= 2999) {
    c.year = 0, c.month = 1, c.day = 2;
    first_value = 3;
  } else if (cells.size() >= 3 && read_date(cells[0].text, DateOrder::month_first)) {
    c.date = 0;
  } else {
    return false;
  }
  const auto pair = find_pair(text, separator, first_value, cells.size());
  if (!pair) {
    reports.fault(0, 0,
                  "no two columns look like a daily minimum and maximum; add a header line such as date,tmin,tmax");
    return true;
  }
  c.min = pair->min;
  c.max = pair->max;
  table.format = {"climate.format.bare", {}};
  table.notes.push_back(
      {"climate.note.columns", {{"max", std::to_string(c.max + 1)}, {"min", std::to_string(c.min + 1)}}});
  HeadedReader(text, header, table, reports).read();
  return true;
}

}  // namespace

Table read_table(std::string_view text, Reports& reports) {
  Table table;
  if (const std::string why = not_text(text); !why.empty()) {
    reports.fault(0, 0, "the file " + why);
    return table;
  }
  Lines lines(text);
  std::string_view line;
  do {
    if (!lines.next(line)) {
      reports.fault(0, 0, "the file has no lines of data; " + std::string(kExpected));
      return table;
    }
  } while (comment(line));
  if (looks_dly(line)) {
    read_dly(text, table, reports);
    return table;
  }
  if (Header header = find_header(text); header.line > 0 && (header.columns.wide() || header.columns.by_element())) {
    const bool by_element = header.columns.by_element();
    table.format = {by_element ? "climate.format.by_element" : "climate.format.headed", {}};
    table.stated = by_element ? RecordUnit::tenths_celsius : header.columns.unit;
    table.stated_by = by_element ? kByFormat : kByHeader;
    HeadedReader(text, std::move(header), table, reports).read();
    return table;
  }
  std::vector<Cell> cells;
  const char separator = guess_separator(line);
  split(line, separator, cells);
  if (looks_by_element(cells)) {
    Header header;
    header.columns.station = 0, header.columns.date = 1, header.columns.element = 2, header.columns.value = 3;
    header.columns.flags = 5;
    table.format = {"climate.format.by_element", {}};
    table.stated = RecordUnit::tenths_celsius;
    table.stated_by = kByFormat;
    HeadedReader(text, header, table, reports).read();
    return table;
  }
  if (!cells.empty() && read_bare(text, cells, separator, table, reports)) return table;
  std::string found;
  for (std::size_t i = 0; i < std::min<std::size_t>(cells.size(), 8); ++i)
    found += (i > 0 ? ", " : "") + quoted(cells[i].text);
  reports.fault(lines.number(), 1, std::string(kExpected) + "; found " + (found.empty() ? "nothing" : found));
  return table;
}

}  // namespace tenwinters::records
