// Engine values as JSON, the same bytes from the terminal and from the browser.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "tenwinters/advise.h"
#include "tenwinters/catalog.h"
#include "tenwinters/certainty.h"
#include "tenwinters/change.h"
#include "tenwinters/key.h"
#include "tenwinters/office.h"
#include "tenwinters/prospect.h"
#include "tenwinters/rank.h"

namespace tenwinters {

// What the browser needs to decide: catalogue without evidence, office with packed winters.
[[nodiscard]] std::string catalog_to_json(const Catalog& catalog);
[[nodiscard]] std::optional<Catalog> catalog_from_json(std::string_view text);
[[nodiscard]] std::string office_to_json(const Office& office);
[[nodiscard]] std::optional<Office> office_from_json(std::string_view text);

// The advice; keys in a fixed order, no floating-point text that could differ between builds.
[[nodiscard]] std::string advice_to_json(const Advice& advice);
[[nodiscard]] std::string order_to_json(const Ranking& ranking);
[[nodiscard]] std::string certainty_to_json(const Certainty& certainty);
// The advice with one more key, "certainty".
[[nodiscard]] std::string ranking_to_json(const Advice& advice, const Certainty& certainty);
[[nodiscard]] std::string least_change_to_json(const LeastChange& least);
[[nodiscard]] std::string comparison_to_json(const Comparison& two);
[[nodiscard]] std::string key_to_json(const PaperKey& key);

// {"question": "answer", ...}; nullopt for anything else.
[[nodiscard]] std::optional<Answers> answers_from_json(std::string_view text);

// Answers requests for one office; what a browser page, or any other program, talks to.
//
//   {"place": "gannet_quay", "answers": {"sun": "full"}}   -> advice_to_json(advise(...))
//   {"tell": "order"}                                      -> order_to_json(rank_trees(...))
//   {"tell": "certainty", "answers": {"sun": "full"}}      -> certainty_to_json(how_sure(...))
//   {"tell": "ranking"}                                    -> ranking_to_json(advise(...), how_sure(...))
//   {"tell": "change", "cultivar": "meyer"}                -> least_change_to_json(least_change(...))
//   {"tell": "comparison", "cultivar": "meyer", "against": "owari"} -> comparison_to_json(compare(...))
//
// A missing place is the office's first, what is told is the advice unless said. Whatever is wrong with a request,
// the answer is JSON: {"error": "request" | "tell" | "place" | "question" | "answer" | "cultivar", "found": text, "nearest": text};
// `found` is the beginning of what was found, or its JSON kind, in ASCII.
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
