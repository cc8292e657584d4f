#include "lib/csv.h"

#include <algorithm>

namespace tenwinters {
namespace {

// Would a spreadsheet read the text as a formula? Quotes that guard one already do not count, numbers are none.
bool reads_as_formula(std::string_view text) {
  const std::size_t start = std::min(text.find_first_not_of('\''), text.size());
  if (start == text.size() || std::string_view("=+-@\t\r").find(text[start]) == std::string_view::npos) return false;
  const bool number = start == 0 && (text[0] == '-' || text[0] == '+') && text.size() > 1 &&
                      text.find_first_not_of("0123456789.", 1) == std::string_view::npos;
  return !number;
}

// A quote before the sign keeps the cell a text; reading takes it off again.
std::string guarded(const std::string& cell) { return reads_as_formula(cell) ? "'" + cell : cell; }
std::string unguarded(std::string cell) {
  if (cell.starts_with('\'') && reads_as_formula(cell)) cell.erase(0, 1);
  return cell;
}

}  // namespace

CsvTable read_csv(std::string_view text, char separator) {
  constexpr std::string_view kMark = "\xEF\xBB\xBF";
  if (text.starts_with(kMark)) text.remove_prefix(kMark.size());
  CsvTable table;
  CsvRow row;
  std::vector<CsvSpot> spots;
  std::string cell;
  bool quoted = false, any = false;
  int line = 1, quote_line = 1;
  std::size_t line_start = 0;
  CsvSpot spot;
  const auto end_cell = [&] {
    row.push_back(unguarded(std::move(cell)));
    spots.push_back(spot);
    cell.clear();
  };
  const auto end_row = [&] {
    end_cell();
    if (any) {
      table.rows.push_back(std::move(row));
      table.spots.push_back(std::move(spots));
    }
    row.clear();
    spots.clear();
    any = false;
  };
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    // A lone CR ended lines once.
    const bool ends_line = c == '\n' || (c == '\r' && (i + 1 == text.size() || text[i + 1] != '\n'));
    if (ends_line) {
      ++line;
      line_start = i + 1;
    }
    const auto here = [&](std::size_t at) { return CsvSpot{line, static_cast<int>(at - line_start) + 1}; };
    if (quoted) {
      if (c != '"') cell += c;
      else if (i + 1 < text.size() && text[i + 1] == '"') cell += text[++i];
      else quoted = false;
    } else if (c == '"' && cell.empty()) {
      quoted = any = true;
      quote_line = line;
    } else if (c == separator) {
      end_cell();
      spot = here(i + 1);
      any = true;
    } else if (ends_line) {
      end_row();
      spot = here(i + 1);
    } else if (c != '\r') {
      cell += c;
      any = true;
    }
  }
  if (quoted) table.unclosed_line = quote_line;
  if (any) end_row();
  return table;
}

char csv_separator(std::string_view text) {
  const std::string_view first = text.substr(0, text.find('\n'));
  for (const char separator : {',', ';', '\t'})
    if (first.find(separator) != std::string_view::npos) return separator;
  return ',';
}

std::string csv_line(const CsvRow& row) {
  std::string out;
  for (std::size_t i = 0; i < row.size(); ++i) {
    if (i > 0) out += ',';
    const std::string cell = guarded(row[i]);
    if (cell.find_first_of(",\"\n\r") == std::string::npos) {
      out += cell;
      continue;
    }
    out += '"';
    for (const char c : cell) {
      if (c == '"') out += '"';
      out += c;
    }
    out += '"';
  }
  return out + "\n";
}

}  // namespace tenwinters
