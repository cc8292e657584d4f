#include "scenarios.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <iterator>

namespace tenwinters {
namespace {

// A rank-1 lattice of 251 points: coordinate j of point k is the fraction of k * z[j] / 251. Each coordinate
// alone takes 251 evenly spaced values. Chosen component by component for the least worst-case error with
// product weights, leaving out every z that with an earlier one has a small whole relation, so that no two
// coordinates move together. The method is Sloan & Reztsov's (Mathematics of Computation 71, 2002; memory).
constexpr std::uint32_t kVector[] = {113, 45, 84, 101, 40, 60, 119, 2,  36, 109, 112, 87, 118, 95, 68,
                                     57,  86, 117, 65, 35, 94, 53,  22, 5,  16,  24,  37, 38,  73};

std::uint64_t mixed(std::uint64_t x) {
  x ^= x >> 30;
  x *= 0xbf58476d1ce4e5b9u;
  x ^= x >> 27;
  x *= 0x94d049bb133111ebu;
  return x ^ (x >> 31);
}

// [0, 1) from a number, as if drawn.
double unit(std::uint64_t number) { return static_cast<double>(mixed(number) >> 11) / 9007199254740992.0; }

double coordinate(std::size_t scenario, std::size_t axis) {
  constexpr auto kCount = static_cast<std::uint32_t>(kScenarios);
  if (axis >= std::size(kVector)) return unit(0x9e3779b97f4a7c15u * (axis + 1) + scenario);
  return (static_cast<std::uint32_t>(scenario) * kVector[axis] % kCount + 0.5) / kCount;
}

// Weights stated in words are good to about half again; our judgement.
double stretched(double by) { return by < 0 ? 1 / (1 - by / 2) : 1 + by / 2; }

constexpr bool kMilderIsMore[] = {true, true, false, false};

// How far the figures of a tree's ten years may go, down and up.
struct Reach {
  struct Way {
    double down = 0, up = 0;
  };
  std::array<Way, 4> record, evidence;
};

Reach reach_of(const ProspectParts& parts) {
  Reach reach;
  for (std::size_t q = 0; q < std::size(kTenYearFigures); ++q) {
    const Interval& record = parts.record.*kTenYearFigures[q];
    reach.record[q] = {record.best - record.low, record.high - record.best};
    const double worse = (parts.worse.*kTenYearFigures[q]).best, kinder = (parts.kinder.*kTenYearFigures[q]).best;
    reach.evidence[q] = {std::max(0.0, record.best - std::min(worse, kinder)), std::max(0.0, std::max(worse, kinder) - record.best)};
  }
  return reach;
}

Prospect swayed(const Prospect& prospect, const Reach& reach, double winters, double hardiness) {
  Prospect out = prospect;
  for (std::size_t q = 0; q < std::size(kTenYearFigures); ++q) {
    const auto moved = [&](const Reach::Way& way, double toward) {
      const double by = kMilderIsMore[q] ? toward : -toward;
      return by * (by < 0 ? way.down : way.up);
    };
    double& best = (out.*kTenYearFigures[q]).best;
    best = std::clamp(best + moved(reach.record[q], winters) + moved(reach.evidence[q], hardiness), 0.0, kMostOfFigure[q]);
  }
  return out;
}

struct Offer {
  Shelf shelf = Shelf::not_here;
  double points = 0;
  int tree = kNoTree;
};

// The best three so far, best first.
class Podium {
 public:
  explicit Podium(const std::vector<Standing>& trees) : trees_(&trees) {}
  void offer(Offer one) {
    if (one.shelf == Shelf::not_here) return;
    for (Offer& place : places_) {
      if (place.tree != kNoTree && !before(one, place)) continue;
      std::swap(one, place);
      if (one.tree == kNoTree) return;
    }
  }
  [[nodiscard]] BestThree trees() const { return {places_[0].tree, places_[1].tree, places_[2].tree}; }

 private:
  [[nodiscard]] bool before(const Offer& a, const Offer& b) const {
    if (a.shelf != b.shelf) return a.shelf < b.shelf;
    if (a.points != b.points) return a.points > b.points;
    return id(a) < id(b);
  }
  [[nodiscard]] const std::string& id(const Offer& one) const { return (*trees_)[static_cast<std::size_t>(one.tree)].tree.cultivar->id; }

  const std::vector<Standing>* trees_;
  std::array<Offer, 3> places_;
};

// What one rule says of one tree, remembered for all scenarios that are alike in what the rule reads.
class Said {
 public:
  Said(const std::vector<Scenario>& scenarios, const Interview& interview, Reads reads) : group_(scenarios.size(), 0) {
    for (std::size_t q = 0; q < scenarios.front().chosen.size(); ++q) {
      if ((interview.sets(q) & reads) == 0) continue;
      std::vector<std::size_t> met;  // pairs of group so far and answer, as one number
      for (std::size_t s = 0; s < scenarios.size(); ++s) {
        const std::size_t here = static_cast<std::size_t>(scenarios[s].chosen[q] + 1) * scenarios.size() + group_[s];
        group_[s] = static_cast<std::size_t>(std::find(met.begin(), met.end(), here) - met.begin());
        if (group_[s] == met.size()) met.push_back(here);
      }
    }
  }

  void forget() { said_.assign(group_.size(), kUnsaid); }
  // In 0..1; `say` is asked only once of scenarios that are alike.
  template <class Say>
  double of(std::size_t scenario, const Say& say) {
    double& said = said_[group_[scenario]];
    if (said == kUnsaid) said = say();
    return said;
  }

 private:
  static constexpr double kUnsaid = -1;
  std::vector<std::size_t> group_;  // by scenario
  std::vector<double> said_;        // by group
};

// Whether winters, hardiness or figures that turn out otherwise may change what a rule says.
template <class Rule>
bool swayable(const Rule& rule) {
  return rule.winters || rule.leans;
}

template <class Plan>
std::vector<Said> said_by(const std::vector<Plan>& plans, const std::vector<Scenario>& scenarios, const Interview& interview) {
  std::vector<Said> out;
  for (const Plan& plan : plans) out.emplace_back(scenarios, interview, plan.rule->reads);
  return out;
}

}  // namespace

double leaning_of(std::size_t scenario, std::size_t tree, Leaning what) {
  return 2 * unit((static_cast<std::uint64_t>(tree) * 2 + static_cast<std::uint64_t>(what) + 1) * 0x9e3779b97f4a7c15u + scenario) - 1;
}

std::vector<Scenario> make_scenarios(Chooser& chooser, const Interview& interview, std::size_t questions) {
  std::vector<std::vector<double>> by_priority;
  std::vector<std::vector<int>> whole;
  for (std::size_t p = 0; p < names_of<Priority>().size(); ++p) {
    by_priority.push_back(chooser.weights(static_cast<Priority>(p)));
    whole.push_back(round_to_total(by_priority.back(), 100));
  }
  const std::size_t criteria = chooser.criteria().size();
  std::vector<Scenario> out(static_cast<std::size_t>(kScenarios));
  std::vector<double> at(questions);
  for (std::size_t s = 0; s < out.size(); ++s) {
    Scenario& scenario = out[s];
    std::size_t axis = 0;
    scenario.winters = 2 * coordinate(s, axis++) - 1;
    for (std::size_t c = 0; c < criteria; ++c) scenario.stretch.push_back(2 * coordinate(s, axis++) - 1);
    for (double& x : at) x = coordinate(s, axis++);
    scenario.yard = interview.drawn(at, scenario.chosen);
    scenario.slots = chooser.slots(scenario.yard);
    scenario.spot_fails = spot_fails(scenario.yard);

    const auto priority = static_cast<std::size_t>(scenario.yard.priority);
    scenario.of = whole[priority];
    scenario.weights = by_priority[priority];
    double sum = 0;
    for (std::size_t c = 0; c < criteria; ++c) sum += scenario.weights[c] *= stretched(scenario.stretch[c]);
    for (double& weight : scenario.weights) weight = weight * 100 / sum;
  }
  return out;
}

Outcomes play_out(const Chooser& chooser, const Interview& interview, const std::vector<Standing>& trees,
                  const std::vector<Scenario>& scenarios) {
  const std::vector<CriterionPlan>& criteria = chooser.criteria();
  const std::vector<LimitPlan>& limits = chooser.limits();
  std::vector<Said> values = said_by(criteria, scenarios, interview), verdicts = said_by(limits, scenarios, interview);
  std::vector<Podium> asked(scenarios.size(), Podium(trees)), swaying(scenarios.size(), Podium(trees));
  for (std::size_t t = 0; t < trees.size(); ++t) {
    const Tree& tree = trees[t].tree;
    const std::size_t habit = trees[t].habit;
    const Stocks& stocks = trees[t].stocks;
    for (Said& one : values) one.forget();
    for (Said& one : verdicts) one.forget();
    Tree leant = tree;
    Chooser::Prospects prospects(chooser, tree);
    const Reach reach = reach_of(chooser.parts(tree, habit));
    for (std::size_t s = 0; s < scenarios.size(); ++s) {
      const Scenario& scenario = scenarios[s];
      if (scenario.spot_fails) continue;
      const std::size_t slot = scenario.slots[habit];
      const Prospect& plain = prospects.at(slot);
      bool stands = true, sways = true;
      for (std::size_t l = 0; l < limits.size() && (stands || sways); ++l) {
        const bool good = verdicts[l].of(s, [&] { return passes(limits[l], tree, stocks, scenario.yard, plain) ? 1.0 : 0.0; }) > 0;
        stands = stands && good;
        sways = sways && (good || swayable(*limits[l].rule));
      }
      if (!sways) continue;  // nor does it stand
      const Prospect sway = swayed(plain, reach, scenario.winters, leaning_of(s, t, Leaning::hardiness));
      leant.leaning = leaning_of(s, t, Leaning::figures);
      for (std::size_t l = 0; l < limits.size() && sways; ++l)
        sways = !swayable(*limits[l].rule) || passes(limits[l], leant, stocks, scenario.yard, sway);
      if (!stands && !sways) continue;
      double as_told = 0, as_may_be = 0;
      for (std::size_t c = 0; c < criteria.size(); ++c) {
        const CriterionRule& rule = *criteria[c].rule;
        const auto value = [&](const Tree& which, const Prospect& seen) { return std::clamp(rule.value(which, scenario.yard, seen), 0.0, 1.0); };
        const auto told = [&] { return values[c].of(s, [&] { return value(tree, plain); }); };
        if (stands) as_told += scenario.of[c] * told();
        if (sways) as_may_be += scenario.weights[c] * (swayable(rule) ? value(leant, sway) : told());
      }
      const int index = static_cast<int>(t);
      if (stands) asked[s].offer({chooser.shelf(slot, prospects, plain.work_nights.best), std::floor(as_told + 0.5), index});
      if (sways) swaying[s].offer({chooser.shelf(slot, prospects, sway.work_nights.best), as_may_be, index});
    }
  }
  Outcomes out;
  for (const Podium& podium : asked) out.asked.push_back(podium.trees());
  for (const Podium& podium : swaying) out.swayed.push_back(podium.trees());
  return out;
}

}  // namespace tenwinters
