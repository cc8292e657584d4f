// Station files -> daily records -> packed winters.
//
//   Record record = read_record(text, "station.csv");
//   for (const Phrase& note : record.notes) say(note);                  // units, columns, what was left out
//   if (!failed(record.faults)) use(pack_winters(record, 29.7, false));
//
// Daily files read_record knows by themselves, whatever their name:
//   - GHCN-Daily .dly (fixed columns, tenths of C, quality flags);
//   - one reading a line (station, date, element, value, flags), with or without a header;
//   - NCEI daily summaries (STATION, DATE, TMAX, TMIN, ..._ATTRIBUTES), in any of the units they come in;
//   - any table whose header names a date (or year, month, day; or year, day of year) and a minimum and a
//     maximum, separated by commas, semicolons, tabs or blanks;
//   - tables without a header: year month day, or a date, then numbers.
// Hourly files (EPW; a table with a time and one temperature) give the lowest and highest hour of each day.
// Lines that start with # are comments. The unit is inferred from the values unless given, and said.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "lib/diagnostic.h"
#include "lib/texts.h"
#include "tenwinters/climate.h"
#include "tenwinters/winters.h"

namespace tenwinters {

// `usually_fahrenheit`: inferred, and where part of a year could be in either, as a cold spell in Fahrenheit.
enum class RecordUnit { infer, celsius, fahrenheit, tenths_celsius, usually_fahrenheit };
[[nodiscard]] RecordUnit unit_named(std::string_view word);  // "f", "c" or "tenths"; infer for any other

// What was read and not used, in readings or days.
struct RecordDropped {
  int flagged = 0;        // readings that carry a quality flag
  int impossible = 0;     // readings no station has ever seen, dates that do not exist
  int min_above_max = 0;  // days
  int lone_dips = 0;      // days whose low stands far below both neighbours, out of season
  int duplicates = 0;     // days present more than once; the first is kept
};

// What the header of an EPW file says of its place's coldest hour of each year: mean and standard deviation over
// a longer record than the file's own months, and the lows to expect once in 5, 10, 20 and 50 years.
inline constexpr std::array<int, 4> kYearlyLowYears{5, 10, 20, 50};
struct YearlyLows {
  double mean_c = 0, deviation_c = 0;
  std::array<double, 4> level_c{};  // one for each of kYearlyLowYears
};

struct Record {
  std::string station;
  std::vector<Day> days;                // by date, without repeats
  std::vector<Diagnostic> faults;       // warnings for dropped days; a fault when nothing could be read
  Phrase unit_said;                     // "degrees Celsius, from the values", shown aloud
  RecordUnit unit = RecordUnit::infer;  // the unit used
  Phrase format;                        // "GHCN-Daily, fixed columns"
  std::vector<Phrase> notes;            // judgements made on the way, to be said aloud
  std::string remark;                   // the file's own first comment line; shown beside every figure from it
  RecordDropped dropped;
  std::optional<double> latitude_deg;  // where the file says it
  std::optional<YearlyLows> yearly_lows;  // likewise
};
[[nodiscard]] Record read_record(std::string_view text, const std::string& file, RecordUnit unit = RecordUnit::infer);

// True when any of them is not a mere warning.
[[nodiscard]] bool failed(const std::vector<Diagnostic>& faults);

// One hour of air temperature, local standard time; `hour` 0..24, 24 being the midnight that ends the day.
struct Hour {
  int year = 0, month = 0, day = 0, hour = 0;
  double air_c = 0;
  int line = 0;
};

struct HourlyRecord {
  std::string station;
  std::vector<Hour> hours;  // in the order of the file
  std::vector<Diagnostic> faults;
  Phrase unit_said, format;
  std::vector<Phrase> notes;
  std::optional<double> latitude_deg, longitude_deg, utc_offset_h;
  std::optional<YearlyLows> yearly_lows;
};
[[nodiscard]] bool looks_hourly(std::string_view text);
[[nodiscard]] HourlyRecord read_hourly(std::string_view text, const std::string& file,
                                       RecordUnit unit = RecordUnit::infer);

// How well the daily curve rebuilds the hours of such a file when fed each day's own lowest and highest hour.
struct CurveError {
  int year = 0, month = 0, hours = 0;
  double rmse_c = 0, bias_c = 0;                                                     // rebuilt minus read
  int read_below_0 = 0, rebuilt_below_0 = 0, read_below_5 = 0, rebuilt_below_5 = 0;  // hours at or below
};
[[nodiscard]] std::vector<CurveError> curve_errors(const HourlyRecord& record, double latitude_deg,
                                                   NightFall fall = NightFall::from_sunset);

// Complete winters only, with cold spells and hardening, ready for replay. Southern by the latitude's sign.
// A spell is kept when it gets to +1 C or below: nothing milder hurts a tree, even in a frost pocket.
[[nodiscard]] Winters pack_winters(const Record& record, double latitude_deg, bool invented);

}  // namespace tenwinters
