// Numbers as the drawings write them.
#pragma once

#include <cmath>
#include <cstdint>
#include <string>

namespace tenwinters::draw {

// A length or place on the drawing, to a tenth, halves away from zero.
inline std::string num(double value) {
  const auto tenths = static_cast<std::int64_t>(std::floor(std::abs(value) * 10 + 0.5));
  std::string text;
  if (value < 0 && tenths > 0) text += '-';
  text += std::to_string(tenths / 10);
  if (tenths % 10 != 0) (text += '.') += static_cast<char>('0' + tenths % 10);
  return text;
}

inline std::string attribute(const char* name, double value) {
  std::string text = " ";
  return (((text += name) += "=\"") += num(value)) += '"';
}

}  // namespace tenwinters::draw
