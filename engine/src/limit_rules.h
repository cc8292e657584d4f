// Hard limits: what rules a tree, or the spot itself, out, and why.
#pragma once

#include <span>

#include "choice.h"

namespace tenwinters {

struct LimitRule {
  std::string_view id;
  Reads reads = 0;
  bool winters = false;  // reads the prospect of the case
  bool by_stock = false; // another stock could pass: while the yard is not known, any that may still be chosen counts
  bool leans = false;    // reads figures that Tree::leaning moves
  bool (*passes)(const Tree&, const Yard&, const Prospect&) = nullptr;
  Reason (*reason)(const Tree&, const Yard&, const Prospect&) = nullptr;  // of a fail
};

// In the order in which they are told.
std::span<const LimitRule> limit_rules();

// The limits of the spot, whatever is planted: sun and drainage. Only those that fail or are unknown.
std::vector<Limit> yard_limits(const Interview& interview);
// The same for a yard that is known, and what they look at.
bool spot_fails(const Yard& yard);
inline constexpr Reads kSpotReads = reads({Variable::sun_hours, Variable::drainage, Variable::container_l});
// What else the spot asks for.
std::vector<Reason> yard_notes(const Interview& interview, const Place& place);

// A limit over its cases, from the share of them that pass. `why` is used only for a fail.
Limit settle(std::string_view id, double chance, bool all_pass, bool all_fail, std::string_view open_question, Reason why);

// The rule of the office that forbids this id, or nullptr.
const LocalRule* forbidding(const Office& office, std::string_view id);

// Whether ten winters leave a tree worth planting.
bool lives(const Prospect& prospect);

}  // namespace tenwinters
