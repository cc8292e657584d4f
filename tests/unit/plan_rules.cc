// What a yard plan weighs, one rule at a time, on trees made up for it.
#include <gtest/gtest.h>

#include <algorithm>

#include "plan_search.h"
#include "tenwinters/plan.h"

namespace tenwinters {
namespace {

PlanTree tree(const std::string& id, const std::string& type, int points) {
  PlanTree one;
  one.id = id;
  one.type = type;
  one.points = points;
  one.bloom = months_of(3, 4);
  one.crown_cm = one.natural_cm = 300;
  one.height_cm = 300;
  return one;
}

PlanTree tangelo(const std::string& id) {
  PlanTree one = tree(id, "tangelo", 80);
  one.needs_partner = true;
  one.alone_loss = 60;
  one.pollen = PollenWorth::good;
  return one;
}

PlanProblem yard(std::vector<PlanTree> trees, int most) {
  PlanProblem problem;
  problem.trees = std::move(trees);
  problem.trees_at_most = most;
  problem.plot.width_cm = problem.plot.length_cm = 1000;
  return problem;
}

bool notes(const Plan& plan, const std::string& reason, const std::string& about) {
  return std::any_of(plan.notes.begin(), plan.notes.end(),
                     [&](const Reason& note) { return note.id == reason && note.args.at(0).id == about; });
}

std::vector<std::string> ids(const Plan& plan) {
  std::vector<std::string> out;
  for (const PlanStand& stand : plan.stands) out.push_back(stand.tree.id);
  return out;
}

TEST(PlanRules, Months) {
  EXPECT_EQ(months_of(1, 1), 1u);
  EXPECT_EQ(months_of(11, 1), 0b110000000001u);
  EXPECT_EQ(months_of(1, 12), 0xFFFu);
  EXPECT_EQ(months_of(0, 3), 0u);
  EXPECT_EQ(months_of(3, 13), 0u);
}

TEST(PlanRules, RoomIsNeverOverstated) {
  for (int crown : {1, 50, 135, 300, 610, 1200}) {
    const double exact = 3.14159265358979 / 4 * crown * crown / 100;
    EXPECT_LE(static_cast<double>(crown_room(crown)), exact);
    EXPECT_GT(static_cast<double>(crown_room(crown)), exact * 0.9999 - 1);
  }
  EXPECT_EQ(plot_room({1000, 500, 90, 0, 0, 0, false}), 1000 * 410 / 100);
  EXPECT_EQ(plot_room({300, 500, 0, 200, 0, 200, false}), 0);
}

// Common practice, no source: a tangelo alone is told that it needs a second kind.
TEST(PlanRules, TangeloAloneNeedsASecondKind) {
  const YardPlan plans = plan_yard(yard({tangelo("orlando")}, 1));
  ASSERT_EQ(plans.plans.size(), 1u);
  EXPECT_EQ(plans.plans[0].value, 20);
  EXPECT_TRUE(notes(plans.plans[0], "plan_partner_missing", "orlando"));
  EXPECT_FALSE(plans.plans[0].stands[0].has_partner);
}

// Common practice, no source: two trees of one self-incompatible cultivar do not count as partners.
TEST(PlanRules, TwoOfOneCultivarAreNoPartners) {
  PlanProblem problem = yard({tangelo("orlando"), tangelo("orlando")}, 2);
  for (int i : {0, 1}) {
    problem.trees[static_cast<std::size_t>(i)].existing = true;
    problem.trees[static_cast<std::size_t>(i)].slot = i;
  }
  const Plan plan = plan_yard(problem).plans.at(0);
  EXPECT_EQ(ids(plan), (std::vector<std::string>{"orlando", "orlando"}));
  EXPECT_EQ(plan.value, 2 * (20 + 10));
  EXPECT_TRUE(plan.partners.empty());
  EXPECT_TRUE(notes(plan, "plan_partner_missing", "orlando"));
}

// Common practice, no source: Orlando and Minneola share their incompatibility; Temple serves both.
TEST(PlanRules, SistersThatShareIncompatibilityDoNotServe) {
  PlanTree orlando = tangelo("orlando"), minneola = tangelo("minneola"), temple = tree("temple", "tangor", 50);
  orlando.not_partners = {"minneola"};
  orlando.partners = minneola.partners = {"temple"};
  temple.pollen = PollenWorth::good;
  EXPECT_EQ(plan_yard(yard({orlando, minneola}, 2)).plans.at(0).value, 40);
  const Plan plan = plan_yard(yard({orlando, minneola, temple}, 2)).plans.at(0);
  EXPECT_EQ(plan.value, 130);
  EXPECT_EQ(plan.partners, (std::vector<std::pair<std::string, std::string>>{{"temple", ids(plan)[0]}}));
  EXPECT_EQ(plan_yard(yard({orlando, minneola, temple}, 3)).plans.at(0).value, 210);
}

TEST(PlanRules, PartnersMustBloomTogetherAndGivePollen) {
  const PlanTree taker = tangelo("orlando");
  PlanTree giver = tree("dancy", "tangerine", 50);
  EXPECT_FALSE(sets_fruit_of(giver, taker)) << "gives no pollen";
  giver.pollen = PollenWorth::weak;
  EXPECT_FALSE(sets_fruit_of(giver, taker)) << "weak pollen of a partner nobody vouches for";
  giver.pollen = PollenWorth::good;
  EXPECT_TRUE(sets_fruit_of(giver, taker));
  giver.bloom = months_of(5, 6);
  EXPECT_FALSE(sets_fruit_of(giver, taker)) << "blooms later";
  giver.bloom = months_of(4, 6);
  EXPECT_TRUE(sets_fruit_of(giver, taker));
  giver.type = "tangelo";
  EXPECT_FALSE(sets_fruit_of(giver, taker)) << "a sister of the same type that nobody vouches for";
  EXPECT_TRUE(makes_seeds_in(giver, taker));

  PlanTree vouched = taker;
  vouched.partners = {"dancy"};
  giver.pollen = PollenWorth::weak;
  EXPECT_TRUE(sets_fruit_of(giver, vouched));
  giver.pollen = PollenWorth::none;
  EXPECT_FALSE(sets_fruit_of(giver, vouched));
  EXPECT_FALSE(makes_seeds_in(giver, vouched));
  giver.pollen = PollenWorth::good;
  giver.not_partners = {"orlando"};
  EXPECT_FALSE(sets_fruit_of(giver, vouched)) << "incompatibility goes both ways";
}

TEST(PlanRules, SeedlessFruitIsKeptFromPollen) {
  PlanTree clementine = tree("clementine", "mandarin", 80), seedy = tree("temple", "tangor", 70), mild = tree("navel", "sweet_orange", 60);
  clementine.seed_loss = 30;
  seedy.pollen = PollenWorth::good;
  const YardPlan plans = plan_yard(yard({clementine, seedy, mild}, 2));
  EXPECT_EQ(plans.plans.at(0).value, 140);  // the seedless one and the one without pollen
  EXPECT_EQ(plans.plans.at(1).value, 130);  // seedy and mild, before 80 + 70 - 30
  const Plan forced = plan_yard(yard({clementine, seedy}, 2)).plans.at(0);
  EXPECT_EQ(forced.value, 120);
  EXPECT_TRUE(notes(forced, "plan_seedy", "clementine"));
}

TEST(PlanRules, MonthsCountOnceAndOnlyWithFruit) {
  PlanTree early = tree("early", "a", 10), late = tree("late", "b", 10), alone = tangelo("alone");
  early.ripe = months_of(10, 12);
  late.ripe = months_of(12, 2);
  alone.ripe = months_of(4, 6);
  alone.pollen = PollenWorth::none;
  const Plan both = plan_yard(yard({early, late}, 2)).plans.at(0);
  EXPECT_EQ(both.value, 20 + 5 * 3);
  EXPECT_EQ(both.months, months_of(10, 2));
  EXPECT_EQ(plan_yard(yard({alone}, 1)).plans.at(0).months, 0u);
}

TEST(PlanRules, WorkCostsAndCanBeLimited) {
  PlanTree hardy = tree("hardy", "a", 50), tender = tree("tender", "b", 60);
  tender.work_tenths = 64;
  PlanProblem problem = yard({hardy, tender}, 1);
  EXPECT_EQ(own_value(tender, problem.weights), 54);
  EXPECT_EQ(ids(plan_yard(problem).plans.at(0)), (std::vector<std::string>{"tender"}));
  problem.work_tenths_at_most = 63;
  EXPECT_EQ(ids(plan_yard(problem).plans.at(0)), (std::vector<std::string>{"hardy"}));
}

TEST(PlanRules, PotsToCarryCanBeLimited) {
  std::vector<PlanTree> trees{tree("a", "a", 50), tree("b", "b", 50), tree("c", "c", 20)};
  for (std::size_t i : {0u, 1u}) trees[i].container = trees[i].carried = true;
  PlanProblem problem = yard(trees, 2);
  EXPECT_EQ(plan_yard(problem).plans.at(0).value, 100);
  problem.carried_at_most = 1;
  EXPECT_EQ(plan_yard(problem).plans.at(0).value, 70);
  problem.carried_at_most = 0;
  EXPECT_EQ(plan_yard(problem).plans.at(0).value, 20);
}

TEST(PlanRules, OneWayToGrowEachKind) {
  PlanTree wide = tree("a", "a", 50), pruned = tree("a", "a", 48);
  wide.crown_cm = 700;
  wide.natural_cm = pruned.natural_cm = 700;
  const PlanProblem roomy = yard({wide, pruned}, 2);
  EXPECT_EQ(plan_yard(roomy).plans.at(0).value, 50);
  PlanProblem narrow = roomy;
  narrow.plot.width_cm = 400;
  const Plan plan = plan_yard(narrow).plans.at(0);
  EXPECT_EQ(plan.value, 48);
  EXPECT_TRUE(notes(plan, "plan_pruned", "a"));
}

TEST(PlanRules, OldTreesStayUnlessBetterOnesNeedTheRoom) {
  PlanTree old = tree("old", "a", 40), fresh = tree("fresh", "b", 45), best = tree("best", "c", 60);
  old.existing = true;
  EXPECT_EQ(ids(plan_yard(yard({old, fresh}, 1)).plans.at(0)), (std::vector<std::string>{"old"}));
  const Plan plan = plan_yard(yard({old, best}, 1)).plans.at(0);
  EXPECT_EQ(ids(plan), (std::vector<std::string>{"best"}));
  EXPECT_EQ(plan.gone, (std::vector<std::string>{"old"}));
  EXPECT_TRUE(notes(plan, "plan_goes", "old"));
}

TEST(PlanRules, TheOthersDifferInType) {
  std::vector<PlanTree> trees;
  for (int i = 0; i < 4; ++i) trees.push_back(tree("satsuma" + std::to_string(i), "satsuma", 80 - i));
  trees.push_back(tree("kumquat", "kumquat", 60));
  trees.push_back(tree("lemon", "lemon", 50));
  const YardPlan plans = plan_yard(yard(trees, 1));
  ASSERT_EQ(plans.plans.size(), 3u);
  EXPECT_EQ(plans.plans[0].value, 80);
  EXPECT_EQ(plans.plans[1].value, 60);
  EXPECT_EQ(plans.plans[2].value, 50);
}

TEST(PlanRules, NothingFitsIsAnAnswer) {
  PlanProblem problem = yard({tree("a", "a", 50)}, 1);
  problem.plot.width_cm = 250;
  const YardPlan plans = plan_yard(problem);
  EXPECT_TRUE(plans.plans.empty());
  EXPECT_TRUE(plans.proven);
  EXPECT_TRUE(plan_yard(yard({}, 3)).plans.empty());
  EXPECT_TRUE(plan_yard(yard({tree("a", "a", 50)}, 0)).plans.empty());
}

TEST(PlanRules, AbsurdSizesAreHarmless) {
  PlanProblem problem = yard({tree("a", "a", 2'000'000'000), tree("b", "b", -5)}, 2'000'000'000);
  problem.trees[0].crown_cm = -7;
  problem.trees[0].height_cm = 2'000'000'000;
  problem.trees[1].alone_loss = -2'000'000'000;
  problem.plot = {2'000'000'000, 2'000'000'000, -1, 2'000'000'000, -3, 0, false};
  problem.weights = {2'000'000'000, -1, 2'000'000'000};
  EXPECT_TRUE(plan_yard(problem).plans.empty());  // the setback leaves nothing
  problem.plot.east_cm = 0;
  EXPECT_EQ(ids(plan_yard(problem).plans.at(0)), (std::vector<std::string>{"a"}));
}

}  // namespace
}  // namespace tenwinters
