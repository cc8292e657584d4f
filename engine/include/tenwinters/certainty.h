// How sure the choice is, what it hangs on, and what is worth asking next.
//
//   Certainty sure = how_sure(catalog, office, place, answers, replay, memo);
//   sure.trees[0].first            // per cent of all that could be in which the leading tree is first
//   sure.next_question             // "" once the best three are settled
//
// All that could be is sampled by a fixed rank-1 lattice (the same for every yard, so that two yards differ
// only by what is known of them): open answers by their priors; the record of winters, somewhere between a
// harsher and a milder one; the figures of each tree, low to high; the weights, each up to half again or two
// thirds of what was stated. Chances of being first and among the best are the acceptability of Lahdelma &
// Salminen (Operations Research 49(3), 2001). A tree keeps the stock and the care it was judged with.
//
// Pure and deterministic, like advise().
#pragma once

#include <string>
#include <vector>

#include "tenwinters/advise.h"

namespace tenwinters {

inline constexpr int kScenarios = 251;
// The best three count as settled when the open answers would change them with less than this chance, per cent.
inline constexpr double kSettledPercent = 5;

struct TreeCertainty {
  std::string cultivar;
  double first = 0;       // per cent of the scenarios in which it is the first choice
  double best_three = 0;  // per cent in which it is among the best three
};

// Something not known for certain.
enum class DriverKind { question, winters, hardiness, figures, weight };
template <> struct Names<DriverKind> {
  static constexpr std::string_view list[] = {"question", "winters", "hardiness", "figures", "weight"};
};
struct Driver {
  DriverKind kind = DriverKind::question;
  std::string id;         // question; cultivar (hardiness: cold of its tissues; figures: size and seeds); criterion; "" for winters
  double bits = 0;        // what knowing it would tell about whether the leading tree stays first
};

struct QuestionWorth {
  std::string question;
  double bits = 0;        // expected information about which trees are the best three, summed over trees
};

struct Certainty {
  std::vector<TreeCertainty> trees;      // best_three > 0, in the order of Advice::candidates
  double none = 0;                       // per cent in which no tree is worth planting
  std::vector<Driver> drivers;           // most bits first; only those that tell something
  std::vector<QuestionWorth> questions;  // open ones that can be put now and bear on the choice, most bits first
  double change = 0;                     // per cent: chance that the open answers would change the best three
  std::string next_question;             // the one to ask; "" if settled or nothing bears on the choice
};

// Faulty answers are left out, as by advise(). `replay` and `memo` as for advise().
[[nodiscard]] Certainty how_sure(const Catalog& catalog, const Office& office, const Place& place, const Answers& answers,
                                 const Replay& replay, ReplayMemo& memo);

}  // namespace tenwinters
