// The yard plan against its slow twin: every set of trees, valued straight from the rules in plan.h, and
// every arrangement of crowns on the grid.
#include <gtest/gtest.h>

#include <algorithm>
#include <bit>
#include <functional>
#include <map>

#include "plan_instances.h"
#include "plan_place.h"
#include "plan_search.h"
#include "tenwinters/plan.h"

namespace tenwinters {
namespace {

int value_of(const PlanProblem& problem, const std::vector<std::size_t>& set) {
  int value = 0;
  unsigned months = 0;
  for (std::size_t i : set) {
    const PlanTree& tree = problem.trees[i];
    value += tree.points;
    if (tree.existing) value += problem.weights.stays;
    value -= (problem.weights.tree_night * tree.work_tenths + 5) / 10;
    bool partner = false, spoiled = false;
    for (std::size_t j : set) {
      if (j == i) continue;
      partner = partner || sets_fruit_of(problem.trees[j], tree);
      spoiled = spoiled || makes_seeds_in(problem.trees[j], tree);
    }
    if (!partner) value -= tree.alone_loss;
    if (spoiled) value -= tree.seed_loss;
    if (partner || !tree.needs_partner) months |= tree.ripe;
  }
  return value + problem.weights.month * std::popcount(months);
}

bool keeps_limits(const PlanProblem& problem, const std::vector<std::size_t>& set) {
  std::int64_t room = 0;
  int work = 0, carried = 0;
  std::map<std::string, int> taken;
  for (std::size_t i : set) {
    const PlanTree& tree = problem.trees[i];
    if (!tree.fixed) room += crown_room(tree.crown_cm);
    work += tree.work_tenths;
    carried += tree.carried ? 1 : 0;
    if (++taken[tree.existing ? "old " + std::to_string(tree.slot) : tree.id] > 1) return false;
  }
  return static_cast<int>(set.size()) <= problem.trees_at_most && room <= plot_room(problem.plot) &&
         (problem.work_tenths_at_most < 0 || work <= problem.work_tenths_at_most) &&
         (problem.carried_at_most < 0 || carried <= problem.carried_at_most);
}

// Tries every grid point for every crown, in the order given.
bool has_room(const PlanProblem& problem, int step, const std::vector<std::size_t>& set) {
  struct Circle { std::int64_t x, y, r; };
  std::vector<Circle> placed;
  std::vector<std::int64_t> open;
  for (std::size_t i : set) {
    const PlanTree& tree = problem.trees[i];
    const std::int64_t radius = (std::int64_t{tree.crown_cm} + 49) / 50 * 25;
    if (tree.fixed) placed.push_back({tree.x_cm, tree.y_cm, radius});
    else open.push_back(radius);
  }
  const Plot& plot = problem.plot;
  const std::function<bool(std::size_t)> place = [&](std::size_t at) {
    if (at == open.size()) return true;
    const std::int64_t r = open[at];
    for (std::int64_t y = plot.south_cm; y <= plot.length_cm; y += step)
      for (std::int64_t x = plot.west_cm; x <= plot.width_cm; x += step) {
        if (x - r < plot.west_cm || x + r > plot.width_cm - plot.east_cm || y - r < plot.south_cm || y + r > plot.length_cm - plot.north_cm)
          continue;
        const bool clear = std::all_of(placed.begin(), placed.end(), [&](const Circle& c) {
          return (c.x - x) * (c.x - x) + (c.y - y) * (c.y - y) >= (c.r + r) * (c.r + r);
        });
        if (!clear) continue;
        placed.push_back({x, y, r});
        const bool found = place(at + 1);
        placed.pop_back();
        if (found) return true;
      }
    return false;
  };
  return place(0);
}

// Values of the best plans, each the best of its types.
std::vector<int> brute_force(const PlanProblem& problem) {
  std::map<std::vector<std::string>, int> best;
  const int step = Grid(problem.plot).step_cm();
  const std::size_t n = problem.trees.size();
  std::vector<std::pair<int, std::vector<std::size_t>>> sets;
  for (std::uint32_t mask = 1; mask < (1U << n); ++mask) {
    if (std::popcount(mask) > problem.trees_at_most) continue;
    std::vector<std::size_t> set;
    for (std::size_t i = 0; i < n; ++i)
      if ((mask >> i & 1) != 0) set.push_back(i);
    if (!keeps_limits(problem, set)) continue;
    if (const int value = value_of(problem, set); value > 0) sets.emplace_back(value, std::move(set));
  }
  std::stable_sort(sets.begin(), sets.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
  std::vector<int> values;
  for (const auto& [value, set] : sets) {
    std::vector<std::string> types;
    for (std::size_t i : set) types.push_back(problem.trees[i].type);
    std::sort(types.begin(), types.end());
    if (best.count(types) > 0) continue;
    if (problem.place && !has_room(problem, step, set)) continue;
    best[types] = value;
    values.push_back(value);
    if (values.size() == 3) break;
  }
  return values;
}

std::vector<int> values(const YardPlan& yard) {
  std::vector<int> out;
  for (const Plan& plan : yard.plans) out.push_back(plan.value);
  return out;
}

TEST(PlanBrute, FiveHundredSmallYards) {
  int with_misfits = 0, empty = 0;
  for (std::uint64_t seed = 1; seed <= 500; ++seed) {
    SCOPED_TRACE(seed);
    PlanProblem problem = twin::invented_yard(seed, 5, 1 + static_cast<int>(seed % 5), seed % 2 == 0);
    problem.trees.resize(std::min<std::size_t>(problem.trees.size(), 13));
    if (problem.place) {  // a plot small enough to try every arrangement
      problem.plot.width_cm = std::min(problem.plot.width_cm, 500);
      problem.plot.length_cm = std::min(problem.plot.length_cm, 520);
      problem.trees_at_most = std::min(problem.trees_at_most, seed % 10 == 0 ? 4 : 3);
    }
    const YardPlan yard = plan_yard(problem);
    ASSERT_TRUE(yard.proven);
    EXPECT_EQ(yard.gap, 0);
    EXPECT_EQ(values(yard), brute_force(problem));
    with_misfits += yard.misfits.empty() ? 0 : 1;
    empty += yard.plans.empty() ? 1 : 0;
  }
  EXPECT_GT(with_misfits, 50) << "too few of these yards are short of room to prove anything about it";
  EXPECT_LT(empty, 100);
}

}  // namespace
}  // namespace tenwinters
