// The words of one language, and the prose, flattened: "questions.sun.ask" -> text.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "tenwinters/advise.h"
#include "tenwinters/catalog.h"
#include "tenwinters/office.h"

namespace tenwinters {

struct Language {
  std::string code;                                         // "en"
  std::map<std::string, std::string, std::less<>> words;    // dotted key -> text
  std::map<std::string, std::string, std::less<>> prose;    // "types/satsuma" -> Markdown

  // The text under a key, or the key itself in square brackets (a test fails on any of those).
  [[nodiscard]] std::string say(std::string_view key) const;
  [[nodiscard]] bool has(std::string_view key) const;
};

// Words with their numbers in, in the reader's units: "{n} nights" with {n} from the arguments.
// A text may be split by number: keys <id>.one and <id>.other, chosen by the argument "n".
std::string say_reason(const Language& language, const Catalog& catalog, const Office& office, const Reason& reason, Units units);

// One figure in the reader's units: "24 °F", "3.7 m", "12 ft", "20 gal", "March to April".
std::string say_arg(const Language& language, const Catalog& catalog, const Office& office, const Arg& arg, Units units);

}  // namespace tenwinters
