// All that could be of a yard, sampled evenly and the same way every time.
#pragma once

#include <array>
#include <vector>

#include "chooser.h"
#include "tenwinters/certainty.h"

namespace tenwinters {

struct Scenario {
  Yard yard;
  std::vector<int> chosen;               // answer by question, -1 where not asked
  std::vector<std::size_t> slots;        // the planting, by habit
  bool spot_fails = false;
  std::vector<int> of;                   // whole points by criterion, as stated
  std::vector<double> weights;           // points of 100 by criterion, stretched
  double winters = 0;                    // -1 harsher .. 1 milder than the record
  std::vector<double> stretch;           // -1..1 by criterion
};

// kScenarios of them. Takes up their plantings in the chooser.
std::vector<Scenario> make_scenarios(Chooser& chooser, const Interview& interview, std::size_t questions);

// -1..1: how kindly the evidence of one tree turns out in a scenario. Drawn apart from all else.
enum class Leaning { hardiness, figures };
double leaning_of(std::size_t scenario, std::size_t tree, Leaning what);

// The first three trees of one scenario, best first, as indices of the standings; fewer end in kNoTree.
inline constexpr int kNoTree = -1;
using BestThree = std::array<int, 3>;

struct Outcomes {
  std::vector<BestThree> asked;   // by scenario: were only the open answers known
  std::vector<BestThree> swayed;  // by scenario: with figures, winters and weights turning out as they may
};
Outcomes play_out(const Chooser& chooser, const Interview& interview, const std::vector<Standing>& trees, const std::vector<Scenario>& scenarios);

}  // namespace tenwinters
