// The order of the candidates alone: what a list needs, at a fraction of what advise() takes to tell its reasons.
//
//   Ranking ranking = rank_trees(catalog, office, place, answers, replay, memo);
//   ranking.trees[0].cultivar     // as advise(...).candidates[0].cultivar
//
// Pure and deterministic, like advise(), and always in its order.
#pragma once

#include <string>
#include <vector>

#include "tenwinters/advise.h"

namespace tenwinters {

struct RankedTree {
  std::string cultivar;
  Shelf shelf = Shelf::not_here;
  int points = 0;
  double good_harvests = 0;              // expected, of ten years: Prospect::good_harvests.best
};

struct Ranking {
  std::string place;
  Answers answers;                       // as understood
  std::vector<std::string> unanswered;   // question ids that still apply
  std::vector<RankedTree> trees;         // as Advice::candidates
};

// Faulty answers are left out. `replay` and `memo` as for advise().
[[nodiscard]] Ranking rank_trees(const Catalog& catalog, const Office& office, const Place& place, const Answers& answers,
                                 const Replay& replay, ReplayMemo& memo);

}  // namespace tenwinters
