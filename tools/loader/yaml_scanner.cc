#include "loader/yaml_scanner.h"

#include <array>
#include <limits>
#include <vector>

#include "lib/utf8.h"

namespace tenwinters {
namespace {

// Characters at which reading text without quotes must look closer.
constexpr std::array<bool, 256> kMarks = [] {
  std::array<bool, 256> marks{};
  for (const char c : {'\n', '\t', '#', ':', ',', '[', ']', '{', '}'}) marks[static_cast<unsigned char>(c)] = true;
  return marks;
}();
bool is_mark(char c) { return kMarks[static_cast<unsigned char>(c)]; }

bool is_flow_mark(char c) { return c == ',' || c == '[' || c == ']' || c == '{' || c == '}'; }

// How one or more line ends inside a scalar are read.
void append_fold(std::string& out, std::size_t line_ends) {
  if (line_ends == 1) out += ' ';
  if (line_ends > 1) out.append(line_ends - 1, '\n');
}

void trim_right(std::string& text, std::size_t keep) {
  while (text.size() > keep && (text.back() == ' ' || text.back() == '\t')) text.pop_back();
}

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.remove_suffix(1);
  return text;
}

}  // namespace

bool YamlScanner::fail(std::size_t offset, std::string message) {
  source_.fault(offset, std::move(message));
  return false;
}

std::string_view YamlScanner::keep(std::string_view text) {
  if (text.empty()) return {};
  char* place = static_cast<char*>(memory_.allocate(text.size(), 1));
  text.copy(place, text.size());
  return {place, text.size()};
}

void YamlScanner::go_back(std::size_t offset) {
  at_ = offset;
  const std::size_t before = offset == 0 ? std::string_view::npos : text_.rfind('\n', offset - 1);
  line_start_ = before == std::string_view::npos ? 0 : before + 1;
  done_ = false;
}

std::size_t YamlScanner::line_end() const {
  const std::size_t end = text_.find('\n', at_);
  return end == std::string_view::npos ? text_.size() : end;
}

void YamlScanner::skip_line() {
  at_ = line_end();
}

bool YamlScanner::document_mark_here() const {
  const std::string_view mark = text_.substr(at_, 3);
  return at_ == line_start_ && (mark == "---" || mark == "...") && is_blank(peek(3));
}

bool YamlScanner::skip_blanks() {
  while (at_ < text_.size() && (text_[at_] == ' ' || text_[at_] == '\t')) {
    if (text_[at_] == '\t' && !tab_told_) {
      tab_told_ = true;
      fail(at_, "a tab; use spaces (told once a file)");
    }
    ++at_;
  }
  if (peek() == '\n') return true;
  return peek() == '#' && (at_ == line_start_ || is_blank(text_[at_ - 1]));
}

bool YamlScanner::next_content() {
  while (!done_) {
    if (document_mark_here()) {
      const bool first = !started_ && peek() == '-';
      const std::size_t mark = at_;
      at_ += 3;
      if (first && skip_blanks()) {
        started_ = true;
        skip_line();
        continue;
      }
      fail(mark, peek() == '.' || text_[mark] == '.' ? "\"...\" ends the document; a file holds one document"
                                                     : "another document begins; a file holds one document");
      at_ = text_.size();
    }
    const bool rest_is_blank = skip_blanks();
    if (at_ >= text_.size()) {
      done_ = true;
    } else if (!rest_is_blank) {
      started_ = true;
      return true;
    } else {
      skip_line();
      if (at_ < text_.size()) line_start_ = ++at_;
    }
  }
  return false;
}

bool YamlScanner::skip_flow_blanks() {
  while (at_ < text_.size() && skip_blanks()) {
    skip_line();
    if (at_ < text_.size()) line_start_ = ++at_;
  }
  return at_ < text_.size();
}

bool YamlScanner::key_here() const {
  std::size_t i = at_;
  const std::size_t end = line_end();
  if (peek() == '"' || peek() == '\'') {
    const char quote = peek();
    for (++i; i < end && text_[i] != quote; ++i) {
      if (quote == '"' && text_[i] == '\\') ++i;
    }
    for (++i; i < end && text_[i] == ' '; ++i) {
    }
    return i < end && text_[i] == ':' && (i + 1 >= end || is_blank(text_[i + 1]));
  }
  for (; i < end; ++i) {
    if (text_[i] == ':' && (i + 1 >= end || is_blank(text_[i + 1]))) return true;
    if (text_[i] == '#' && i > at_ && is_blank(text_[i - 1])) return false;
  }
  return false;
}

bool YamlScanner::read_key(std::string_view& out, bool& quoted, bool in_flow) {
  const std::size_t start = at_;
  quoted = peek() == '"' || peek() == '\'';
  if (quoted) {
    if (!read_quoted(out, std::numeric_limits<int>::max())) return false;
  } else {
    while (!is_mark(peek()) || (peek() != '\n' && !(in_flow && is_flow_mark(peek())) && !colon_here() &&
                                !(in_flow && peek() == ':' && is_flow_mark(peek(1))))) {
      ++at_;
    }
    out = trimmed(text_.substr(start, at_ - start));
  }
  while (peek() == ' ') ++at_;
  if (peek() != ':') {
    const bool colon = out.find(':') != std::string_view::npos;
    out = {};
    if (in_flow) return fail(start, "expected `key: value`; inside { } text that holds a comma stands in quotes");
    return fail(start, colon ? "expected `key: value` with a space behind the colon" : "expected `key: value`");
  }
  ++at_;
  if (out.empty()) return fail(start, "an empty key");
  return true;
}

bool YamlScanner::read_quoted(std::string_view& out, int indent) {
  const char quote = peek();
  std::size_t end = at_ + 1;
  while (end < text_.size() && text_[end] != quote && text_[end] != '\n' && text_[end] != '\\') ++end;
  const bool one_piece = end < text_.size() && text_[end] == quote &&
                         (quote == '"' || end + 1 >= text_.size() || text_[end + 1] != quote);
  if (one_piece) {
    out = text_.substr(at_ + 1, end - at_ - 1);
    at_ = end + 1;
    return true;
  }
  std::string pieces;
  const bool good = read_pieces(pieces, indent);
  out = keep(pieces);
  return good;
}

bool YamlScanner::read_pieces(std::string& out, int indent) {
  const std::size_t open = at_;
  const char quote = peek();
  std::size_t keep = 0;  // characters of `out` that were written as escapes and are not trimmed
  ++at_;
  const auto next_line = [&](bool fold) {
    std::size_t line_ends = 0;
    while (at_ < text_.size() && text_[at_] == '\n') {
      line_start_ = ++at_;
      ++line_ends;
      while (at_ < text_.size() && (text_[at_] == ' ' || text_[at_] == '\t')) ++at_;
    }
    if (at_ >= text_.size() || column() < indent) {
      go_back(open);
      return fail(open, "this quote is never closed");
    }
    if (fold) append_fold(out, line_ends);
    return true;
  };
  for (;;) {
    const char c = peek();
    if (c == '\n') {
      trim_right(out, keep);
      if (!next_line(true)) return false;
    } else if (c == quote && quote == '\'' && peek(1) == '\'') {
      out += quote;
      at_ += 2;
    } else if (c == quote) {
      ++at_;
      return true;
    } else if (c == '\\' && quote == '"') {
      if (peek(1) == '\n') {
        ++at_;
        keep = out.size();
        if (!next_line(false)) return false;
      } else if (!read_escape(out)) {
        return false;
      }
      keep = out.size();
    } else {
      const std::size_t start = at_;
      while (at_ < text_.size() && text_[at_] != quote && text_[at_] != '\n' && text_[at_] != '\\') ++at_;
      at_ += at_ == start ? 1 : 0;  // a backslash between single quotes
      out += text_.substr(start, at_ - start);
    }
  }
}

bool YamlScanner::read_hex(std::size_t digits, char32_t& value) {
  value = 0;
  for (std::size_t i = 0; i < digits; ++i, ++at_) {
    const char c = peek();
    const int digit = c >= '0' && c <= '9'   ? c - '0'
                      : c >= 'a' && c <= 'f' ? c - 'a' + 10
                      : c >= 'A' && c <= 'F' ? c - 'A' + 10
                                             : -1;
    if (digit < 0) return false;
    value = value * 16 + static_cast<char32_t>(digit);
  }
  return true;
}

bool YamlScanner::read_escape(std::string& out) {
  constexpr std::string_view kNames = "tn\"/\\ ";
  constexpr std::string_view kValues = "\t\n\"/\\ ";
  const std::size_t start = at_;
  const char name = peek(1);
  at_ += 2;
  if (const std::size_t simple = kNames.find(name); simple != std::string_view::npos) {
    out += kValues[simple];
    return true;
  }
  const std::size_t digits = name == 'x' ? 2 : name == 'u' ? 4 : name == 'U' ? 8 : 0;
  char32_t value = name == '_' ? 0xA0 : 0;
  bool good = name == '_' || (digits > 0 && read_hex(digits, value));
  if (good && name == 'u' && value >= 0xD800 && value < 0xDC00 && peek() == '\\' && peek(1) == 'u') {
    char32_t low = 0;
    at_ += 2;
    good = read_hex(4, low) && low >= 0xDC00 && low < 0xE000;
    value = 0x10000 + ((value - 0xD800) << 10) + (low - 0xDC00);
  }
  if (!good) {
    const std::size_t shown_bytes = 1 + code_point_at(text_, start + 1).bytes;
    return fail(start, "unknown escape " + std::string(text_.substr(start, shown_bytes)) +
                           " in double quotes; write \\\\ for a backslash");
  }
  if (value == 0 || value > 0x10FFFF || (value >= 0xD800 && value < 0xE000) || is_hidden(value)) {
    return fail(start, "an escape for a character that no text may hold");
  }
  append_utf8(out, value);
  return true;
}

bool YamlScanner::read_plain(std::string_view& out, int indent, bool in_flow) {
  std::string pieces;
  bool several = false;
  const auto done = [&] {
    if (several) out = keep(pieces);
    return true;
  };
  for (;;) {
    const std::size_t start = at_;
    for (;;) {
      while (!is_mark(peek())) ++at_;
      if (peek() == '\n' || (peek() == '#' && at_ > start && is_blank(text_[at_ - 1]))) break;
      if (in_flow && is_flow_mark(peek())) break;
      if (colon_here()) {
        const char* remedy =
            in_flow ? "put a comma before the next key, or the text in quotes" : "put the text in quotes";
        return fail(at_, std::string("\": \" inside text without quotes; ") + remedy);
      }
      if (peek() == '\t') skip_blanks();
      if (peek() != '\n') ++at_;
    }
    const std::string_view piece = trimmed(text_.substr(start, at_ - start));
    if (several) {
      pieces += piece;
    } else {
      out = piece;
    }
    if (peek() != '\n') return done();

    const std::size_t end = at_, line = line_start_;
    std::size_t line_ends = 0;
    while (at_ < text_.size() && text_[at_] == '\n') {
      line_start_ = ++at_;
      ++line_ends;
      while (peek() == ' ') ++at_;
    }
    const bool goes_on = at_ < text_.size() && column() >= indent && peek() != '#' && !document_mark_here() &&
                         !(in_flow && is_flow_mark(peek()));
    if (!goes_on) {
      at_ = end;
      line_start_ = line;
      return done();
    }
    if (!in_flow && dash_here()) return fail(at_, "a list item that belongs to no list; check the indentation");
    if (!in_flow && key_here()) return fail(at_, "a key that belongs to no map; check the indentation");
    if (!several) pieces = out;
    several = true;
    append_fold(pieces, line_ends);
  }
}

bool YamlScanner::read_block(std::string_view& kept, int parent_indent) {
  std::string out;
  const bool folded = peek() == '>';
  char chomp = ' ';
  int content_indent = -1;
  for (++at_; !is_blank(peek()); ++at_) {
    if (peek() == '+' || peek() == '-') {
      chomp = peek();
    } else if (peek() >= '1' && peek() <= '9') {
      content_indent = (parent_indent < 0 ? 0 : parent_indent) + (peek() - '0');
    } else {
      return fail(at_, "the text of a | or > block begins on the next line");
    }
  }
  if (!skip_blanks()) return fail(at_, "the text of a | or > block begins on the next line");
  skip_line();

  std::size_t last_end = at_;
  std::size_t line_ends = 0;  // since the last line with text
  bool previous_deeper = false;
  bool any = false;
  while (at_ < text_.size()) {
    const std::size_t start = at_ + 1;
    std::size_t first = start;
    while (first < text_.size() && text_[first] == ' ') ++first;
    if (first >= text_.size()) break;
    ++line_ends;
    at_ = first;
    if (text_[first] != '\n') {
      const int indent = static_cast<int>(first - start);
      if (content_indent < 0 && indent > parent_indent) content_indent = indent;
      if (content_indent < 0 || indent < content_indent) break;
      at_ = start;
      const std::size_t end = line_end();
      const std::string_view line = text_.substr(start + static_cast<std::size_t>(content_indent),
                                                 end - start - static_cast<std::size_t>(content_indent));
      const bool deeper = line.front() == ' ';
      if (!any) {
        out.append(line_ends - 1, '\n');
      } else if (folded && !deeper && !previous_deeper) {
        append_fold(out, line_ends);
      } else {
        out.append(line_ends, '\n');
      }
      out += line;
      any = true;
      previous_deeper = deeper;
      line_ends = 0;
      last_end = at_ = end;
    }
  }
  if (any && chomp != '-') out += '\n';
  if (chomp == '+' && line_ends > 1) out.append(line_ends - 1, '\n');
  kept = keep(out);
  go_back(last_end);
  return true;
}

}  // namespace tenwinters
