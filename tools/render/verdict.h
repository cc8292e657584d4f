// How a kind or a cultivar does at a place, for an open yard in full sun on drained ground: without work, with a few
// nights of it, or only in a pot that is wheeled under cover. Sheets and signs say the same.
#pragma once

#include <string>
#include <string_view>

#include "render/voice.h"
#include "render/yards.h"

namespace tenwinters {

// The common yards (by their ids in yards.json) in which a verdict is looked for, least work first.
struct VerdictYard { std::string_view yard; bool pot; };
inline constexpr VerdictYard kVerdictYards[] = {{"no_work", false}, {"open_ground", false}, {"patio_pot", true}};

// Where it was found first; nothing: not at this place.
struct Finding {
  const Candidate* candidate = nullptr;
  const Advice* advice = nullptr;
  bool pot = false;
};

// The advice for one place and one common yard, or nullptr.
[[nodiscard]] const Advice* find_advice(const YardAdvice& yards, std::size_t place, std::string_view yard);
// The best tree of a kind on one of the two good shelves.
[[nodiscard]] Finding find_kind(const Catalog& catalog, const YardAdvice& yards, std::size_t place, std::string_view type);
// The same for one cultivar.
[[nodiscard]] Finding find_tree(const YardAdvice& yards, std::size_t place, std::string_view cultivar);

// "yes", "3 nights", "pot", "no"
[[nodiscard]] std::string verdict_text(const Voice& voice, const Finding& finding);
// "Nov–Feb", or "" if it never gets ripe.
[[nodiscard]] std::string short_months(const Voice& voice, int from, int to);

}  // namespace tenwinters
