// A fault in a file, as every reader of the house reports it:
//
//   catalog/cultivars/owari.yaml:14:13: traits.thorns.is: found "sume", expected one of none, few, some, many;
//   did you mean "some"?
//     14 |   thorns: {is: sume, sources: [m_edis], basis: memory, seen: 2026-11-25}
//        |                ^
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace tenwinters {

struct Diagnostic {
  std::string file;         // as the user named it, relative where possible
  int line = 0, column = 0; // from 1; 0 = the file as a whole
  std::string message;      // what was found, what was expected, the nearest valid name
  std::string source_line;  // the line itself, for the caret; may be empty
  bool warning = false;     // warnings do not fail a check
};

// "file:line:column: message" and, when known, the source line with a caret. Control characters and
// right-to-left overrides of the source are shown as escapes, long lines are cut around the caret.
std::string to_text(const Diagnostic& diagnostic);

// By file, line, column, message; without repeats.
void sort_diagnostics(std::vector<Diagnostic>& diagnostics);

}  // namespace tenwinters
