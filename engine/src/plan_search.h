// Which trees: the exact choice behind plan_yard.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "tenwinters/plan.h"

namespace tenwinters {

struct Chosen {
  int value = 0;
  std::vector<std::size_t> trees;   // indices in PlanProblem::trees, ascending
};

struct Choosing {
  std::vector<Chosen> best;         // at most three, of different types, best first
  bool proven = false;
  int gap = 0;
  std::int64_t nodes = 0;
  std::vector<Misfit> misfits;
};

[[nodiscard]] Choosing choose_trees(const PlanProblem& problem);

// How wide a crown counts when room is at stake: the next half metre.
[[nodiscard]] int counted_crown_cm(int crown_cm);

}  // namespace tenwinters
