// Small questions about UTF-8 text: is it valid, how wide is it, what in it would mislead a reader.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace tenwinters {

// One code point of a text. `bytes` is 0 at the end, 1 with `valid` false for a byte that does not belong.
struct CodePoint {
  char32_t value = 0;
  std::size_t bytes = 0;
  bool valid = false;
};
[[nodiscard]] CodePoint code_point_at(std::string_view text, std::size_t at);

void append_utf8(std::string& text, char32_t code_point);

// Code points that no file of ours may hold: control characters (but for tab and line feed), marks that
// turn the reading direction, invisible separators. A page or a terminal would show something else than
// what the file says.
[[nodiscard]] bool is_hidden(char32_t code_point);

// Columns that a fixed-width terminal uses: 0 for combining marks, 2 for wide (Asian) characters, else 1.
[[nodiscard]] int columns_of(char32_t code_point);

// The text with everything hidden or invalid written out: "\t", "\x1B", "\u202E". Safe for any terminal.
[[nodiscard]] std::string shown(std::string_view text);

}  // namespace tenwinters
