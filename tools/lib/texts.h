// The words of one language, and the prose, flattened: "questions.sun.ask" -> text.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "tenwinters/advise.h"
#include "tenwinters/catalog.h"
#include "tenwinters/office.h"

namespace tenwinters {

struct Language {
  std::string code;                                         // "en"
  std::map<std::string, std::string, std::less<>> words;    // dotted key -> text
  std::map<std::string, std::string, std::less<>> prose;    // "types/satsuma" -> Markdown

  // The text under a key, or null.
  [[nodiscard]] const std::string* find(std::string_view key) const;
  [[nodiscard]] bool has(std::string_view key) const { return find(key) != nullptr; }
  // The text under a key, or the key itself in square brackets (a test fails on any of those).
  [[nodiscard]] std::string say(std::string_view key) const;
};

// While it lives it hears which words of any language its thread asks for; one within another hears in its stead.
class WordListener {
 public:
  WordListener();
  WordListener(const WordListener&) = delete;
  WordListener& operator=(const WordListener&) = delete;
  virtual void found(const Language& language, const std::string& key) = 0;
  virtual void missed(const Language& language, std::string_view key) = 0;

 protected:
  ~WordListener();

 private:
  WordListener* outer_;
};

// A text by its key, and what stands for its {marks}; a value that begins with @ is itself the key of a text.
// For parts that have something to say and no language at hand.
struct Phrase {
  std::string key;
  std::vector<std::pair<std::string, std::string>> fills;
};
[[nodiscard]] std::string say_phrase(const Language& language, const Phrase& phrase);

// The decimal text of a size, 0 <= size < 1e12, to 0..2 digits: correctly rounded, exact halves up, as by hand.
// Written out because the C++ library's own takes a hundred kilobytes of tables, which a page would have to fetch.
[[nodiscard]] std::string fixed_text(double size, int digits);

// With `digits` 0 or 1 behind the language's decimal mark.
[[nodiscard]] std::string say_number(const Language& language, double value, int digits);

// A figure with its unit, in the form that goes with the number as it is shown: "1 year", "3 years".
[[nodiscard]] std::string say_measure(const Language& language, std::string_view unit, const std::string& shown_number);

// Words with their numbers in, in the reader's units: "{n} nights" with {n} from the arguments.
// A text may be split by number: keys <id>.one and <id>.other, chosen by the argument "n".
std::string say_reason(const Language& language, const Catalog& catalog, const Office& office, const Reason& reason, Units units);

// One figure in the reader's units: "24 °F", "3.7 m", "12 ft", "20 gal", "March to April".
std::string say_arg(const Language& language, const Catalog& catalog, const Office& office, const Arg& arg, Units units);

// An address that a whole site can have: http or https, ending in "/", without query or fragment.
[[nodiscard]] bool is_site_address(std::string_view address);

}  // namespace tenwinters
