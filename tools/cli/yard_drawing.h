// A yard's plans as text with a plan in letters, and as JSON.
#pragma once

#include <string>

#include "cli/session.h"
#include "tenwinters/plan.h"

namespace tenwinters::cli {

struct YardReport {
  const Session& session;
  const Loaded& loaded;
  const Place& place;
  const PlanProblem& problem;
  const YardPlan& yard;
  std::string lp_file;  // "" = none written
};

[[nodiscard]] std::string yard_to_text(const YardReport& report);

// {"plans": [{"value", "proven", "gap", "trees": [{"id", "rootstock", "x_m", "y_m", "crown_m", ...}],
// "months": [1..12], "partners": [[giver, taker]], "removed": [ids], "notes": [text], "cautions": [ids]}],
// "plot": {...}, "limits": [text], "notes": [text]}; keys in a fixed order, lengths to the centimetre.
[[nodiscard]] std::string yard_to_json(const YardReport& report);

}  // namespace tenwinters::cli
