// A climate summary in plain words, and as drawings. Text only; nothing is written to disk.
#pragma once

#include <string>
#include <vector>

#include "lib/files.h"
#include "records/records.h"
#include "tenwinters/office.h"

namespace tenwinters {

// "1 December"; days since the winter began.
[[nodiscard]] std::string winter_date(int days_since_start, bool southern);

// "23 F" or "-5.0 C"; a level, and a difference ("7 F" warmer).
[[nodiscard]] std::string say_temperature(double celsius, Units units);
[[nodiscard]] std::string say_difference(double celsius, Units units);

// What a caller wants to know of a place's winters, as paragraphs without line breaks.
[[nodiscard]] std::vector<std::string> describe_climate(const ClimateSummary& summary, Units units);

// winters.svg, freezes.svg, return_levels.svg, heat.svg: each with a title and a description for people who
// cannot see it, without scripts, fonts or anything else from outside. Only those the record can fill.
// `remark` (the record's own) is written under each.
[[nodiscard]] std::vector<OutputFile> climate_charts(const ClimateSummary& summary, const std::string& station,
                                                     const std::string& remark, Units units);

}  // namespace tenwinters
