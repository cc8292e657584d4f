#include "draw/escape.h"

#include <cstdint>

namespace tenwinters {
namespace {

constexpr std::uint64_t bit(char c) { return std::uint64_t{1} << static_cast<unsigned char>(c); }
constexpr std::uint64_t kMarks = bit('&') | bit('<') | bit('>') | bit('"') | bit('\'');  // all of them are below 64
bool stays(char c) { return static_cast<unsigned char>(c) >= 64 || (kMarks >> static_cast<unsigned char>(c) & 1u) == 0; }

}  // namespace

void add_escaped(std::string& out, std::string_view text) {
  std::size_t plain = 0;  // where the text begins that stays as it is
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (stays(text[i])) continue;
    std::string_view instead;
    switch (text[i]) {
      case '&': instead = "&amp;"; break;
      case '<': instead = "&lt;"; break;
      case '>': instead = "&gt;"; break;
      case '"': instead = "&quot;"; break;
      default: instead = "&#39;"; break;
    }
    out.append(text.data() + plain, i - plain);
    out += instead;
    plain = i + 1;
  }
  out.append(text.data() + plain, text.size() - plain);
}

std::string escape_html(std::string_view text) {
  std::string out;
  add_escaped(out, text);
  return out;
}

}  // namespace tenwinters
