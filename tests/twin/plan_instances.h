// Invented yards for the twins of the yard plan: any seed gives the same yard on every machine.
#pragma once

#include <algorithm>
#include <cstdint>
#include <string>
#include <vector>

#include "tenwinters/plan.h"

namespace tenwinters::twin {

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : state_(seed * 0x9E3779B97F4A7C15u + 0x1234567u) {}
  // A whole number from low to high.
  int roll(int low, int high) {
    state_ ^= state_ << 13;
    state_ ^= state_ >> 7;
    state_ ^= state_ << 17;
    return low + static_cast<int>((state_ >> 11) % static_cast<std::uint64_t>(high - low + 1));
  }
  bool chance(int in_hundred) { return roll(1, 100) <= in_hundred; }

 private:
  std::uint64_t state_;
};

// `kinds` cultivars, some in two or three sizes, some standing already; every sort of pollen trouble.
inline PlanProblem invented_yard(std::uint64_t seed, int kinds, int trees_at_most, bool place) {
  Dice dice(seed);
  PlanProblem problem;
  problem.trees_at_most = trees_at_most;
  problem.place = place;
  std::vector<std::string> ids;
  for (int k = 0; k < kinds; ++k) ids.push_back("kind" + std::to_string(100 + k));
  for (int k = 0; k < kinds; ++k) {
    PlanTree tree;
    tree.id = ids[static_cast<std::size_t>(k)];
    tree.type = "type" + std::to_string(dice.roll(0, std::max(1, kinds / 3)));
    tree.points = dice.roll(35, 90);
    const int from = dice.roll(1, 12);
    tree.ripe = months_of(from, (from + dice.roll(0, 4) - 1) % 12 + 1);
    const int bloom = dice.roll(2, 4);
    tree.bloom = months_of(bloom, bloom + dice.roll(0, 1));
    tree.pollen = static_cast<PollenWorth>(dice.roll(0, 2));
    if (dice.chance(25)) {
      tree.needs_partner = true;
      tree.alone_loss = tree.points * 3 / 4;
    } else if (dice.chance(15)) {
      tree.alone_loss = dice.roll(1, 15);
    } else if (dice.chance(35)) {
      tree.seed_loss = dice.chance(20) ? tree.points : dice.roll(2, 25);
    }
    if (dice.chance(25)) tree.partners.push_back(ids[static_cast<std::size_t>(dice.roll(0, kinds - 1))]);
    if (dice.chance(25)) tree.not_partners.push_back(ids[static_cast<std::size_t>(dice.roll(0, kinds - 1))]);
    tree.work_tenths = dice.chance(40) ? dice.roll(0, 60) : 0;
    tree.crown_cm = dice.roll(15, 60) * 10;
    tree.natural_cm = tree.crown_cm;
    tree.height_cm = tree.crown_cm + dice.roll(-5, 10) * 10;
    problem.trees.push_back(tree);
    for (int smaller = dice.roll(0, 2); smaller > 0; --smaller) {
      tree.crown_cm = tree.crown_cm * 3 / 4;
      tree.height_cm = tree.height_cm * 3 / 4;
      tree.points = std::max(5, tree.points - dice.roll(0, 12));
      tree.alone_loss = std::min(tree.alone_loss, tree.points);
      tree.container = dice.chance(50);
      tree.carried = tree.container && dice.chance(70);
      problem.trees.push_back(tree);
    }
  }
  problem.plot.width_cm = dice.roll(30, 110) * 10;
  problem.plot.length_cm = dice.roll(30, 140) * 10;
  if (dice.chance(30)) problem.plot.north_cm = kWallSetbackCm;
  if (dice.chance(15)) problem.plot.east_cm = kLineSetbackCm / 3;
  for (int old = dice.roll(0, 2); old > 0; --old) {
    PlanTree tree = problem.trees[static_cast<std::size_t>(dice.roll(0, static_cast<int>(problem.trees.size()) - 1))];
    tree.existing = true;
    tree.slot = old;
    tree.container = tree.carried = false;
    if (dice.chance(60)) {
      tree.fixed = true;
      tree.x_cm = dice.roll(0, problem.plot.width_cm);
      tree.y_cm = dice.roll(0, problem.plot.length_cm);
    }
    problem.trees.push_back(tree);
    if (dice.chance(30)) {  // or pruned
      tree.crown_cm = tree.crown_cm * 3 / 4;
      tree.points = std::max(5, tree.points - 4);
      tree.alone_loss = std::min(tree.alone_loss, tree.points);
      problem.trees.push_back(tree);
    }
  }
  if (dice.chance(40)) problem.carried_at_most = dice.roll(0, 2);
  if (dice.chance(30)) problem.work_tenths_at_most = dice.roll(10, 120);
  return problem;
}

}  // namespace tenwinters::twin
