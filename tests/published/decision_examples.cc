// Published worked examples of the methods in decide.h and of the exact search in plan.h. Each value
// stands beside its source; "by hand" marks what follows exactly from a definition.
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <string>
#include <vector>

#include "tenwinters/decide.h"
#include "tenwinters/plan.h"

namespace tenwinters {
namespace {

void expect_near(const std::vector<double>& found, const std::vector<double>& expected, double slack, const char* source) {
  ASSERT_EQ(found.size(), expected.size()) << source;
  for (std::size_t i = 0; i < found.size(); ++i) EXPECT_NEAR(found[i], expected[i], slack) << source << ", place " << i;
}

TEST(DecisionPublished, WeightsFromAnOrder) {
  // Excerpt on the rank order centroid method after Chang 2004 (couryes.com), read; two places printed.
  expect_near(rank_order_centroid_weights(4), {0.52, 0.27, 0.15, 0.06}, 0.005, "Chang 2004");
  // Definitions of Barron & Barrett 1996, Management Science 42(11), from memory; figures by hand.
  const char* barron = "Barron & Barrett 1996";
  expect_near(rank_order_centroid_weights(2), {0.75, 0.25}, 1e-12, barron);
  expect_near(rank_order_centroid_weights(3), {0.6111, 0.2778, 0.1111}, 5e-5, barron);
  expect_near(rank_order_centroid_weights(4), {0.5208, 0.2708, 0.1458, 0.0625}, 5e-5, barron);
  expect_near(rank_order_centroid_weights(5), {0.4567, 0.2567, 0.1567, 0.09, 0.04}, 5e-5, barron);
  expect_near(rank_sum_weights(2), {0.6667, 0.3333}, 5e-5, barron);
  expect_near(rank_sum_weights(3), {0.5, 0.3333, 0.1667}, 5e-5, barron);
  expect_near(rank_sum_weights(4), {0.4, 0.3, 0.2, 0.1}, 1e-12, barron);
  expect_near(rank_sum_weights(5), {0.3333, 0.2667, 0.2, 0.1333, 0.0667}, 5e-5, barron);
  expect_near(rank_reciprocal_weights(3), {0.5455, 0.2727, 0.1818}, 5e-5, barron);
  expect_near(rank_reciprocal_weights(4), {0.48, 0.24, 0.16, 0.12}, 1e-12, barron);
}

TEST(DecisionPublished, SwingWeightsOfTheOfficeProblem) {
  // Goodwin & Wright, Decision Analysis for Management Judgment, chapter 3, pages 43 and 44: swings of
  // closeness to customers, visibility, image, size, comfort, car parking (100 and 80 read, the rest from
  // memory) and the normalised weights (read).
  EXPECT_EQ(swing_weights({100, 80, 70, 30, 20, 10}), (std::vector<int>{32, 26, 23, 10, 6, 3}));
  // Their definition: only the proportions count.
  EXPECT_EQ(swing_weights({50, 40, 35, 15, 10, 5}), (std::vector<int>{32, 26, 23, 10, 6, 3}));
}

TEST(DecisionPublished, AdditiveValuesOfTheOfficeProblem) {
  // Goodwin & Wright, chapter 3, page 44. Addison Square: values and total read. Carlisle Walk and Gorton
  // Square: totals read, values from memory. The others: from memory. All totals are to one decimal.
  const std::vector<double> weights{32, 26, 23, 10, 6, 3};
  struct Office { const char* name; std::vector<double> values; double total; };
  const std::vector<Office> offices{
      {"Addison Square", {100, 60, 100, 75, 0, 90}, 80.8}, {"Carlisle Walk", {80, 70, 0, 0, 10, 100}, 47.4},
      {"Gorton Square", {60, 100, 20, 50, 50, 80}, 60.2},  {"Bilton Village", {20, 80, 10, 30, 100, 30}, 39.4},
      {"Denver Street", {70, 50, 30, 55, 30, 90}, 52.3},   {"Elton Street", {40, 60, 90, 100, 60, 70}, 64.8},
      {"Filton Village", {0, 0, 70, 0, 80, 0}, 20.9}};
  for (const Office& office : offices) EXPECT_NEAR(additive_value(weights, office.values), office.total, 0.05 + 1e-9) << office.name;
}

TEST(DecisionPublished, PiecewiseValues) {
  // R package smaa, reference output of its piecewise value function, read.
  const std::vector<std::pair<double, double>> curve{{50, 1}, {75, 0.8}, {90, 0.5}, {100, 0}};
  const std::vector<double> inputs{50, 90, 100, 10, 40, 101, 120}, expected{1, 0.5, 0, 1, 1, 0, 0};
  for (std::size_t i = 0; i < inputs.size(); ++i) EXPECT_DOUBLE_EQ(piecewise_value(inputs[i], curve), expected[i]) << inputs[i];
  // M. Kuhn, The desirability package, vignette 2016-09-22, read: conversion 81.09 on 80 to 97, larger is
  // better; activity 59.85 on a target of 57.5 between 55 and 60.
  EXPECT_NEAR(piecewise_value(81.09, {{80, 0}, {97, 1}}), 0.06411765, 5e-9);
  EXPECT_NEAR(piecewise_value(59.85, {{55, 0}, {57.5, 1}, {60, 0}}), 0.06, 1e-9);
  // Derringer & Suich 1980, J. Quality Technology 12:214-219, from memory: the tyre tread's responses.
  EXPECT_NEAR(piecewise_value(129.5, {{120, 0}, {170, 1}}), 0.19, 1e-9);
  EXPECT_NEAR(piecewise_value(465.7, {{400, 0}, {500, 1}, {600, 0}}), 0.657, 1e-9);
  EXPECT_NEAR(piecewise_value(68.0, {{60, 0}, {67.5, 1}, {75, 0}}), 0.9333, 5e-5);
}

TEST(DecisionPublished, AcceptabilityOfTwoCriteria) {
  // Scores A(1,0) B(0,1) C(0.6,0.6), every weighting alike: A leads while its weight is above 0.6. By hand.
  const Acceptability a = acceptability({{{1, 0}, {0, 1}, {0.6, 0.6}}}, simplex_weights(20'000, 2));
  expect_near(a.rank[0], {0.4, 0.1, 0.5}, 1e-3, "A");
  expect_near(a.rank[1], {0.4, 0.1, 0.5}, 1e-3, "B");
  expect_near(a.rank[2], {0.2, 0.8, 0.0}, 1e-3, "C");
  expect_near(a.central[0], {0.8, 0.2}, 1e-3, "A");
  expect_near(a.central[1], {0.2, 0.8}, 1e-3, "B");
  expect_near(a.central[2], {0.5, 0.5}, 1e-3, "C");
}

TEST(DecisionPublished, AcceptabilityUnderDominance) {
  // R package smaa, tests, read: A beats B on each criterion in every draw. A's central weighting is the
  // centroid; B's is undefined, not zero.
  const Acceptability a = acceptability({{{0.9, 0.8, 0.7}, {0.3, 0.2, 0.1}}, {{0.6, 0.6, 0.6}, {0.5, 0.5, 0.5}}}, simplex_weights(20'000, 3));
  expect_near(a.rank[0], {1, 0}, 0, "A");
  expect_near(a.rank[1], {0, 1}, 0, "B");
  expect_near(a.central[0], {1 / 3.0, 1 / 3.0, 1 / 3.0}, 1e-3, "A");
  EXPECT_TRUE(a.central[1].empty());
  EXPECT_EQ(a.confidence[0], 1);
  EXPECT_EQ(a.confidence[1], -1);
}

TEST(DecisionPublished, EntropyOfARanking) {
  // R package smaa, reference output, read: two drugs that come first in 0.3504 and 0.6496 of the draws.
  EXPECT_NEAR(entropy_bits({0.3504, 0.6496}), 0.9344248, 5e-8);
}

TEST(DecisionPublished, InformationGainOfTheTennisTable) {
  // Mitchell's fourteen days, as given in the University of Vermont CS2510 notes on decision trees, read:
  // yes and no by answer. Gains to four places as printed; further digits by hand.
  struct Row { const char* outlook; const char* temperature; const char* humidity; const char* wind; bool play; };
  const std::vector<Row> days{
      {"sunny", "hot", "high", "weak", false},     {"sunny", "hot", "high", "strong", false},
      {"overcast", "hot", "high", "weak", true},   {"rain", "mild", "high", "weak", true},
      {"rain", "cool", "normal", "weak", true},    {"rain", "cool", "normal", "strong", false},
      {"overcast", "cool", "normal", "strong", true}, {"sunny", "mild", "high", "weak", false},
      {"sunny", "cool", "normal", "weak", true},   {"rain", "mild", "normal", "weak", true},
      {"sunny", "mild", "normal", "strong", true}, {"overcast", "mild", "high", "strong", true},
      {"overcast", "hot", "normal", "weak", true}, {"rain", "mild", "high", "strong", false}};
  const auto gain = [&](const char* Row::*column) {
    std::map<std::string, std::vector<double>> by_answer;
    for (const Row& day : days) {
      std::vector<double>& yes_and_no = by_answer.try_emplace(day.*column, std::size_t{2}).first->second;
      ++yes_and_no[day.play ? 0 : 1];
    }
    std::vector<std::vector<double>> counts;
    for (const auto& [answer, yes_and_no] : by_answer) counts.push_back(yes_and_no);
    return information_gain(counts);
  };
  EXPECT_NEAR(entropy_bits({9, 5}), 0.940, 5e-4);
  EXPECT_NEAR(entropy_bits({9, 5}), 0.940286, 5e-7);
  EXPECT_NEAR(gain(&Row::outlook), 0.2467, 5e-5);
  EXPECT_NEAR(gain(&Row::humidity), 0.1518, 5e-5);
  EXPECT_NEAR(gain(&Row::wind), 0.0481, 5e-5);
  EXPECT_NEAR(gain(&Row::temperature), 0.0292, 5e-5);
}

TEST(DecisionPublished, ValueOfPerfectInformation) {
  // Lecture slides on the expected value of perfect information (slideplayer.com/slide/5165249), read.
  const std::vector<double> chances{0.5, 0.3, 0.2};
  EXPECT_NEAR(value_of_perfect_information(chances, {{1500, 300, -800}, {900, 600, -200}, {500, 500, 500}}), 350, 1e-9);
}

// A yard of which only points and one limit are asked: the knapsack problem.
PlanProblem knapsack(const std::vector<int>& values, const std::vector<int>& weights, int capacity) {
  PlanProblem problem;
  problem.place = false;
  problem.plot = {kPlotMostCm, kPlotMostCm, 0, 0, 0, 0, false};
  problem.trees_at_most = static_cast<int>(values.size());
  problem.weights = {0, 0, 0};
  problem.work_tenths_at_most = capacity;
  for (std::size_t i = 0; i < values.size(); ++i) {
    PlanTree tree;
    tree.id = "item" + std::to_string(i + 10);
    tree.type = tree.id;
    tree.points = values[i];
    tree.work_tenths = weights[i];
    tree.crown_cm = 100;
    problem.trees.push_back(tree);
  }
  return problem;
}

TEST(DecisionPublished, Knapsacks) {
  // J. Burkardt, KNAPSACK_01 data set p01: capacity read, weights and profits from memory; optimum 309.
  const YardPlan p01 = plan_yard(knapsack({92, 57, 49, 68, 60, 43, 67, 84, 87, 72}, {23, 31, 29, 44, 53, 38, 63, 85, 89, 82}, 165));
  ASSERT_TRUE(p01.proven);
  EXPECT_EQ(p01.plans.at(0).value, 309);
  std::vector<std::string> chosen;
  for (const PlanStand& stand : p01.plans[0].stands) chosen.push_back(stand.tree.id);
  EXPECT_EQ(chosen, (std::vector<std::string>{"item10", "item11", "item12", "item13", "item15"}));
  // R package adagio, knapsack example of its help page, read: optimum 280.
  const YardPlan adagio = plan_yard(knapsack({15, 100, 90, 60, 40, 15, 10, 1}, {2, 20, 20, 30, 40, 30, 60, 10}, 102));
  ASSERT_TRUE(adagio.proven);
  EXPECT_EQ(adagio.plans.at(0).value, 280);
}

// A yard in which neighbours in a graph spoil each other's fruit: the largest set without neighbours.
int independence_number(std::size_t vertices, const std::vector<std::pair<std::size_t, std::size_t>>& edges) {
  std::vector<int> ones(vertices, 1), none(vertices, 0);
  PlanProblem problem = knapsack(ones, none, 0);
  for (std::size_t i = 0; i < vertices; ++i) {
    PlanTree& tree = problem.trees[i];
    tree.bloom = 1;
    tree.pollen = PollenWorth::good;
    tree.seed_loss = 1;
    for (std::size_t j = 0; j < vertices; ++j) {
      const bool near = std::any_of(edges.begin(), edges.end(), [&](const auto& e) {
        return (e.first == i && e.second == j) || (e.first == j && e.second == i);
      });
      if (!near && j != i) tree.not_partners.push_back(problem.trees[j].id);
    }
  }
  const YardPlan yard = plan_yard(problem);
  EXPECT_TRUE(yard.proven);
  return yard.plans.empty() ? 0 : yard.plans.front().value;
}

TEST(DecisionPublished, IndependentSets) {
  // Petersen graph: 4 (unit tests of two graph libraries, read); 5-cycle and path on five: 2 and 3 (tests
  // of a graph library, read); 3-cube: 4, and the last graph: 2 (by full enumeration).
  EXPECT_EQ(independence_number(10, {{0, 1}, {1, 2}, {2, 3}, {3, 4}, {4, 0}, {0, 5}, {1, 6}, {2, 7}, {3, 8}, {4, 9}, {5, 7}, {7, 9}, {9, 6}, {6, 8}, {8, 5}}), 4);
  EXPECT_EQ(independence_number(5, {{0, 1}, {1, 2}, {2, 3}, {3, 4}, {4, 0}}), 2);
  EXPECT_EQ(independence_number(5, {{0, 1}, {1, 2}, {2, 3}, {3, 4}}), 3);
  EXPECT_EQ(independence_number(8, {{0, 1}, {2, 3}, {4, 5}, {6, 7}, {0, 2}, {1, 3}, {4, 6}, {5, 7}, {0, 4}, {1, 5}, {2, 6}, {3, 7}}), 4);
  EXPECT_EQ(independence_number(6, {{0, 1}, {1, 2}, {1, 5}, {2, 3}, {2, 4}, {3, 4}, {4, 5}, {5, 0}}), 2);
}

}  // namespace
}  // namespace tenwinters
