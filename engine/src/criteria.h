// The additive value model: what each criterion reads, what it is worth (0..1), and why.
#pragma once

#include <span>
#include <vector>

#include "choice.h"

namespace tenwinters {

struct CriterionRule {
  std::string_view id;
  Reads reads = 0;
  bool winters = false;  // reads the prospect of the case itself; others get that of the likeliest yard
  bool leans = false;    // reads figures that Tree::leaning moves
  double (*value)(const Tree&, const Yard&, const Prospect&) = nullptr;
  // `open`: some variable it reads is not known; then the reason states the tree, not the match.
  Reason (*reason)(const Tree&, const Yard&, const Prospect&, bool open) = nullptr;
};

// In the order of kCriteria.
std::span<const CriterionRule> criterion_rules();

// Points of 100 by criterion, from the catalogue's weights and the swing that matters most to the household: from a
// few poor crops to one nearly every year, from fruit not to its taste to just what it likes, from many nights of
// work to none. The three swings get the centroid weights of their order, the two not named sharing second and third
// (Edwards & Barron, Organizational Behavior and Human Decision Processes 60(1), 1994; memory). What a swing is made
// of, and what is in none, keeps the proportions of the catalogue; balanced keeps the catalogue's weights whole.
std::vector<double> stated_weights(const std::vector<Criterion>& criteria, Priority most);

}  // namespace tenwinters
