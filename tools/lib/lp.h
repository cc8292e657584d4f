// The choice of a yard's trees as a linear 0/1 program, for any solver that reads the LP format.
//
//   YardPlan yard = plan_yard(problem);
//   write(file, plan_to_lp(problem, yard.misfits));   // its optimum is yard.plans[0].value, if that is proven
//
// Where each tree stands is no part of it. Instead it lists the sets of crowns which the search for the
// best plan met and for which the plot has no room; with these rows no better set is left.
#pragma once

#include <string>
#include <vector>

#include "tenwinters/plan.h"

namespace tenwinters {

[[nodiscard]] std::string plan_to_lp(const PlanProblem& problem, const std::vector<Misfit>& misfits);

}  // namespace tenwinters
