// Headings and dates, as people write them.
#include <algorithm>
#include <array>

#include "records/table.h"

namespace tenwinters::records {
namespace {

bool digit(char c) {
  return c >= '0' && c <= '9';
}

int month_by_name(std::string_view text) {
  static constexpr std::string_view names[] = {"jan", "feb", "mar", "apr", "may", "jun",
                                               "jul", "aug", "sep", "oct", "nov", "dec"};
  if (text.size() < 3) return 0;
  const std::string start = lower(text.substr(0, 3));
  for (int i = 0; i < 12; ++i)
    if (start == names[i]) return i + 1;
  return 0;
}

// Up to three fields of digits or letters, and what separates them.
struct Fields {
  std::array<std::string_view, 3> part;
  std::size_t count = 0;
  char separator = 0;
  std::string_view rest;  // from the time on
};

// Like text.find_first_of(marks, from), which asks the C library about every single letter.
template <class... Marks>
std::size_t find_mark(std::string_view text, std::size_t from, Marks... marks) {
  while (from < text.size() && !((text[from] == marks) || ...)) ++from;
  return from;
}

Fields cut(std::string_view text) {
  Fields fields;
  std::size_t at = 0;
  while (fields.count < 3 && at < text.size()) {
    const std::size_t end = find_mark(text, at, '-', '/', '.', ' ');
    std::size_t stop = end;
    if (fields.count == 2) stop = std::min(end, find_mark(text, at, 'T', ':'));
    fields.part[fields.count++] = text.substr(at, stop - at);
    at = stop;
    if (fields.count == 3) break;
    if (at < text.size()) {
      if (fields.separator == 0) fields.separator = text[at];
      ++at;
      while (at < text.size() && text[at] == ' ') ++at;
    }
  }
  fields.rest = text.substr(std::min(at, text.size()));
  return fields;
}

std::optional<int> hour_of(std::string_view rest) {
  while (!rest.empty() && (rest.front() == 'T' || rest.front() == ' ')) rest.remove_prefix(1);
  std::size_t digits = 0;
  while (digits < rest.size() && digits < 2 && digit(rest[digits])) ++digits;
  if (digits == 0) return std::nullopt;
  return to_whole(rest.substr(0, digits));
}

int full_year(int year, std::size_t digits) {
  if (digits > 2) return year;
  return year + (year >= 30 ? 1900 : 2000);
}

}  // namespace

bool Heading::has(std::string_view word) const {
  return std::find(words.begin(), words.end(), word) != words.end();
}

Heading read_heading(std::string_view text) {
  Heading heading;
  std::string word;
  const auto finish = [&] {
    if (word.empty()) return;
    if (word == "f" || word == "degf" || word == "fahrenheit")
      heading.unit = RecordUnit::fahrenheit;
    else if (word == "c" || word == "degc" || word == "celsius" || word == "centigrade")
      heading.unit = RecordUnit::celsius;
    else if (word == "tenths")
      heading.unit = RecordUnit::tenths_celsius;
    else if (word != "deg" && word != "degree" && word != "degrees") {
      heading.words.push_back(word);
      heading.compact += word;
    }
    word.clear();
  };
  for (const char c : lower(text)) {
    if (digit(c) || (c >= 'a' && c <= 'z'))
      word += c;
    else
      finish();
  }
  finish();
  return heading;
}

std::optional<DateText> read_date(std::string_view text, DateOrder order) {
  if (text.size() >= 8 && std::all_of(text.begin(), text.begin() + 8, digit) && (text.size() == 8 || !digit(text[8]))) {
    const auto number = [&](std::size_t at, std::size_t n) { return to_whole(text.substr(at, n)).value_or(0); };
    return DateText{number(0, 4), number(4, 2), number(6, 2), hour_of(text.substr(8))};
  }
  // By far the most common form, and a record has ten thousand of them.
  if (text.size() == 10 && text[4] == '-' && text[7] == '-') {
    const auto year = to_whole(text.substr(0, 4)), month = to_whole(text.substr(5, 2)), day = to_whole(text.substr(8, 2));
    if (year && month && day && digit(text[0]) && digit(text[5]) && digit(text[8])) return DateText{*year, *month, *day, std::nullopt};
  }
  const Fields fields = cut(text);
  if (fields.count < 3) return std::nullopt;
  std::array<int, 3> n{};
  int named = -1;
  for (std::size_t i = 0; i < 3; ++i) {
    std::string_view part = fields.part[i];
    if (!part.empty() && part.back() == ',') part.remove_suffix(1);
    if (const auto whole = to_whole(part); whole && *whole >= 0)
      n[i] = *whole;
    else if (const int month = month_by_name(part); month > 0)
      n[i] = month, named = static_cast<int>(i);
    else
      return std::nullopt;
  }
  const std::optional<int> hour = hour_of(fields.rest);
  if (fields.part[0].size() == 4) return DateText{n[0], n[1], n[2], hour};
  const int year = full_year(n[2], fields.part[2].size());
  if (named == 0 || (named < 0 && order == DateOrder::month_first)) return DateText{year, n[0], n[1], hour};
  return DateText{year, n[1], n[0], hour};
}

DateOrder date_order(const std::vector<std::string_view>& dates, bool& guessed, bool& year_last) {
  guessed = year_last = false;
  bool dotted = false;
  for (const std::string_view text : dates) {
    const Fields fields = cut(text);
    if (fields.count < 3 || fields.part[0].size() == 4) continue;
    const auto first = to_whole(fields.part[0]), second = to_whole(fields.part[1]);
    if (!first || !second) continue;
    year_last = true;
    if (*first > 12) return DateOrder::day_first;
    if (*second > 12) return DateOrder::month_first;
    dotted = dotted || fields.separator == '.';
  }
  guessed = year_last;
  return dotted ? DateOrder::day_first : DateOrder::month_first;
}

std::string quoted(std::string_view text) {
  if (text.size() > 40) return '"' + std::string(text.substr(0, 37)) + "...\"";
  return '"' + std::string(text) + '"';
}

Phrase date_order_note(DateOrder order, bool guessed) {
  return {std::string("climate.note.") + (order == DateOrder::month_first ? "month_first" : "day_first") +
              (guessed ? "_guessed" : ""),
          {}};
}

std::string no_such_date(int year, int month, int day) {
  if (month == 0) return "there is no day " + std::to_string(day) + " in the year " + std::to_string(year);
  return "there is no day " + std::to_string(day) + " of month " + std::to_string(month) + " in " +
         std::to_string(year);
}

}  // namespace tenwinters::records
