// Comma-separated values as spreadsheets write them (RFC 4180).
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace tenwinters::cli {

using CsvRow = std::vector<std::string>;

// Rows of cells; a byte-order mark, CRLF line ends and empty lines are passed over. `fault_line` (from 1) is that
// of a quote that is never closed, else 0.
[[nodiscard]] std::vector<CsvRow> read_csv(std::string_view text, int& fault_line);

// One line, with its line feed.
[[nodiscard]] std::string csv_line(const CsvRow& row);

}  // namespace tenwinters::cli
