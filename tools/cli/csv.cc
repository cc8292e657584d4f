#include "cli/csv.h"

namespace tenwinters::cli {

std::vector<CsvRow> read_csv(std::string_view text, int& fault_line) {
  constexpr std::string_view kMark = "\xEF\xBB\xBF";
  if (text.starts_with(kMark)) text.remove_prefix(kMark.size());
  fault_line = 0;
  std::vector<CsvRow> rows;
  CsvRow row;
  std::string cell;
  bool quoted = false, any = false;
  int line = 1, quote_line = 1;
  const auto end_row = [&] {
    row.push_back(std::move(cell));
    cell.clear();
    if (any) rows.push_back(std::move(row));
    row.clear();
    any = false;
  };
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == '\n') ++line;
    if (quoted) {
      if (c != '"') cell += c;
      else if (i + 1 < text.size() && text[i + 1] == '"') cell += text[++i];
      else quoted = false;
    } else if (c == '"' && cell.empty()) {
      quoted = any = true;
      quote_line = line;
    } else if (c == ',') {
      row.push_back(std::move(cell));
      cell.clear();
      any = true;
    } else if (c == '\n') {
      end_row();
    } else if (c != '\r') {
      cell += c;
      any = true;
    }
  }
  if (quoted) fault_line = quote_line;
  if (any) end_row();
  return rows;
}

std::string csv_line(const CsvRow& row) {
  std::string out;
  for (std::size_t i = 0; i < row.size(); ++i) {
    if (i > 0) out += ',';
    if (row[i].find_first_of(",\"\n\r") == std::string::npos) {
      out += row[i];
      continue;
    }
    out += '"';
    for (const char c : row[i]) {
      if (c == '"') out += '"';
      out += c;
    }
    out += '"';
  }
  return out + "\n";
}

}  // namespace tenwinters::cli
