#include "tenwinters/yard.h"

#include <cstdint>
#include <optional>

namespace tenwinters {
namespace {

// A plain decimal such as "4.6": no sign, no exponent, at most fifteen digits, so that it is exact to
// the last bit and independent of any locale.
std::optional<double> parse_decimal(std::string_view text) {
  std::int64_t digits = 0, scale = 1;
  int count = 0;
  bool point = false, digit_last = false;
  for (char c : text) {
    if (c == '.') {
      if (point || !digit_last) return std::nullopt;
      point = true;
      digit_last = false;
    } else if (c >= '0' && c <= '9') {
      if (++count > 15) return std::nullopt;
      digits = digits * 10 + (c - '0');
      if (point) scale *= 10;
      digit_last = true;
    } else {
      return std::nullopt;
    }
  }
  if (!digit_last) return std::nullopt;
  return static_cast<double>(digits) / static_cast<double>(scale);
}

bool set_number(double& value, std::string_view text, double low, double high, std::string* expected, const char* range) {
  const std::optional<double> number = parse_decimal(text);
  if (number && *number >= low && *number <= high) {
    value = *number;
    return true;
  }
  if (expected != nullptr) *expected = std::string("a number from ") + range;
  return false;
}

bool set_flag(bool& value, std::string_view text, std::string* expected) {
  if (text == "true" || text == "false") {
    value = text == "true";
    return true;
  }
  if (expected != nullptr) *expected = "true or false";
  return false;
}

template <class E>
bool set_word(E& value, std::string_view text, std::string* expected) {
  if (const std::optional<E> word = parse<E>(text)) {
    value = *word;
    return true;
  }
  if (expected != nullptr) {
    *expected = "one of";
    for (std::string_view name : names_of<E>()) (*expected += expected->size() > 6 ? ", " : " ") += name;
  }
  return false;
}

}  // namespace

bool set_variable(Yard& yard, Variable variable, std::string_view text, std::string* expected) {
  switch (variable) {
    case Variable::spot: return set_word(yard.spot, text, expected);
    case Variable::sun_hours: return set_number(yard.sun_hours, text, 0, 16, expected, "0 to 16 (hours)");
    case Variable::drainage: return set_word(yard.drainage, text, expected);
    case Variable::soil: return set_word(yard.soil, text, expected);
    case Variable::container_l: return set_number(yard.container_l, text, 0, 1000, expected, "0 to 1000 (litres)");
    case Variable::moves_indoors: return set_flag(yard.moves_indoors, text, expected);
    case Variable::room_m: return set_number(yard.room_m, text, 0.5, 30, expected, "0.5 to 30 (metres)");
    case Variable::work_nights: return set_number(yard.work_nights, text, 0, 200, expected, "0 to 200 (nights)");
    case Variable::company: return set_word(yard.company, text, expected);
    case Variable::taste: return set_word(yard.taste, text, expected);
    case Variable::use: return set_word(yard.use, text, expected);
    case Variable::seeds: return set_word(yard.seeds, text, expected);
    case Variable::season: return set_word(yard.season, text, expected);
    case Variable::avoid_thorns: return set_flag(yard.avoid_thorns, text, expected);
    case Variable::avoid_medicine_fruit: return set_flag(yard.avoid_medicine_fruit, text, expected);
    case Variable::has_pets: return set_flag(yard.has_pets, text, expected);
    case Variable::priority: return set_word(yard.priority, text, expected);
  }
  return false;
}

}  // namespace tenwinters
