// The catalogue as one table: a row for each figure with its evidence, and for each other text.
//
//   file,path,value,low,high,unit,sources,basis,seen,note
//   cultivars/owari.yaml,traits.fruit_cm,6.05,5.1,7,cm,m_edis,memory,2026-11-25,
//   cultivars/owari.yaml,synonyms,Owari satsuma; Unshu mikan,,,,,,,
//
// Several sources, words or names in one cell are parted by "; ", months by " to ".
#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "loader/format.h"

namespace tenwinters::cli {

inline constexpr std::array<std::string_view, 10> kCsvColumns = {"file",    "path",  "value", "low",  "high",
                                                                 "unit",    "sources", "basis", "seen", "note"};
enum class Cell { file, path, value, low, high, unit, sources, basis, seen, note };

struct FigureRow {
  std::array<std::string, kCsvColumns.size()> cells;
  std::string& operator[](Cell cell) { return cells[static_cast<std::size_t>(cell)]; }
  const std::string& operator[](Cell cell) const { return cells[static_cast<std::size_t>(cell)]; }
};

[[nodiscard]] std::vector<FigureRow> rows_of(const std::string& file, const Document& document);

// Puts a row into its file's document. Returns what changed, a line each ("value: 6.05 -> 6.1"); `why` is set
// where the row fits nowhere.
[[nodiscard]] std::vector<std::string> apply_row(const FigureRow& row, Document& document, std::string& why);

}  // namespace tenwinters::cli
