#include "lib/utf8.h"

#include <array>

namespace tenwinters {
namespace {

constexpr std::string_view kHex = "0123456789ABCDEF";

void append_hex(std::string& out, unsigned value, int digits) {
  for (int shift = (digits - 1) * 4; shift >= 0; shift -= 4) out += kHex[(value >> shift) & 0xFU];
}

}  // namespace

CodePoint code_point_at(std::string_view text, std::size_t at) {
  if (at >= text.size()) return {};
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned first = byte(at);
  if (first < 0x80) return {first, 1, true};
  const std::size_t length = first >= 0xF0 && first <= 0xF4   ? 4
                             : first >= 0xE0 && first <= 0xEF ? 3
                             : first >= 0xC2 && first <= 0xDF ? 2
                                                              : 0;
  const CodePoint bad{first, 1, false};
  if (length == 0 || at + length > text.size()) return bad;
  char32_t value = first & (0xFFU >> (length + 1));
  for (std::size_t i = 1; i < length; ++i) {
    const unsigned next = byte(at + i);
    if ((next & 0xC0U) != 0x80U) return bad;
    value = (value << 6U) | (next & 0x3FU);
  }
  constexpr std::array<char32_t, 5> kLeast = {0, 0, 0x80, 0x800, 0x10000};  // shorter forms must be used below these
  if (value < kLeast[length] || value > 0x10FFFF || (value >= 0xD800 && value <= 0xDFFF)) return bad;
  return {value, length, true};
}

void append_utf8(std::string& text, char32_t code_point) {
  const auto put = [&](char32_t byte) { text += static_cast<char>(static_cast<unsigned char>(byte)); };
  if (code_point < 0x80) {
    put(code_point);
  } else if (code_point < 0x800) {
    put(0xC0 | (code_point >> 6));
    put(0x80 | (code_point & 0x3F));
  } else if (code_point < 0x10000) {
    put(0xE0 | (code_point >> 12));
    put(0x80 | ((code_point >> 6) & 0x3F));
    put(0x80 | (code_point & 0x3F));
  } else {
    put(0xF0 | (code_point >> 18));
    put(0x80 | ((code_point >> 12) & 0x3F));
    put(0x80 | ((code_point >> 6) & 0x3F));
    put(0x80 | (code_point & 0x3F));
  }
}

bool is_hidden(char32_t c) {
  if (c < 0x20) return c != '\t' && c != '\n';
  if (c < 0x7F) return false;
  return c <= 0x9F || c == 0xAD || c == 0x061C || (c >= 0x200B && c <= 0x200F) || (c >= 0x2028 && c <= 0x202E) ||
         (c >= 0x2060 && c <= 0x206F) || c == 0xFEFF || (c >= 0xFFF0 && c <= 0xFFFB) || (c & 0xFFFE) == 0xFFFE;
}

int columns_of(char32_t c) {
  if (c < 0x300) return 1;
  if (c <= 0x36F || (c >= 0x1AB0 && c <= 0x1AFF) || (c >= 0x20D0 && c <= 0x20FF) || (c >= 0xFE00 && c <= 0xFE0F))
    return 0;
  const bool wide = (c >= 0x1100 && c <= 0x115F) || (c >= 0x2E80 && c <= 0xA4CF) || (c >= 0xAC00 && c <= 0xD7A3) ||
                    (c >= 0xF900 && c <= 0xFAFF) || (c >= 0xFE30 && c <= 0xFE6F) || (c >= 0xFF00 && c <= 0xFF60) ||
                    (c >= 0x1F300 && c <= 0x1FAFF) || (c >= 0x20000 && c <= 0x3FFFD);
  return wide ? 2 : 1;
}

std::string shown(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const CodePoint point = code_point_at(text, at);
    if (!point.valid || (is_hidden(point.value) && point.value < 0x100)) {
      out += "\\x";
      append_hex(out, static_cast<unsigned>(point.value), 2);
    } else if (is_hidden(point.value)) {
      out += point.value > 0xFFFF ? "\\U" : "\\u";
      append_hex(out, static_cast<unsigned>(point.value), point.value > 0xFFFF ? 8 : 4);
    } else if (point.value == '\t') {
      out += "\\t";
    } else if (point.value == '\n') {
      out += "\\n";
    } else {
      out.append(text, at, point.bytes);
    }
    at += point.bytes;
  }
  return out;
}

}  // namespace tenwinters
