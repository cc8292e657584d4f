// What must hold of every yard plan, over a few hundred invented yards.
#include <gtest/gtest.h>

#include <algorithm>
#include <bit>
#include <functional>

#include "../twin/plan_instances.h"
#include "plan_place.h"
#include "plan_search.h"
#include "tenwinters/plan.h"

namespace tenwinters {
namespace {

PlanProblem yard(std::uint64_t seed, bool place) {
  return twin::invented_yard(5000 + seed, 6 + static_cast<int>(seed % 9), 1 + static_cast<int>(seed % 5), place);
}

std::vector<int> values(const YardPlan& plans) {
  std::vector<int> out;
  for (const Plan& plan : plans.plans) out.push_back(plan.value);
  return out;
}
int best(const PlanProblem& problem) {
  const YardPlan plans = plan_yard(problem);
  EXPECT_TRUE(plans.proven);
  return plans.plans.empty() ? 0 : plans.plans.front().value;
}

TEST(PlanProperties, AGoodPartnerOnOfferNeverLowersTheBest) {
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    SCOPED_TRACE(seed);
    PlanProblem problem = yard(seed, seed % 2 == 0);
    const int before = best(problem);
    PlanTree partner;
    partner.id = "partner";
    partner.type = "another";
    partner.points = 40;
    partner.bloom = 0xFFF;
    partner.pollen = PollenWorth::good;
    partner.crown_cm = partner.natural_cm = partner.height_cm = 200;
    problem.trees.push_back(partner);
    EXPECT_GE(best(problem), before);
  }
}

TEST(PlanProperties, APartnerInThePlanHelpsTheTreeThatNeedsIt) {
  int helped = 0;
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    PlanProblem problem = yard(seed, false);
    for (PlanTree& tree : problem.trees) tree.seed_loss = 0;
    problem.weights.month = 0;
    const int before = best(problem);
    for (PlanTree& tree : problem.trees) {  // every tree that needs one now takes pollen of all others
      if (!tree.needs_partner) continue;
      tree.not_partners.clear();
      for (const PlanTree& other : problem.trees) tree.partners.push_back(other.id);
    }
    const int after = best(problem);
    EXPECT_GE(after, before) << seed;
    helped += after > before ? 1 : 0;
  }
  EXPECT_GT(helped, 5);
}

TEST(PlanProperties, LiftingALimitNeverCosts) {
  for (std::uint64_t seed = 1; seed <= 120; ++seed) {
    SCOPED_TRACE(seed);
    const PlanProblem problem = yard(seed, seed % 2 == 0);
    const std::vector<int> before = values(plan_yard(problem));
    std::vector<PlanProblem> lifted(5, problem);
    ++lifted[0].trees_at_most;
    lifted[1].carried_at_most = lifted[1].work_tenths_at_most = kNoLimit;
    lifted[2].place = false;
    lifted[3].plot.north_cm = lifted[3].plot.east_cm = lifted[3].plot.south_cm = lifted[3].plot.west_cm = 0;
    lifted[3].place = false;
    lifted[4].weights.tree_night = 0;
    for (const PlanProblem& more : lifted) {
      const std::vector<int> after = values(plan_yard(more));
      ASSERT_GE(after.size(), before.size());
      for (std::size_t i = 0; i < before.size(); ++i) EXPECT_GE(after[i], before[i]);
    }
  }
}

TEST(PlanProperties, NamesAndOrderDoNotMatter) {
  for (std::uint64_t seed = 1; seed <= 150; ++seed) {
    SCOPED_TRACE(seed);
    const PlanProblem problem = yard(seed, seed % 2 == 0);
    const YardPlan plans = plan_yard(problem);
    PlanProblem turned = problem;
    std::reverse(turned.trees.begin(), turned.trees.end());
    const YardPlan same = plan_yard(turned);
    EXPECT_EQ(values(same), values(plans));
    for (std::size_t i = 0; i < plans.plans.size(); ++i) {  // ties go by id, so the very same trees
      ASSERT_EQ(same.plans[i].stands.size(), plans.plans[i].stands.size());
      for (std::size_t t = 0; t < plans.plans[i].stands.size(); ++t)
        EXPECT_EQ(same.plans[i].stands[t].tree.id, plans.plans[i].stands[t].tree.id);
    }
    const auto renamed = [](std::string& id) { std::reverse(id.begin(), id.end()); };
    PlanProblem other = problem;
    for (PlanTree& tree : other.trees) {
      renamed(tree.id);
      std::for_each(tree.partners.begin(), tree.partners.end(), renamed);
      std::for_each(tree.not_partners.begin(), tree.not_partners.end(), renamed);
    }
    EXPECT_EQ(values(plan_yard(other)), values(plans));
  }
}

TEST(PlanProperties, ALimitOnTheSearchNeverOverstates) {
  int stopped = 0;
  for (std::uint64_t seed = 1; seed <= 150; ++seed) {
    SCOPED_TRACE(seed);
    PlanProblem problem = yard(seed, seed % 2 == 0);
    const int truth = best(problem);
    for (std::int64_t limit : {1, 10, 50}) {
      problem.node_limit = limit;
      const YardPlan plans = plan_yard(problem);
      const int found = plans.plans.empty() ? 0 : plans.plans.front().value;
      EXPECT_LE(found, truth);
      EXPECT_GE(found + plans.gap, truth);
      if (plans.proven) {
        EXPECT_EQ(found, truth);
      }
      stopped += plans.proven ? 0 : 1;
    }
  }
  EXPECT_GT(stopped, 100);
}

TEST(PlanProperties, EveryTreeStandsWhereItMay) {
  int tight = 0, trees = 0;
  for (std::uint64_t seed = 1; seed <= 150; ++seed) {
    SCOPED_TRACE(seed);
    const PlanProblem problem = yard(seed, true);
    const Plot& plot = problem.plot;
    for (const Plan& plan : plan_yard(problem).plans) {
      for (std::size_t i = 0; i < plan.stands.size(); ++i) {
        const PlanStand& a = plan.stands[i];
        const int radius = counted_crown_cm(a.tree.crown_cm) / 2;
        ++trees;
        if (a.tree.fixed) {
          EXPECT_EQ(a.x_cm, a.tree.x_cm);
          EXPECT_EQ(a.y_cm, a.tree.y_cm);
        } else {
          EXPECT_GE(a.x_cm - radius, plot.west_cm);
          EXPECT_LE(a.x_cm + radius, plot.width_cm - plot.east_cm);
          EXPECT_GE(a.y_cm - radius, plot.south_cm);
          EXPECT_LE(a.y_cm + radius, plot.length_cm - plot.north_cm);
        }
        for (std::size_t j = 0; j < i; ++j) {
          const PlanStand& b = plan.stands[j];
          if (a.tree.fixed && b.tree.fixed) continue;
          const std::int64_t dx = a.x_cm - b.x_cm, dy = a.y_cm - b.y_cm;
          const std::int64_t apart = radius + counted_crown_cm(b.tree.crown_cm) / 2;
          EXPECT_GE(dx * dx + dy * dy, apart * apart);
          tight += dx * dx + dy * dy < (apart + 50) * (apart + 50) ? 1 : 0;
        }
      }
    }
  }
  EXPECT_GT(tight, 50);
  EXPECT_GT(trees, 600);
}

// Which trees stand in the shade of a taller one, old trees that shade each other left out: those nobody moves.
std::uint64_t shaded_trees(const std::vector<Crown>& crowns, const std::vector<std::pair<int, int>>& places) {
  std::uint64_t shaded = 0;
  for (std::size_t i = 0; i < crowns.size(); ++i)
    for (std::size_t j = 0; j < crowns.size(); ++j)
      if (i != j && !(crowns[i].fixed && crowns[j].fixed) &&
          shaded_by(crowns[i], places[i].first, places[i].second, crowns[j], places[j].first, places[j].second, false))
        shaded |= std::uint64_t{1} << j;
  return shaded;
}

TEST(PlanProperties, ShadeIsWhereThereIsNoOtherRoom) {
  int plans = 0, shaded = 0;
  for (std::uint64_t seed = 1; seed <= 150; ++seed) {
    SCOPED_TRACE(seed);
    const PlanProblem problem = yard(seed, true);
    const Grid grid(problem.plot);
    for (const Plan& plan : plan_yard(problem).plans) {
      ++plans;
      std::vector<Crown> crowns;
      std::vector<std::pair<int, int>> places;
      for (const PlanStand& stand : plan.stands) {
        const PlanTree& tree = stand.tree;
        crowns.push_back({counted_crown_cm(tree.crown_cm) / 2, tree.height_cm, tree.fixed, tree.x_cm, tree.y_cm});
        places.emplace_back(stand.x_cm, stand.y_cm);
      }
      const int in_shade = std::popcount(shaded_trees(crowns, places));
      if (in_shade == 0) continue;
      ++shaded;
      // No arrangement at all with one tree less in the shade, whichever trees these are.
      for (std::uint64_t borne = 0; borne < std::uint64_t{1} << crowns.size(); ++borne) {
        if (std::popcount(borne) != in_shade - 1) continue;
        std::int64_t steps = 20'000'000;
        EXPECT_EQ(grid.place(crowns, Sun::not_in_shade, 0, steps, nullptr, borne), Placing::impossible) << borne;
      }
    }
  }
  EXPECT_GT(plans, 400);
  EXPECT_GT(shaded, 20) << "too few tight yards to show anything";
}

TEST(PlanPlace, TheTallerStandsFurtherNorth) {
  const Grid grid({800, 1200, 0, 0, 0, 0, false});
  const std::vector<Crown> crowns{{100, 200, false, 0, 0}, {200, 500, false, 0, 0}, {150, 300, false, 0, 0}};
  const auto places = grid.arrange(crowns);
  ASSERT_EQ(places.size(), 3u);
  EXPECT_GE(places[1].second, places[2].second);
  EXPECT_GE(places[2].second, places[0].second);
  const Grid southern({800, 1200, 0, 0, 0, 0, true});
  const auto turned = southern.arrange(crowns);
  ASSERT_EQ(turned.size(), 3u);
  EXPECT_LE(turned[1].second, turned[2].second);
  EXPECT_LE(turned[2].second, turned[0].second);
}

TEST(PlanPlace, ATallOldTreeKeepsNoOneInItsShade) {
  const Grid grid({1000, 1000, 0, 0, 0, 0, false});
  const Crown old{200, 600, true, 500, 100}, young{100, 200, false, 0, 0};
  const auto places = grid.arrange({old, young});
  ASSERT_EQ(places.size(), 2u);
  EXPECT_FALSE(shaded_by(old, places[0].first, places[0].second, young, places[1].first, places[1].second, false));
  // The shadow at noon falls to the north, one and a half heights long and as wide as the crowns.
  EXPECT_TRUE(shaded_by(old, 500, 100, young, 500, 500, false));
  EXPECT_TRUE(shaded_by(old, 500, 100, young, 500, 999, false));
  EXPECT_FALSE(shaded_by(old, 500, 100, young, 500, 1000, false));
  EXPECT_FALSE(shaded_by(old, 500, 100, young, 800, 500, false));
  EXPECT_FALSE(shaded_by(old, 500, 600, young, 500, 100, false));
  EXPECT_TRUE(shaded_by(old, 500, 600, young, 500, 100, true));
  EXPECT_FALSE(shaded_by(young, 500, 100, old, 500, 300, false));
}

// Against every arrangement there is, tried one after the other.
TEST(PlanPlace, NoArrangementHasFewerInTheShade) {
  twin::Dice dice(7);
  int some_shaded = 0;
  for (int round = 0; round < 600; ++round) {
    SCOPED_TRACE(round);
    const Plot plot{dice.roll(8, 16) * 25, dice.roll(8, 16) * 25, 0, 0, 0, 0, false};
    std::vector<Crown> crowns;
    for (int tree = dice.roll(2, 3); tree > 0; --tree) crowns.push_back({dice.roll(5, 9) * 10, dice.roll(10, 40) * 10, false, 0, 0});
    if (dice.chance(30)) crowns.push_back({60, dice.roll(10, 50) * 10, true, dice.roll(0, plot.width_cm), dice.roll(0, plot.length_cm)});
    const Grid grid(plot);
    ASSERT_EQ(grid.step_cm(), 25);
    int fewest = 99;
    std::vector<std::pair<int, int>> places(crowns.size());
    const std::function<void(std::size_t)> try_all = [&](std::size_t i) {
      if (fewest == 0) return;
      if (i == crowns.size()) {
        fewest = std::min(fewest, std::popcount(shaded_trees(crowns, places)));
        return;
      }
      const int r = crowns[i].radius_cm;
      for (int x = 0; x <= plot.width_cm; x += 25)
        for (int y = 0; y <= plot.length_cm; y += 25) {
          if (crowns[i].fixed) x = crowns[i].x_cm, y = crowns[i].y_cm;
          else if (x < r || y < r || x > plot.width_cm - r || y > plot.length_cm - r) continue;
          bool free = true;
          for (std::size_t j = 0; j < crowns.size() && free; ++j) {
            if (j >= i && !crowns[j].fixed) continue;
            const auto [ox, oy] = crowns[j].fixed ? std::pair(crowns[j].x_cm, crowns[j].y_cm) : places[j];
            const int dx = x - ox, dy = y - oy, apart = r + crowns[j].radius_cm;
            free = j == i || dx * dx + dy * dy >= apart * apart;
          }
          places[i] = {x, y};
          if (free) try_all(i + 1);
          if (crowns[i].fixed) return;
        }
    };
    try_all(0);
    const auto arranged = grid.arrange(crowns);
    ASSERT_EQ(arranged.empty(), fewest == 99);
    if (arranged.empty()) continue;
    EXPECT_EQ(std::popcount(shaded_trees(crowns, arranged)), fewest);
    some_shaded += fewest > 0 ? 1 : 0;
  }
  EXPECT_GT(some_shaded, 10);
}

TEST(PlanPlace, APlotThatSetbacksFillHoldsOnlyWhatStandsInIt) {
  const Grid grid({300, 500, 0, 200, 0, 200, false});
  const Crown old{100, 300, true, 150, 100}, other{100, 300, true, 150, 400}, young{50, 200, false, 0, 0};
  std::int64_t steps = 1000;
  EXPECT_EQ(grid.place({young}, Sun::ignored, 0, steps, nullptr), Placing::impossible);
  EXPECT_EQ(grid.place({old, young}, Sun::ignored, 0, steps, nullptr), Placing::impossible);
  std::vector<std::pair<int, int>> places;
  EXPECT_EQ(grid.place({old, other}, Sun::ignored, 0, steps, &places), Placing::found);
  EXPECT_EQ(places, (std::vector<std::pair<int, int>>{{150, 100}, {150, 400}}));
}

TEST(PlanPlace, SpaceIsShared) {
  // Two small trees in a long plot stand three metres apart, not crown to crown.
  const Grid grid({300, 1200, 0, 0, 0, 0, false});
  const auto places = grid.arrange({{100, 200, false, 0, 0}, {100, 200, false, 0, 0}});
  ASSERT_EQ(places.size(), 2u);
  EXPECT_GE(std::abs(places[0].second - places[1].second), 500);
}

}  // namespace
}  // namespace tenwinters
