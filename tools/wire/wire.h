// Engine values as JSON, the same bytes from the terminal and from the browser.
#pragma once

#include <optional>
#include <span>
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
// What stands under "winters" of one place in the office's JSON.
[[nodiscard]] std::string winters_to_json(const Winters& winters);
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

// For whatever answers requests of a page:
inline constexpr std::size_t kLongestRequest = 1 << 16;
// How an answer shows what it did not understand, which may be anything: the beginning of it, in ASCII.
[[nodiscard]] std::string beginning_of(std::string_view found);
// Forgets what was remembered once there is so much that a page would grow without end.
void keep_small(ReplayMemo& memo);

// What a request is about, once it is understood.
struct Asked {
  const Catalog& catalog;
  const Office& office;
  const Place& place;
  const Answers& answers;
  std::string_view cultivar, against;  // where the tell names trees
  const Replay& replay;
  ReplayMemo& memo;
};

// Something a desk can tell, by its name in a request.
struct Tell {
  std::string_view name;
  int trees;  // that a request has to name: none, "cultivar", or "cultivar" and "against"
  std::string (*json)(const Asked& asked);
};

// What the picker asks for: its page downloads the code of these alone.
//   advice     advice_to_json(advise(...)); told where a request says nothing else
//   order      order_to_json(rank_trees(...))
//   certainty  certainty_to_json(how_sure(...))
[[nodiscard]] std::span<const Tell> picker_tells();
// Those, and:
//   ranking    ranking_to_json(advise(...), how_sure(...))
//   change     {"tell": "change", "cultivar": "meyer"}: least_change_to_json(least_change(...))
//   comparison {"tell": "comparison", "cultivar": "meyer", "against": "owari"}: comparison_to_json(compare(...))
[[nodiscard]] std::span<const Tell> all_tells();

// Answers requests for one office; what a browser page, or any other program, talks to.
//
//   Desk desk(catalog, office, all_tells());
//   desk.answer(R"({"tell": "order", "place": "gannet_quay", "answers": {"sun": "full"}})");
//
// A missing place is the office's first. Whatever is wrong with a request, the answer is JSON:
// {"error": "request" | "tell" | "place" | "question" | "answer" | "cultivar", "found": text, "nearest": text};
// `found` is the beginning of what was found, or its JSON kind, in ASCII.
class Desk {
 public:
  Desk(Catalog catalog, Office office, std::span<const Tell> tells);
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
  std::span<const Tell> tells_;
  std::vector<Remembered> places_;
};

}  // namespace tenwinters
