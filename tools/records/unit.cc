#include "records/unit.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace tenwinters {

RecordUnit unit_named(std::string_view word) {
  if (word == "f") return RecordUnit::fahrenheit;
  if (word == "c") return RecordUnit::celsius;
  return word == "tenths" ? RecordUnit::tenths_celsius : RecordUnit::infer;
}

namespace records {
namespace {

std::string whole(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.0f", value);
  return text;
}

// The value at a rank from either end that one slip of the pen, or one in fifty, cannot move.
double quantile(std::vector<double>& values, double share) {
  if (values.empty()) return 0;
  const std::size_t last = values.size() - 1;
  auto at = static_cast<std::size_t>(std::lround(share * static_cast<double>(last)));
  if (last >= 4) at = std::clamp<std::size_t>(at, 1, last - 1);
  std::nth_element(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(at), values.end());
  return values[at];
}

}  // namespace

std::string unit_name(RecordUnit unit) {
  switch (unit) {
    case RecordUnit::fahrenheit:
      return "degrees Fahrenheit";
    case RecordUnit::tenths_celsius:
      return "tenths of a degree Celsius";
    case RecordUnit::celsius:
    case RecordUnit::infer:
    case RecordUnit::usually_fahrenheit:
      break;
  }
  return "degrees Celsius";
}

std::string unit_name_key(RecordUnit unit) {
  if (unit == RecordUnit::fahrenheit) return "@climate.unit.fahrenheit";
  return unit == RecordUnit::tenths_celsius ? "@climate.unit.tenths" : "@climate.unit.celsius";
}

double to_celsius(double raw, RecordUnit unit) {
  if (unit == RecordUnit::tenths_celsius) return raw / 10;
  if (unit != RecordUnit::fahrenheit) return raw;
  const double c = (raw - 32) * 5 / 9;
  // Tenths of C that somebody turned into F come back as tenths.
  const double tenths = std::round(c * 10);
  return std::abs(c * 10 - tenths) < 1e-6 ? tenths / 10 : c;
}

UnitFound find_unit(std::vector<double> highs, std::vector<double> lows, bool whole_year, RecordUnit stated,
                    std::string_view stated_by, RecordUnit asked) {
  UnitFound found;
  const double top = quantile(highs, 0.98), bottom = quantile(lows, 0.02);
  const double middle_high = quantile(highs, 0.5), middle_low = quantile(lows, 0.5);
  const std::string by = "@" + std::string(stated_by);
  const auto said = [&](const std::string& key, RecordUnit unit) {
    return Phrase{"climate.unit_said." + key,
                  {{"unit", unit_name_key(unit)}, {"by", by}, {"high", whole(top)}, {"low", whole(bottom)}}};
  };
  const std::string seen = " (highs up to about " + whole(top) + ", lows down to about " + whole(bottom) + ")";
  // No air is at 130 F or at -130 F, and no place has highs of 56 C; in a record of whole years, only polar
  // places never pass 56 F, or 13 C.
  bool certain = true, usual = false;
  if (top > 130 || bottom < -130 || (top > 56 && bottom < -60)) {
    found.unit = RecordUnit::tenths_celsius;
  } else if (top > 56) {
    found.unit = RecordUnit::fahrenheit;
    certain = whole_year || stated != RecordUnit::tenths_celsius;
  } else {
    certain = whole_year;
    // Part of a year: a day's span beyond 20 is more than a Celsius thermometer shows on most days.
    found.unit = !whole_year && middle_high - middle_low > 20 ? RecordUnit::fahrenheit : RecordUnit::celsius;
    // A cold spell reads so low in Celsius alone; above that it would be none.
    usual = asked == RecordUnit::usually_fahrenheit && !whole_year && (top >= 32 || bottom > 6);
    if (usual) found.unit = RecordUnit::fahrenheit;
  }
  if (asked != RecordUnit::infer && asked != RecordUnit::usually_fahrenheit) {
    const double scale_top = to_celsius(top, asked), scale_bottom = to_celsius(bottom, asked);
    if (scale_top > 57 || scale_bottom < -90)
      found.fault =
          "the temperatures cannot be " + unit_name(asked) + seen + "; they look like " + unit_name(found.unit);
    const bool doubtful = found.fault.empty() && certain && found.unit != asked;
    found.said = said(doubtful ? "asked_but" : "asked", asked);
    found.said.fills.emplace_back("other", unit_name_key(found.unit));
    found.unit = asked;
    return found;
  }
  if (stated == RecordUnit::infer) {
    found.said = said(usual ? "usual" : certain ? "values" : "guess", found.unit);
  } else if (stated == found.unit) {
    found.said = said("agree", stated);
  } else if (certain) {
    found.said = said("although", found.unit);
    found.said.fills.emplace_back("other", unit_name_key(stated));
  } else {
    found.unit = stated;
    found.said = said("stated", stated);
  }
  return found;
}

}  // namespace records
}  // namespace tenwinters
