// The choice on paper: a key of a few yes-or-no steps, fitted to the engine over a sample of yards.
//
//   PaperKey key = paper_key(catalog, office, place, replay, memo);
//   key.nodes[0]                 // the first step; a node without a question is an end
//   key.agrees_fresh             // per cent of yards it was not fitted to
//
// A step parts the answers of one question as Question::splits allows. Of all keys of at most kKeySteps steps the one
// is found that agrees with the engine on most of the sample: by dynamic programming over every set of steps taken so
// far, not step by step; each end must be reached by kKeyEnd yards of the sample. A key agrees in a yard if the tree it names first is among the engine's best three, or if both
// say that nothing is worth planting there. Ties: fewer steps, then the catalogue's order.
//
// Pure and deterministic, like advise().
#pragma once

#include <string>
#include <vector>

#include "tenwinters/advise.h"

namespace tenwinters {

inline constexpr int kKeySteps = 5;
inline constexpr int kKeyYards = 1000;   // as many to fit it, and as many others to measure it
inline constexpr int kKeyEnd = 10;       // fewer say too little

struct KeyNode {
  // A step: yes if the answer is one of these.
  std::string question;
  std::vector<std::string> answers;
  int yes = -1, no = -1;                 // indices of nodes, both larger than this one's
  // An end: up to three trees, best first; none: nothing is worth planting.
  std::vector<std::string> trees;
  int yards = 0;                         // of the sample, that come here
  double agrees = 0;                     // per cent of them
};

struct PaperKey {
  std::string place;
  std::vector<KeyNode> nodes;            // the first is where one starts; in the order of a walk, yes first
  int yards = 0;
  double agrees_fitted = 0, agrees_fresh = 0;          // per cent
  double planted_fresh = 0;              // per cent, of the fresh yards where something is worth planting
};

// `steps`: 0 to 8. Answers given are the same for all yards, and their questions are not asked. Faulty answers are left out.
[[nodiscard]] PaperKey paper_key(const Catalog& catalog, const Office& office, const Place& place, const Answers& answers,
                                 const Replay& replay, ReplayMemo& memo, int steps = kKeySteps);

}  // namespace tenwinters
