// The tables that hold daily readings, before units and checks. Private to the records library.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "records/records.h"
#include "records/scan.h"

namespace tenwinters::records {

struct Reading {
  int day = 0;      // day_number
  int station = 0;  // index in Table::stations
  bool is_max = false;
  double raw = 0;  // in the file's unit
  int line = 0, column = 0;
};

struct Table {
  Phrase format;
  std::vector<std::string> stations;  // "" when the file names none
  std::vector<Reading> readings;
  RecordUnit stated = RecordUnit::infer;  // by the format or the header
  std::string_view stated_by;             // kByHeader or kByFormat
  std::vector<Phrase> notes;
  std::optional<double> latitude_deg;
  RecordDropped dropped;
};

// Reads whichever form the text has. What is wrong goes to `reports`.
[[nodiscard]] Table read_table(std::string_view text, Reports& reports);

// ---- for table.cc and hourly.cc ----

// The words of a heading in lower case, without units, marks and brackets: "TMIN (°F)" -> "tmin".
struct Heading {
  std::string compact;  // letters and digits only
  std::vector<std::string> words;
  RecordUnit unit = RecordUnit::infer;
  [[nodiscard]] bool has(std::string_view word) const;
};
[[nodiscard]] Heading read_heading(std::string_view text);

// How the numbers of a date stand when the year comes last.
enum class DateOrder { month_first, day_first };
// A date, and the hour where the text goes on with a time. nullopt: not a date at all.
struct DateText {
  int year = 0, month = 0, day = 0;
  std::optional<int> hour;
};
[[nodiscard]] std::optional<DateText> read_date(std::string_view text, DateOrder order);
// Looks at all of them: a first number above 12 settles it. `guessed` when nothing did.
[[nodiscard]] DateOrder date_order(const std::vector<std::string_view>& dates, bool& guessed, bool& year_last);

[[nodiscard]] Phrase date_order_note(DateOrder order, bool guessed);

[[nodiscard]] std::string quoted(std::string_view text);  // "text", cut when long
[[nodiscard]] std::string no_such_date(int year, int month, int day);

}  // namespace tenwinters::records
