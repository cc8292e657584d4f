// Engine values as JSON, the same bytes from the terminal and from the browser.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "tenwinters/advise.h"
#include "tenwinters/catalog.h"
#include "tenwinters/office.h"
#include "tenwinters/prospect.h"

namespace tenwinters {

// What the browser needs to decide: catalogue without evidence, office with packed winters.
[[nodiscard]] std::string catalog_to_json(const Catalog& catalog);
[[nodiscard]] std::optional<Catalog> catalog_from_json(std::string_view text);
[[nodiscard]] std::string office_to_json(const Office& office);
[[nodiscard]] std::optional<Office> office_from_json(std::string_view text);

// The advice; keys in a fixed order, no floating-point text that could differ between builds.
[[nodiscard]] std::string advice_to_json(const Advice& advice);

// {"question": "answer", ...}; nullopt for anything else.
[[nodiscard]] std::optional<Answers> answers_from_json(std::string_view text);

// Answers requests for one office; what a browser page, or any other program, talks to.
//
//   {"place": "gannet_quay", "answers": {"sun": "full"}}   -> advice_to_json(advise(...))
//
// A missing place is the office's first. Whatever is wrong with a request, the answer is JSON:
// {"error": "request" | "place" | "question" | "answer", "found": text, "nearest": text}; `found` is the
// beginning of what was found, or its JSON kind, in ASCII.
class Desk {
 public:
  Desk(Catalog catalog, Office office);
  [[nodiscard]] std::string answer(std::string_view request);
  [[nodiscard]] const Catalog& catalog() const { return catalog_; }
  [[nodiscard]] const Office& office() const { return office_; }

 private:
  struct Remembered {
    std::optional<Replay> replay;  // made when first asked for
    ReplayMemo memo;
  };
  Catalog catalog_;
  Office office_;
  std::vector<Remembered> places_;
};

}  // namespace tenwinters
