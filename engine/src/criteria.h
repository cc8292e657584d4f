// The additive value model: what each criterion reads, what it is worth (0..1), and why.
#pragma once

#include <span>

#include "choice.h"

namespace tenwinters {

struct CriterionRule {
  std::string_view id;
  Reads reads = 0;
  bool winters = false;  // reads the prospect of the case itself; others get that of the likeliest yard
  double (*value)(const Tree&, const Yard&, const Prospect&) = nullptr;
  // `open`: some variable it reads is not known; then the reason states the tree, not the match.
  Reason (*reason)(const Tree&, const Yard&, const Prospect&, bool open) = nullptr;
};

// In the order of kCriteria.
std::span<const CriterionRule> criterion_rules();

// How a stated priority stretches a criterion's weight before all are brought back to 100.
double tilt(Priority priority, std::string_view criterion);

}  // namespace tenwinters
