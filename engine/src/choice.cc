#include "choice.h"

#include <cmath>

#include "tenwinters/decide.h"

namespace tenwinters {
namespace {

bool related(Use a, Use b) {
  const auto kitchen = [](Use use) { return use == Use::cooking || use == Use::preserves || use == Use::zest; };
  return (kitchen(a) && kitchen(b)) || (a == Use::fresh && b == Use::juice) || (a == Use::juice && (b == Use::fresh || b == Use::cooking)) ||
         (a == Use::cooking && b == Use::juice);
}

double leant(const Fact& fact, double leaning) {
  return fact.best + leaning * (leaning < 0 ? fact.best - fact.low : fact.high - fact.best);
}

}  // namespace

double worth(const Tree& tree, CurveId curve, double x) {
  return piecewise_value(x, tree.setting->catalog.curves[static_cast<std::size_t>(curve)].points);
}

double full_height_m(const Tree& tree) { return leant(tree.cultivar->traits.height_m, tree.leaning) * tree.stock->size_share.best; }

double full_spread_m(const Tree& tree, const Yard& yard) {
  const double natural = leant(tree.cultivar->traits.spread_m, tree.leaning) * tree.stock->size_share.best;
  if (yard.container_l <= 0) return natural;
  // What roots in a container of so many litres can feed; our judgement.
  static const std::vector<std::pair<double, double>> kCrown = {{10, 0.7}, {20, 0.9}, {57, 1.4}, {95, 1.8}, {200, 2.5}, {1000, 4}};
  return std::min(natural, piecewise_value(yard.container_l, kCrown));
}

bool has_partner(const Yard& yard) { return yard.company == Company::other_kind || yard.company == Company::will_plant; }

double seeds_here(const Tree& tree, const Yard& yard) {
  const Traits& traits = tree.cultivar->traits;
  return leant(has_partner(yard) ? traits.seeds_with_pollen : traits.seeds_alone, tree.leaning);
}

Fitness ground_fitness(const Rootstock& stock, const Yard& yard) {
  if (yard.container_l > 0) return Fitness::good;
  Fitness fitness = Fitness::good;
  if (yard.soil == Soil::limy) fitness = std::min(fitness, stock.lime.is);
  if (yard.soil == Soil::salty) fitness = std::min(fitness, stock.salt.is);
  // Roots that stand a soaking still die of foot rot if the stock is open to it.
  if (yard.drainage != Drainage::good) fitness = std::min({fitness, stock.wet.is, stock.foot_rot.is});
  return fitness;
}

double use_match(const Tree& tree, const Yard& yard) {
  const std::vector<Use>& uses = tree.cultivar->traits.uses.are;
  if (contains(uses, yard.use)) return worth(tree, CurveId::use, 2);
  if (yard.use == Use::ornamental) return worth(tree, CurveId::use_as_ornament, tree.cultivar->traits.ornamental.is);
  for (Use use : uses)
    if (related(use, yard.use)) return worth(tree, CurveId::use, 1);
  return worth(tree, CurveId::use, 0);
}

double to_tenth(double value) { return std::floor(value * 10 + 0.5) / 10; }

}  // namespace tenwinters
