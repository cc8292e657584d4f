// Sheets for paper: print HTML that a browser prints, or that the command line turns into PDF.
#pragma once

#include <string>
#include <vector>

#include "render/site.h"

namespace tenwinters {

enum class Paper { letter, a4 };
template <> struct Names<Paper> {
  static constexpr std::string_view list[] = {"letter", "a4"};
};

// The county's "which citrus for me" sheet: for each language of the office and each paper one HTML file,
// which-citrus-LANGUAGE-PAPER.html, with style and fonts beside it. An office of more than three places
// gets a sheet for each place. `today` is the ISO date printed on it. At most two pages each.
[[nodiscard]] Rendered render_handouts(const SiteInput& input, const std::vector<Paper>& papers, const std::string& today);

}  // namespace tenwinters
