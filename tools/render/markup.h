// Text into HTML, safely.
#pragma once

#include <string>
#include <string_view>

#include "draw/escape.h"

namespace tenwinters {

// CommonMark to HTML; raw HTML and unsafe links in the source are left out. Headings start two
// levels down, since prose stands inside a page that has its own.
[[nodiscard]] std::string markdown_to_html(std::string_view text);

// For a file name or a fragment: letters, digits, '-' and '_' stay, all else becomes '-'.
[[nodiscard]] std::string slug(std::string_view text);

}  // namespace tenwinters
