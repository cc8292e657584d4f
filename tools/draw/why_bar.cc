// By itself, and short: it is the one drawing that goes into the picker's engine.
#include <algorithm>

#include "draw/draw.h"
#include "draw/number.h"

namespace tenwinters::draw {
namespace {

constexpr int kWidth = 160;

void add_row(std::string& svg, const char* css, int share, int most) {
  ((svg += "<rect class=\"") += css) += "\" x=\"1\" y=\"1\"";
  (svg += attribute("width", share * (static_cast<double>(kWidth) / std::max(1, most)))) += " height=\"12\"/>";
}

}  // namespace

std::string why_bar(int points, int of, int most) {
  std::string svg = "<svg class=\"bar\" viewBox=\"0 0 162 14\" aria-hidden=\"true\" focusable=\"false\">";
  add_row(svg, "of", of, most);
  add_row(svg, "got", std::clamp(points, 0, std::max(0, of)), most);
  return svg += "</svg>";
}

}  // namespace tenwinters::draw
