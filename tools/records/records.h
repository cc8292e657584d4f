// Station files -> daily records -> packed winters. Reads every format the offices meet; see read_record.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "lib/diagnostic.h"
#include "tenwinters/winters.h"

namespace tenwinters {

struct Day {
  int year = 0, month = 0, day = 0;
  double min_c = 0, max_c = 0;     // NaN where missing
  int line = 0;                    // where it stood, for diagnostics
};

enum class RecordUnit { infer, celsius, fahrenheit, tenths_celsius };

struct Record {
  std::string station;
  std::vector<Day> days;                 // by date, without repeats
  std::vector<Diagnostic> faults;        // warnings for dropped days; a fault when nothing could be read
  std::string unit_said;                 // "degrees Celsius, from the values", shown aloud
};
[[nodiscard]] Record read_record(std::string_view text, const std::string& file, RecordUnit unit = RecordUnit::infer);

// Complete winters only, with cold spells and hardening, ready for replay.
[[nodiscard]] Winters pack_winters(const Record& record, double latitude_deg, bool invented);

}  // namespace tenwinters
