#include "records/scan.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdint>

namespace tenwinters::records {

Lines::Lines(std::string_view text) : rest_(text) {
  if (rest_.substr(0, 3) == "\xEF\xBB\xBF") rest_.remove_prefix(3);
}

bool Lines::next(std::string_view& line) {
  if (rest_.empty()) return false;
  const std::size_t end = rest_.find('\n');
  line = rest_.substr(0, end);
  rest_.remove_prefix(end == std::string_view::npos ? rest_.size() : end + 1);
  if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
  ++number_;
  return true;
}

std::string_view trim(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.remove_suffix(1);
  return text;
}

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return out;
}

void split(std::string_view line, char separator, std::vector<Cell>& cells) {
  cells.clear();
  std::size_t at = 0;
  if (separator == kBlanks) {
    while (true) {
      at = line.find_first_not_of(" \t", at);
      if (at == std::string_view::npos) return;
      const std::size_t end = std::min(line.find_first_of(" \t", at), line.size());
      cells.push_back({line.substr(at, end - at), static_cast<int>(at) + 1});
      at = end;
    }
  }
  while (true) {
    std::size_t start = line.find_first_not_of(separator == '\t' ? " " : " \t", at);
    if (start == std::string_view::npos) start = line.size();
    if (start < line.size() && line[start] == '"') {
      std::size_t close = start + 1;  // a doubled quote stands for one and does not close
      while (close < line.size() && (line[close] != '"' || (close + 1 < line.size() && line[close + 1] == '"')))
        close += line[close] == '"' ? 2U : 1U;
      close = std::min(close, line.size());
      cells.push_back({trim(line.substr(start + 1, close - start - 1)), static_cast<int>(start) + 1});
      at = std::min(line.find(separator, close), line.size());
    } else {
      const std::size_t end = std::min(line.find(separator, at), line.size());
      cells.push_back({trim(line.substr(at, end - at)), static_cast<int>(std::min(start, end)) + 1});
      at = end;
    }
    if (at >= line.size()) return;
    ++at;
  }
}

char guess_separator(std::string_view line) {
  std::vector<Cell> cells;
  char best = kBlanks;
  std::size_t most = 1;
  for (const char separator : {',', ';', '\t'}) {
    split(line, separator, cells);
    if (cells.size() > most) most = cells.size(), best = separator;
  }
  return best;
}

namespace {

// Nearly all readings: a few digits, a point, a few digits. Both the digits and the power of ten are exact, so their
// quotient is the nearest number, which a general reader comes to in four times as many steps.
std::optional<double> few_digits(std::string_view text) {
  constexpr std::array<double, 10> kPowers = {1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9};
  const bool negative = text.front() == '-';
  if (negative) text.remove_prefix(1);
  const std::size_t point = std::min(text.find('.'), text.size());
  const std::size_t behind = point == text.size() ? 0 : text.size() - point - 1;
  if (point == 0 || (behind == 0 && point != text.size()) || text.size() > kPowers.size()) return std::nullopt;
  std::int64_t digits = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (i == point) continue;
    if (text[i] < '0' || text[i] > '9') return std::nullopt;
    digits = digits * 10 + (text[i] - '0');
  }
  const double size = static_cast<double>(digits) / kPowers[behind];
  return negative ? -size : size;
}

}  // namespace

std::optional<double> to_number(std::string_view text, bool decimal_comma) {
  if (!text.empty() && text.front() == '+') text.remove_prefix(1);
  if (text.empty() || text.size() > 40) return std::nullopt;
  if (const auto number = few_digits(text)) return number;
  double value = 0;
  std::from_chars_result result{};
  if (const std::size_t comma = decimal_comma ? text.find(',') : std::string_view::npos; comma != std::string_view::npos) {
    std::string pointed(text);
    pointed[comma] = '.';
    result = std::from_chars(pointed.data(), pointed.data() + pointed.size(), value);
    if (result.ptr != pointed.data() + pointed.size()) return std::nullopt;
  } else {
    result = std::from_chars(text.data(), text.data() + text.size(), value);
    if (result.ptr != text.data() + text.size()) return std::nullopt;
  }
  if (result.ec != std::errc() || !std::isfinite(value)) return std::nullopt;
  return value;
}

std::optional<int> to_whole(std::string_view text) {
  int value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (text.empty() || error != std::errc() || end != text.data() + text.size()) return std::nullopt;
  return value;
}

bool is_missing(std::string_view text) {
  if (text.empty()) return true;
  const char first = text.front();
  if ((first >= '0' && first <= '8') || first == '+') return false;  // the common case, quickly
  static constexpr std::string_view codes[] = {
      "NA",     "N/A",   "n/a",    "na",     "NaN",   "nan",    "NAN",    "null",    "NULL",  "None",    "none",
      "M",      "m",     "T",      "-",      "--",    "---",    ".",      "...",     "?",     "x",       "*",
      "#N/A",   "-99.9", "-99.90", "-99.99", "-999",  "-999.0", "-999.9", "-999.99", "-9999", "-9999.0", "-9999.9",
      "-99999", "99999", "9999",   "9999.9", "999.9", "999.99", "-32768", "-7777",   "-6999", "missing", "Missing"};
  return std::find(std::begin(codes), std::end(codes), text) != std::end(codes);
}

std::string not_text(std::string_view text) {
  if (text.empty()) return "is empty";
  if (text.substr(0, 2) == "\x1f\x8b") return "is compressed (gzip); unpack it first";
  if (text.substr(0, 4) == "PK\x03\x04") return "is a zip archive or a spreadsheet; save its table as CSV first";
  if (text.substr(0, 2) == "\xff\xfe" || text.substr(0, 2) == "\xfe\xff")
    return "is UTF-16 text; save it as UTF-8 first";
  if (text.substr(0, 5) == "%PDF-") return "is a PDF, not a table";
  if (text.substr(0, 1u << 16u).find('\0') != std::string_view::npos) return "is not text";
  return "";
}

void add_source_lines(std::string_view text, std::vector<Diagnostic>& faults) {
  std::vector<Diagnostic*> by_line;
  for (Diagnostic& fault : faults)
    if (fault.line > 0) by_line.push_back(&fault);
  std::stable_sort(by_line.begin(), by_line.end(),
                   [](const Diagnostic* a, const Diagnostic* b) { return a->line < b->line; });
  Lines lines(text);
  std::string_view line;
  for (Diagnostic* fault : by_line) {
    while (lines.number() < fault->line && lines.next(line)) {
    }
    if (lines.number() == fault->line) fault->source_line = std::string(line);
  }
}

void Reports::add(int line, int column, std::string message, std::string_view kind, bool warning) {
  any_fault_ = any_fault_ || !warning;
  auto found = std::find_if(kinds_.begin(), kinds_.end(), [&](const Kind& k) { return k.name == kind; });
  if (found == kinds_.end()) found = kinds_.insert(kinds_.end(), Kind{std::string(kind), 0, warning});
  if (++found->count <= kTold) told_.push_back({file_, line, column, std::move(message), "", warning});
}

std::vector<Diagnostic> Reports::take(std::string_view text) {
  for (const Kind& kind : kinds_)
    if (kind.count > kTold)
      told_.push_back(
          {file_, 0, 0, "and " + std::to_string(kind.count - kTold) + " more like it: " + kind.name, "", kind.warning});
  add_source_lines(text, told_);
  sort_diagnostics(told_);
  return std::move(told_);
}

}  // namespace tenwinters::records
