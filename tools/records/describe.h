// A climate summary in plain words, and as drawings, in any language of the catalogue (words: climate.*).
// Nothing is written to disk.
//
//   for (const std::string& paragraph : describe_climate(summary, {language, units})) print(paragraph);
#pragma once

#include <string>
#include <vector>

#include "lib/files.h"
#include "lib/texts.h"
#include "records/records.h"
#include "tenwinters/office.h"

namespace tenwinters {

// Says the figures of a climate in one language and its reader's units.
struct ClimateVoice {
  const Language& language;
  Units units = Units::us;

  [[nodiscard]] std::string say(const std::string& key, std::vector<std::pair<std::string, std::string>> fills = {}) const;
  [[nodiscard]] std::string temperature(double celsius) const;  // "23 °F" or "−5.0 °C"
  [[nodiscard]] std::string difference(double celsius) const;   // "1.8 °F" warmer
  [[nodiscard]] std::string whole(double value) const;
  // "1 December"; days since the winter began, in a year without 29 February.
  [[nodiscard]] std::string winter_date(int days_since_start, bool southern) const;
  [[nodiscard]] std::string full_date(int day_number) const;  // "21 January 1985"
};

// What a caller wants to know of a place's winters, as paragraphs without line breaks.
[[nodiscard]] std::vector<std::string> describe_climate(const ClimateSummary& summary, const ClimateVoice& voice);

// What the header of an EPW file says of its coldest hours; one paragraph.
[[nodiscard]] std::string describe_yearly_lows(const YearlyLows& lows, const ClimateVoice& voice);

// winters.svg, freezes.svg, return_levels.svg, heat.svg: each with a title and a description for people who
// cannot see it, without scripts, fonts or anything else from outside. Only those the record can fill.
// `remark` (the record's own) is written under each.
[[nodiscard]] std::vector<OutputFile> climate_charts(const ClimateSummary& summary, const std::string& station,
                                                     const std::string& remark, const ClimateVoice& voice);

}  // namespace tenwinters
