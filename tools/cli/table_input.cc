#include "cli/table_input.h"

#include <fmt/core.h>

#include <algorithm>
#include <cstdio>

#include "cli/session.h"
#include "lib/utf8.h"
#include "tenwinters/names.h"

namespace tenwinters::cli {
namespace {

constexpr std::size_t kLargest = 64u << 20u;

std::string trimmed(std::string_view text) {
  constexpr std::string_view kBlank = " \t\n\r";
  const std::size_t first = text.find_first_not_of(kBlank);
  return first == std::string_view::npos ? "" : std::string(text.substr(first, text.find_last_not_of(kBlank) - first + 1));
}

// What a sheet of paper could not show as the cell says it; the line ends and tabs of a table are not meant.
bool misleads(char32_t c) { return is_hidden(c) && c != '\r'; }

std::string without_hidden(std::string_view text) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const CodePoint point = code_point_at(text, at);
    if (!misleads(point.value)) out += text.substr(at, point.bytes);
    at += point.bytes;
  }
  return out;
}

// The letter under a Latin accent, or 0.
char plain_letter(char32_t c) {
  struct Range { char32_t first, last; char letter; };
  constexpr Range kRanges[] = {{0xC0, 0xC5, 'a'}, {0xC7, 0xC7, 'c'}, {0xC8, 0xCB, 'e'}, {0xCC, 0xCF, 'i'}, {0xD1, 0xD1, 'n'}, {0xD2, 0xD6, 'o'},
                               {0xD9, 0xDC, 'u'}, {0xE0, 0xE5, 'a'}, {0xE7, 0xE7, 'c'}, {0xE8, 0xEB, 'e'}, {0xEC, 0xEF, 'i'}, {0xF1, 0xF1, 'n'},
                               {0xF2, 0xF6, 'o'}, {0xF9, 0xFC, 'u'}};
  for (const Range& range : kRanges)
    if (c >= range.first && c <= range.last) return range.letter;
  return 0;
}

bool is_combining(char32_t c) { return c >= 0x300 && c <= 0x36F; }
bool is_apostrophe(char32_t c) { return c == '\'' || c == 0x2019 || c == 0x2018; }

// "pot size", "potsize" and "Pot-Size" are one name.
std::string joined_up(std::string text) {
  std::erase(text, ' ');
  return text;
}

}  // namespace

std::string folded(std::string_view text) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const CodePoint point = code_point_at(text, at);
    at += std::max<std::size_t>(point.bytes, 1);
    const char32_t c = point.value;
    char letter = 0;
    if (c < 0x80) {
      const char ascii = static_cast<char>(c);
      letter = ascii >= 'A' && ascii <= 'Z' ? static_cast<char>(ascii - 'A' + 'a') : (ascii >= 'a' && ascii <= 'z') || (ascii >= '0' && ascii <= '9') ? ascii : '\0';
    } else {
      letter = plain_letter(c);
    }
    if (letter != 0) out += letter;
    else if (!is_combining(c) && !is_apostrophe(c) && !out.empty() && out.back() != ' ') out += ' ';
  }
  if (!out.empty() && out.back() == ' ') out.pop_back();
  return out;
}

int InputTable::read(const std::string& path, std::span<const ColumnName> columns) {
  path_ = path;
  std::string why;
  const std::optional<std::string> text = DiskReader().read(path, kLargest, why);
  if (!text) {
    complain(path + ": " + why);
    return kMisuse;
  }
  const auto refuse = [&](int line, int column, std::string message) {
    fmt::print(stderr, "{}\n", to_text({path, line, column, std::move(message), "", false}));
    return kFindings;
  };
  if (text->starts_with("\xFF\xFE") || text->starts_with("\xFE\xFF") || text->find('\0') != std::string::npos)
    return refuse(0, 0, "the file is not plain text in UTF-8; save it from the spreadsheet as \"CSV UTF-8\"");
  int line = 1;
  for (std::size_t at = 0, start = 0; at < text->size();) {
    const CodePoint point = code_point_at(*text, at);
    if (!point.valid)
      return refuse(line, static_cast<int>(at - start) + 1, "found a byte that is not UTF-8; save the file from the spreadsheet as \"CSV UTF-8\"");
    if (misleads(point.value) && at > 0)  // a byte-order mark stands first
      warnings_.push_back({path, line, static_cast<int>(at - start) + 1,
                           "found the hidden character \"" + shown(text->substr(at, point.bytes)) + "\", which could turn or hide what is printed; it is left out", "", true});
    at += point.bytes;
    if (point.value == '\n') ++line, start = at;
  }
  csv_ = read_csv(*text, csv_separator(*text));
  if (csv_.unclosed_line > 0) return refuse(csv_.unclosed_line, 0, "the quote that opens in this line is never closed; a quote inside a cell is written twice");
  if (csv_.rows.empty()) return refuse(0, 0, "the file is empty; expected a first line that names the columns");

  std::vector<std::string_view> words;
  std::string expected;
  for (const ColumnName& column : columns) {
    words.push_back(column.id);
    words.insert(words.end(), column.also.begin(), column.also.end());
    expected += (expected.empty() ? "" : ", ") + std::string(column.id);
  }
  for (std::size_t i = 0; i < csv_.rows[0].size(); ++i) {
    const std::string name = folded(csv_.rows[0][i]);
    const auto named = std::find_if(columns.begin(), columns.end(), [&](const ColumnName& c) {
      const std::string wanted = joined_up(name);
      return wanted == joined_up(folded(c.id)) || std::any_of(c.also.begin(), c.also.end(), [&](std::string_view also) { return wanted == joined_up(std::string(also)); });
    });
    std::string id = named == columns.end() ? "" : std::string(named->id);
    if (!id.empty() && std::find(ids_.begin(), ids_.end(), id) != ids_.end())
      return refuse(csv_.spots[0][i].line, csv_.spots[0][i].column, "the column \"" + id + "\" stands here a second time");
    if (id.empty() && !name.empty()) {
      const std::string_view nearest = nearest_name(name, words);
      warnings_.push_back({path, csv_.spots[0][i].line, csv_.spots[0][i].column,
                           "the column \"" + trimmed(csv_.rows[0][i]) + "\" is not read; expected " + expected +
                               (nearest.empty() ? "" : "; did you mean \"" + std::string(nearest) + "\"?"), "", true});
    }
    ids_.push_back(std::move(id));
  }
  for (const ColumnName& column : columns)
    if (column.needed && !index_of(column.id)) {
      for (const Diagnostic& warning : warnings_) fmt::print(stderr, "{}\n", to_text(warning));
      return refuse(csv_.spots[0][0].line, 0, "no column \"" + std::string(column.id) + "\"; the first line must name the columns: " + expected);
    }
  for (std::size_t row = 0; row < rows(); ++row)
    if (csv_.rows[row + 1].size() > ids_.size())
      warnings_.push_back({path, csv_.spots[row + 1][ids_.size()].line, csv_.spots[row + 1][ids_.size()].column,
                           fmt::format("{} cells under {} columns; the rest of the row is not read (a comma inside a cell needs quotes about the cell)",
                                       csv_.rows[row + 1].size(), ids_.size()), "", true});
  return kDone;
}

std::optional<std::size_t> InputTable::index_of(std::string_view column) const {
  const auto found = std::find(ids_.begin(), ids_.end(), column);
  return found == ids_.end() ? std::nullopt : std::optional(static_cast<std::size_t>(found - ids_.begin()));
}

std::string InputTable::cell(std::size_t row, std::string_view column) const {
  const std::optional<std::size_t> at = index_of(column);
  const CsvRow& cells = csv_.rows[row + 1];
  return at && *at < cells.size() ? trimmed(without_hidden(cells[*at])) : "";
}

Diagnostic InputTable::fault(std::size_t row, std::string_view column, std::string message) const {
  const std::optional<std::size_t> at = index_of(column);
  const std::vector<CsvSpot>& spots = csv_.spots[row + 1];
  const CsvSpot spot = at && *at < spots.size() ? spots[*at] : spots.front();
  return {path_, spot.line, spot.column, std::move(message), "", false};
}

}  // namespace tenwinters::cli
