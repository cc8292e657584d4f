// Which unit a file's temperatures are in, told from the temperatures. Private to the records library.
#pragma once

#include <string>
#include <vector>

#include "records/records.h"

namespace tenwinters::records {

struct UnitFound {
  RecordUnit unit = RecordUnit::celsius;
  Phrase said;        // "tenths of a degree Celsius, from the values (...)"
  std::string fault;  // when the unit asked for cannot be right
};

// Who said which unit it is, as keys of words.
inline constexpr std::string_view kByHeader = "climate.unit_said.by_header", kByFormat = "climate.unit_said.by_format";

// `stated`/`stated_by`: what the header or the format says; the values win where they leave no doubt.
// `asked`: what the caller says; it wins unless it is impossible.
[[nodiscard]] UnitFound find_unit(std::vector<double> highs, std::vector<double> lows, bool whole_year,
                                  RecordUnit stated, std::string_view stated_by, RecordUnit asked);

[[nodiscard]] std::string unit_name(RecordUnit unit);      // in English, for faults of the file
[[nodiscard]] std::string unit_name_key(RecordUnit unit);  // "@climate.unit.celsius"
[[nodiscard]] double to_celsius(double raw, RecordUnit unit);

}  // namespace tenwinters::records
