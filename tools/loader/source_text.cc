#include "loader/source_text.h"

#include <algorithm>
#include <cstdint>
#include <cstring>

#include "lib/utf8.h"

namespace tenwinters {
namespace {

constexpr std::size_t kLongestLine = 4096;  // bytes; a longer line is not repeated in messages

// True if the next eight bytes are all printable ASCII, as nearly all are. (A borrow or carry into the neighbour comes
// only from a byte that is none itself.)
bool eight_plain(const char* at) {
  constexpr std::uint64_t kOnes = 0x0101010101010101, kHigh = 0x8080808080808080;
  std::uint64_t bytes = 0;
  std::memcpy(&bytes, at, sizeof bytes);
  return (((bytes - kOnes * 0x20) | (bytes + kOnes) | bytes) & kHigh) == 0;
}

std::string code_point_name(char32_t value) {
  std::string hex;
  for (int shift = 20; shift >= 0; shift -= 4) hex += "0123456789ABCDEF"[(value >> shift) & 0xF];
  hex.erase(0, std::min(hex.find_first_not_of('0'), hex.size() - 4));
  return "U+" + hex;
}

}  // namespace

SourceText::SourceText(std::string name, std::string raw) : name_(std::move(name)), text_(std::move(raw)) {
  const bool marked = text_.starts_with("\xEF\xBB\xBF");
  if (marked) text_.erase(0, 3);
  std::size_t first_crlf = text_.find("\r\n");
  if (first_crlf != std::string::npos) {
    std::size_t out = first_crlf;
    for (std::size_t in = first_crlf; in < text_.size(); ++in) {
      if (text_[in] == '\r' && in + 1 < text_.size() && text_[in + 1] == '\n') continue;
      text_[out++] = text_[in];
    }
    text_.resize(out);
  }
  if (!text_.empty() && text_.back() != '\n') text_ += '\n';

  line_starts_.push_back(0);
  for (std::size_t end = text_.find('\n'); end != std::string::npos; end = text_.find('\n', end + 1)) line_starts_.push_back(end + 1);
  if (marked) fault(0, "the file begins with a byte-order mark; save it as UTF-8 without one");
  if (first_crlf != std::string::npos) {
    fault(first_crlf, "the lines end in CR LF; save the file with LF line ends (told once a file)");
  }
  check_characters();
}

void SourceText::check_characters() {
  if (text_.starts_with("\xFF\xFE") || text_.starts_with("\xFE\xFF")) {
    fault(0, "the file is UTF-16; save it as UTF-8");
    text_ = "\n";
    line_starts_ = {0, 1};
    return;
  }
  bool told = false;
  for (std::size_t at = 0; at < text_.size();) {
    if (at + 8 <= text_.size() && eight_plain(text_.data() + at)) {
      at += 8;
      continue;
    }
    if (text_[at] == '\n' || (text_[at] >= 0x20 && text_[at] < 0x7F)) {
      ++at;
      continue;
    }
    const CodePoint point = code_point_at(text_, at);
    if (!point.valid) {
      if (!told) fault(at, "a byte that is not UTF-8; save the file as UTF-8 (told once a file)");
      told = true;
    } else if (is_hidden(point.value)) {
      fault(at, "the hidden character " + code_point_name(point.value) + "; delete it");
    }
    at += point.bytes;
  }
}

int SourceText::line_of(std::size_t offset) const {
  return static_cast<int>(std::upper_bound(line_starts_.begin(), line_starts_.end(), offset) - line_starts_.begin());
}

void SourceText::add(std::size_t offset, std::string message, bool warning) {
  std::size_t& told = warning ? told_warnings_ : told_faults_;
  if (++told > kMost) {
    const char* more = warning ? "more than 100 warnings" : "more than 100 faults";
    if (told == kMost + 1) faults_.push_back({name_, 0, 0, std::string(more) + " in this file; the others are not shown", "", warning});
    return;
  }
  offset = std::min(offset, text_.empty() ? 0 : text_.size() - 1);
  const int line = line_of(offset);
  const std::size_t start = line_starts_[static_cast<std::size_t>(line - 1)];
  std::size_t end = text_.find('\n', start);
  if (end == std::string::npos) end = text_.size();
  int column = 1;
  for (std::size_t at = start; at < offset; at += code_point_at(text_, at).bytes) ++column;
  const bool repeat = end - start <= kLongestLine;
  faults_.push_back({name_, line, column, std::move(message), repeat ? text_.substr(start, end - start) : "", warning});
}

}  // namespace tenwinters
