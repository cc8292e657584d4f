// What all printed sheets share: an HTML document for Letter or A4, framed by the office's block, the cautions that
// concern it, its sources, and a QR code of the page it belongs to.
//
//   PrintOffice office = read_print_office(text, file, faults);
//   templates.render(sheet.form, framed(voice, office, sheet, {.paper = "letter", .style = style, .today = today}), language);
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "lib/diagnostic.h"
#include "render/model.h"
#include "render/template.h"
#include "render/voice.h"

namespace tenwinters {

enum class Paper { letter, a4 };
template <> struct Names<Paper> {
  static constexpr std::string_view list[] = {"letter", "a4"};
};

// print_office.json: the one file in which an office changes how its paper looks and what its block says.
struct PrintOffice {
  std::string style;                                      // custom properties, to stand before print.css
  std::map<std::string, std::vector<std::string>> block;  // by language; none: the office's own contact lines
};
[[nodiscard]] PrintOffice read_print_office(std::string_view json, const std::string& file, std::vector<Diagnostic>& faults);

struct SheetHead {
  std::string stem;                    // of its file's name: "which-citrus"
  std::string title;
  std::string says;                    // one line on what it is for
};

struct Sheet {
  SheetHead head;
  std::string form;                    // its template
  std::string page;                    // what its QR code leads to, in the language's folder; may have a fragment
  std::vector<std::string> cautions;   // ids, in any order, repeats allowed
  bool cautions_in_full = false;       // the grave ones with their text, where there is room
  std::vector<std::size_t> places;     // whose records it leans on
  Model body;
};

struct SheetFrame {
  std::string paper = {};              // letter, a4, or "": whatever the browser is told to print on
  std::string style = {};              // path of the style sheet
  std::string today = {};              // ISO date; "" leaves it out, for pages that must not change from day to day
  std::string room = {};               // address of the print room, for the screen alone; "" = none
};

// The sheet's own model with what every sheet says.
[[nodiscard]] Model framed(const Voice& voice, const PrintOffice& office, const Sheet& sheet, const SheetFrame& frame);

// Address of a page of the site in the voice's language; "" if the office has none.
[[nodiscard]] std::string page_address(const Voice& voice, const std::string& page);

}  // namespace tenwinters
