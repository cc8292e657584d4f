// What a buyer must know of a tree beside its score, and the cautions that no score switches off.
#pragma once

#include "choice.h"

namespace tenwinters {

// What may be true of the household, over its open questions.
struct Household {
  Yard likeliest;
  bool company_known = false, container_known = false, room_known = false, soil_known = false, drainage_known = false,
       thorns_known = false;
  bool may_ground = false, may_container = false, may_heavy = false, may_pets = false;
};
Household describe(const Interview& interview);

std::vector<Reason> tree_notes(const Tree& tree, const Household& household, const Prospect& prospect);

// Caution ids, gravest first, then by id.
std::vector<std::string> tree_cautions(const Tree& tree, const Household& household);

}  // namespace tenwinters
