// Sheets for paper, as HTML that prints by hand, or by a browser to PDF.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "render/assets.h"
#include "render/sheets.h"
#include "render/site.h"

namespace tenwinters {

enum class SheetKind { county, night, planting, key, types, yard };
template <> struct Names<SheetKind> {
  static constexpr std::string_view list[] = {"county", "night", "planting", "key", "types", "yard"};
};

struct HandoutOrder {
  std::vector<Paper> papers;
  std::string today;                    // ISO date, printed on each sheet
  std::string language;                 // "" = every one of the office
  std::set<SheetKind> kinds;
  std::vector<std::string> types;       // ids, for SheetKind::types; empty = all
  std::vector<std::string> places;      // ids; empty = all
  std::vector<Household> households;    // for SheetKind::yard
  bool together = false;                // all households' sheets in one document
};

// One HTML file a sheet, language and paper: STEM-LANGUAGE-PAPER.html, style and fonts beside it in assets/.
[[nodiscard]] Rendered render_handouts(const SiteInput& input, const HandoutOrder& order);

// A style sheet for print with the office's colours and fonts before it. Adds it and its fonts to `assets`, with
// their licence, and returns its path.
[[nodiscard]] std::string add_print_style(const SiteInput& input, const PrintOffice& office, const std::string& name, Assets& assets,
                                          std::vector<Diagnostic>& faults);

// print_office.json of the templates; faults if it is missing or wrong.
[[nodiscard]] PrintOffice find_print_office(const SiteInput& input, std::vector<Diagnostic>& faults);

// Sheets of at most so many places side by side.
[[nodiscard]] std::vector<std::vector<std::size_t>> county_groups(const Office& office);

}  // namespace tenwinters
