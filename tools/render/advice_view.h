// The engine's advice as a page shows it: three shelves, on each the kinds of citrus, best first, each
// led by its best cultivar. A kind stands on every shelf on which one of its cultivars stands.
#pragma once

#include <string>
#include <vector>

#include "render/model.h"
#include "render/voice.h"

namespace tenwinters {

struct Kind {
  std::string type;
  std::vector<const Candidate*> candidates;  // best first
};
struct ShelfKinds {
  Shelf shelf = Shelf::will_do;
  std::vector<Kind> kinds;
};
// Types hardiest first, as the trade lists them. Points into `catalog`.
[[nodiscard]] std::vector<const CitrusType*> in_trade_order(const Catalog& catalog);
// Ids of its cultivars.
[[nodiscard]] std::vector<std::string> cultivars_of(const Catalog& catalog, const CitrusType& type);

// Always three, in the order of Shelf. Points into `advice`.
[[nodiscard]] std::vector<ShelfKinds> group_by_kind(const Catalog& catalog, const Advice& advice);

// "Six kinds would do well here, four more with winter work": kinds counted once, on their best shelf.
[[nodiscard]] std::string headline(const Voice& voice, const std::vector<ShelfKinds>& shelves);

// For shelves.mustache. `up` leads from the page to its language's folder ("" or "../").
[[nodiscard]] Model view_shelves(const Voice& voice, const std::vector<ShelfKinds>& shelves, const std::string& up);

// For yard_limits.mustache: what the spot itself fails or leaves open, and the notes for the whole yard.
[[nodiscard]] Model view_spot(const Voice& voice, const Advice& advice);

// The cautions of every candidate shown on the first two shelves, gravest first, each once; with full text.
[[nodiscard]] Model view_cautions(const Voice& voice, const std::vector<std::string>& ids);
[[nodiscard]] std::vector<std::string> cautions_of(const std::vector<ShelfKinds>& shelves);

// "Owari, on Trifoliate orange" and, with a habit of protection, what it takes.
[[nodiscard]] std::string stock_line(const Voice& voice, const Candidate& candidate);
[[nodiscard]] std::string nights_text(const Voice& voice, double nights);

// What was answered, question by question: "ask" and "answer".
[[nodiscard]] Model view_answers(const Voice& voice, const Advice& advice);

}  // namespace tenwinters
