// The night's report: steps, order, cautions, what is on the tree. And the trade's figures in a table.
#include <algorithm>
#include <set>

#include "../one_night.h"
#include "../real_catalog.h"

namespace tenwinters {
namespace {

using namespace testing;

const Catalog& catalog() { return real_catalog().catalog; }

NightTree of(const std::string& id) {
  const Cultivar* cultivar = find_cultivar(catalog(), id);
  const CitrusType* type = find_type(catalog(), id);
  EXPECT_TRUE(cultivar != nullptr || type != nullptr) << id;
  NightTree tree = tree_of(cultivar != nullptr ? cultivar->traits : type->traits);
  tree.id = id;
  tree.region = Region::gulf;
  return tree;
}

TEST(NightReport, SaysHowColdItGets) {
  NightAir air = air_of({-3, 2, 0.4, false});
  air.tenths_c.insert(air.tenths_c.end(), {-5, 0, 1, kWarm});
  const NightTree tree = of("satsuma");
  const NightReport report = night(air, {&tree, 1}, catalog());
  EXPECT_EQ(report.lowest_tenths, -30);
  EXPECT_EQ(report.freezing_hours, 4);
  EXPECT_EQ(report.hardening_permille, 400);
  ASSERT_EQ(report.trees.size(), 1u);
  EXPECT_EQ(report.trees[0].id, "satsuma");
}

TEST(NightReport, StepsComeInTheOrderInWhichTheyAreDue) {
  NightTree tree = of("lemon");
  tree.age = 3;
  const NightResult result = lived_through(tree, {-6, 6, 0.3, false}, catalog());
  ASSERT_GE(result.steps.size(), 3u);
  std::set<std::string> ids;
  for (std::size_t i = 0; i < result.steps.size(); ++i) {
    EXPECT_TRUE(ids.insert(result.steps[i].id).second);
    if (i > 0) { EXPECT_GE(result.steps[i - 1].ready_hours, result.steps[i].ready_hours); }
    for (const std::string& caution : result.steps[i].cautions) EXPECT_NE(find_caution(catalog(), caution), nullptr) << caution;
  }
  EXPECT_TRUE(ids.contains("pick_fruit"));
  EXPECT_TRUE(ids.contains("cover_lamp"));
  EXPECT_FALSE(ids.contains("carry_in"));  // it stands in the ground
  EXPECT_FALSE(ids.contains("none"));
}

// Whatever brings fire, current, fumes, heights, ice or weight says so with it.
TEST(NightReport, DangersComeWithTheirCautions) {
  const std::map<std::string, std::string> wanted = {{"cover_lamp", "electric_freeze_protection"},
                                                     {"cover", "open_flame_and_fuel"},
                                                     {"water_soil", "icing"},
                                                     {"carry_in", "carbon_monoxide"}};
  std::set<std::string> met;
  for (const double litres : {0.0, 57.0}) {
    NightTree tree = of("sweet_orange");
    tree.age = 3;
    tree.container_l = litres;
    for (const NightStep& step : lived_through(tree, {-6, 6, 0.3, false}, catalog()).steps) {
      const auto found = wanted.find(step.id);
      if (found == wanted.end()) continue;
      met.insert(step.id);
      EXPECT_NE(std::find(step.cautions.begin(), step.cautions.end(), found->second), step.cautions.end()) << step.id;
    }
  }
  EXPECT_EQ(met.size(), wanted.size());
}

TEST(NightReport, WhatIsInPlaceIsNotAdvisedAgain) {
  NightTree tree = of("lemon");
  tree.age = 3;
  const Protection* cover = find_protection(catalog(), "cover");
  ASSERT_NE(cover, nullptr);
  const NightResult bare = lived_through(tree, {-5, 6, 0.3, false}, catalog());
  tree.protections = {cover};
  const NightResult covered = lived_through(tree, {-5, 6, 0.3, false}, catalog());
  const auto names = [](const NightResult& result, const std::string& id) {
    return std::any_of(result.steps.begin(), result.steps.end(), [&](const NightStep& s) { return s.id == id; });
  };
  EXPECT_TRUE(names(bare, "cover"));
  EXPECT_FALSE(names(covered, "cover"));
}

// A step's figure is what the next look would show: take it, and that much less is lost.
// Where cloth alone saves all that a lamp under it would, nobody is sent out with cords and bulbs.
TEST(NightReport, NoDangerThatAPlainerStepSpares) {
  NightTree tree = of("satsuma");
  tree.age = 4;
  const auto named = [](const NightResult& result, const char* id) {
    return std::any_of(result.steps.begin(), result.steps.end(), [&](const NightStep& s) { return s.id == id; });
  };
  const NightResult fruit = lived_through(tree, {f(26), 4, 0.3, false}, catalog());
  EXPECT_TRUE(named(fruit, "cover"));
  EXPECT_TRUE(named(fruit, "pick_fruit"));
  EXPECT_FALSE(named(fruit, "cover_lamp"));
  const NightResult hard = lived_through(tree, {f(19), 8, 0.3, false}, catalog());
  EXPECT_TRUE(named(hard, "cover"));
  EXPECT_TRUE(named(hard, "cover_lamp"));
}

TEST(NightReport, StepsKeepTheirPromise) {
  NightTree tree = of("grapefruit");
  tree.age = 2;
  const OneNight night{-6, 5, 0.4, false};
  const NightResult before = lived_through(tree, night, catalog());
  for (const NightStep& step : before.steps) {
    const Protection* protection = find_protection(catalog(), step.id);
    if (protection == nullptr) continue;  // picking
    NightTree after_step = tree;
    after_step.protections = {protection};
    const NightResult after = lived_through(after_step, night, catalog());
    for (const Tissue tissue : {Tissue::leaf, Tissue::wood, Tissue::trunk, Tissue::fruit}) {
      const auto k = static_cast<std::size_t>(tissue);
      EXPECT_DOUBLE_EQ(before.injury[k].best - after.injury[k].best, step.saves[k]) << step.id;
    }
  }
}

TEST(NightReport, KnowsWhatHangsOnTheTree) {
  NightTree satsuma = of("owari");
  NightAir air = air_of({-5, 6, 0.6, false});
  const auto in_month = [&](int month) {
    air.month = month;
    return night(air, {&satsuma, 1}, catalog()).trees.front();
  };
  EXPECT_TRUE(in_month(0).fruit_on);
  EXPECT_FALSE(in_month(0).bloom_on);
  EXPECT_TRUE(in_month(11).fruit_on);
  EXPECT_FALSE(in_month(2).fruit_on);
  EXPECT_TRUE(in_month(3).bloom_on);
  EXPECT_NE(in_month(2).outcome, NightOutcome::fruit_lost);
  for (const NightStep& step : in_month(2).steps) EXPECT_NE(step.id, "pick_fruit");
}

TEST(NightReport, OutcomesFollowTheInjury) {
  const NightTree tree = of("sweet_orange");
  NightOutcome before = NightOutcome::unhurt;
  for (int tenths = 0; tenths >= -160; tenths -= 2) {
    const NightResult result = lived_through(tree, {tenths / 10.0, 4, 0.5, false}, catalog());
    EXPECT_GE(result.outcome, before) << tenths;
    before = result.outcome;
    for (const Interval& interval : result.injury) {
      EXPECT_LE(interval.low, interval.best);
      EXPECT_LE(interval.best, interval.high);
      EXPECT_GE(interval.low, 0);
      EXPECT_LE(interval.high, 1);
    }
  }
  EXPECT_EQ(before, NightOutcome::killed);
}

TEST(NightReport, BankingAPotDoesNotWarmItsRoots) {
  const Protection* bank = find_protection(catalog(), "bank_trunk");
  const Protection* cover = find_protection(catalog(), "cover");
  ASSERT_TRUE(bank != nullptr && cover != nullptr);
  NightTree tree = of("satsuma");
  tree.container_l = 57;
  const OneNight night{-7.5, 5, 0.9, false};
  const double bare = lived_through(tree, night, catalog()).roots;
  tree.protections = {bank};
  EXPECT_EQ(lived_through(tree, night, catalog()).roots, bare);
  tree.protections = {cover};
  EXPECT_LT(lived_through(tree, night, catalog()).roots, bare);
}

TEST(NightReport, NoTreesNoHours) {
  EXPECT_TRUE(night(air_of({-5, 4, 0.5, false}), {}, catalog()).trees.empty());
  const NightTree tree = of("key_lime");
  NightAir still_warm;
  const NightResult result = night(still_warm, {&tree, 1}, catalog()).trees.front();
  for (const Interval& interval : result.injury) EXPECT_EQ(interval.high, 0);
  EXPECT_EQ(result.outcome, NightOutcome::unhurt);
  EXPECT_TRUE(result.steps.empty());
}

}  // namespace
}  // namespace tenwinters
