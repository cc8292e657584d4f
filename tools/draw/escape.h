// Text that stands in HTML or SVG. By itself, so that the drawings can go wherever the engine goes.
#pragma once

#include <string>
#include <string_view>

namespace tenwinters {

// & < > " ' become references; the rest stays.
[[nodiscard]] std::string escape_html(std::string_view text);
// The same, behind what `out` holds.
void add_escaped(std::string& out, std::string_view text);

}  // namespace tenwinters
