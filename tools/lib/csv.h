// Comma-separated values as spreadsheets write them (RFC 4180).
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace tenwinters {

using CsvRow = std::vector<std::string>;

struct CsvSpot { int line = 1, column = 1; };  // from 1; columns count bytes

struct CsvTable {
  std::vector<CsvRow> rows;
  std::vector<std::vector<CsvSpot>> spots;  // where each cell begins
  int unclosed_line = 0;                    // of a quote that is never closed; 0 = none
};

// Rows of cells; a byte-order mark, CRLF line ends and empty lines are passed over. Cells are text: nothing in them
// is worked out, and the quote that csv_line sets before a formula is taken off.
[[nodiscard]] CsvTable read_csv(std::string_view text, char separator = ',');

// The separator of a table by its first line: a semicolon or a tab if there is one and no comma, as spreadsheets
// write where the comma is the decimal mark.
[[nodiscard]] char csv_separator(std::string_view text);

// One line, with its line feed. A text that a spreadsheet would run as a formula (it begins with = + - @) gets a
// quote ' before it, so that it stays a text.
[[nodiscard]] std::string csv_line(const CsvRow& row);

}  // namespace tenwinters
