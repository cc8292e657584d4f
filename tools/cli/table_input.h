// A table that a person made in a spreadsheet: CSV whose first row names the columns, in any of the words people use.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "lib/csv.h"
#include "lib/diagnostic.h"

namespace tenwinters::cli {

struct ColumnName {
  std::string_view id;
  std::vector<std::string_view> also;   // other words for it, folded
  bool needed = false;
};

// Lower case, without accents, everything but letters and digits as one space: "  Patrón/Pie " -> "patron pie".
[[nodiscard]] std::string folded(std::string_view text);

class InputTable {
 public:
  // Reads the file; what is wrong with it is complained of. 0, 1 (the file is at fault) or 2 (it cannot be read).
  [[nodiscard]] int read(const std::string& path, std::span<const ColumnName> columns);

  [[nodiscard]] std::size_t rows() const { return csv_.rows.size() - 1; }
  // The cell without blanks about it and without hidden characters; "" where the row ends before it or there is no such column.
  [[nodiscard]] std::string cell(std::size_t row, std::string_view column) const;
  // A fault at that cell, or at the row if it has no such column.
  [[nodiscard]] Diagnostic fault(std::size_t row, std::string_view column, std::string message) const;
  // Hidden characters, rows with more cells than there are columns, and columns nobody asked for: warnings.
  [[nodiscard]] const std::vector<Diagnostic>& warnings() const { return warnings_; }

 private:
  [[nodiscard]] std::optional<std::size_t> index_of(std::string_view column) const;

  std::string path_;
  CsvTable csv_;
  std::vector<std::string> ids_;        // of each column; "" = not understood
  std::vector<Diagnostic> warnings_;
};

}  // namespace tenwinters::cli
