#include "draw/escape.h"

namespace tenwinters {

void add_escaped(std::string& out, std::string_view text) {
  std::size_t plain = 0;  // where the text begins that stays as it is
  for (std::size_t i = 0; i < text.size(); ++i) {
    std::string_view instead;
    switch (text[i]) {
      case '&': instead = "&amp;"; break;
      case '<': instead = "&lt;"; break;
      case '>': instead = "&gt;"; break;
      case '"': instead = "&quot;"; break;
      case '\'': instead = "&#39;"; break;
      default: continue;
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
