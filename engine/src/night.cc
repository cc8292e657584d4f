#include "tenwinters/night.h"

#include <algorithm>
#include <tuple>

#include "ripening.h"

namespace tenwinters {
namespace {

constexpr double kWorthIt = 0.02;      // share of a tissue that a step must save to be named
constexpr int kPickHours = 6;          // by daylight before a freezing night
constexpr double kSome = 0.1, kMost = 0.5;

using PerTissue = std::array<double, kTissueCount>;

struct Felt {
  PerTissue injury{};
  double roots = 0;
};

constexpr std::size_t at(Tissue tissue) { return static_cast<std::size_t>(tissue); }

// The best of the measures in place, tissue by tissue: covers do not add up.
int warmed(const NightTree& tree, const NightAir& air, std::size_t tissue, const Protection* added, Lean lean) {
  int best = 0;
  const auto count = [&](const Protection& one) {
    if (!one.covers[tissue] || (one.container_only && tree.container_l <= 0)) return;
    best = std::max(best, to_tenths(lean_on(air.windy ? one.windy_gain_c : one.gain_c, lean, true)));
  };
  for (const Protection* one : tree.protections) count(*one);
  if (added != nullptr) count(*added);
  return best;
}

Felt feel(const NightTree& tree, const NightAir& air, const ColdModel& model, const Protection* added, Lean lean) {
  const ColdNumbers numbers = cold_numbers(model, lean);
  const int stock = tree.rootstock != nullptr ? to_tenths(lean_on(tree.rootstock->cold_gain_c, lean, true)) : 0;
  const int state = state_shift(numbers, tree.age, tree.health, tree.heavy_crop) - at_hardening(stock, air.hardening_permille);
  const int spot = air.windy ? 0 : to_tenths(tree.warmer_c);
  const auto share = [&](int point, std::size_t tissue) {
    const int threshold = point + numbers.width - spot - warmed(tree, air, tissue, added, lean);
    return injury_of_spell(air.tenths_c, threshold, numbers);
  };
  Felt felt;
  for (std::size_t k = 0; k < kTissueCount; ++k) {
    const int point = killing_tenths(killing_point(tree.traits->cold[k], lean), air.hardening_permille);
    felt.injury[k] = share(k <= at(Tissue::trunk) ? point + state : point, k);
  }
  if (tree.container_l > 0) {  // what is over the crown reaches down over the pot
    felt.roots = share(numbers.root - pot_shift(numbers, tree.container_l, long_freeze(air.tenths_c)), at(Tissue::leaf));
    double& trunk = felt.injury[at(Tissue::trunk)];
    trunk = 1 - (1 - trunk) * (1 - felt.roots);
  }
  return felt;
}

NightOutcome outcome_of(const PerTissue& injury, bool fruit_on) {
  if (injury[at(Tissue::trunk)] >= kMost) return NightOutcome::killed;
  if (injury[at(Tissue::wood)] >= kMost) return NightOutcome::cut_back;
  if (injury[at(Tissue::wood)] >= kSome) return NightOutcome::twigs_killed;
  if (injury[at(Tissue::leaf)] >= kMost) return NightOutcome::defoliated;
  if (injury[at(Tissue::leaf)] >= kSome) return NightOutcome::leaf_burn;
  if (fruit_on && injury[at(Tissue::fruit)] >= kMost) return NightOutcome::fruit_lost;
  if (fruit_on && injury[at(Tissue::fruit)] >= kSome) return NightOutcome::fruit_hurt;
  return NightOutcome::unhurt;
}

bool within_reach(const NightTree& tree, const ColdModel& model) {
  const double size = tree.rootstock != nullptr ? tree.rootstock->size_share.best : 1;
  const double grown = std::min(static_cast<double>(tree.age), model.full_height_years.best);
  return tree.container_l > 0 ||
         tree.traits->height_m.best * size * grown <= model.reach_m.best * model.full_height_years.best;
}

// Whether `plainer` spares the dangers of `step` and saves as much.
bool spares(const NightStep& plainer, const NightStep& step) {
  if (plainer.cautions.size() >= step.cautions.size()) return false;
  for (const std::string& id : plainer.cautions)
    if (std::find(step.cautions.begin(), step.cautions.end(), id) == step.cautions.end()) return false;
  for (std::size_t k = 0; k < kTissueCount; ++k)
    if (plainer.saves[k] < step.saves[k] - kWorthIt) return false;
  return true;
}

std::vector<NightStep> steps_for(const NightTree& tree, const NightAir& air, const Catalog& catalog, const Felt& now,
                                 const NightResult& result) {
  std::vector<NightStep> steps;
  const auto add = [&](NightStep step) {
    double most = 0;
    for (std::size_t k = 0; k < kTissueCount; ++k) {
      const bool there = k == at(Tissue::fruit) ? result.fruit_on : k == at(Tissue::bloom) ? result.bloom_on : true;
      if (!there) step.saves[k] = 0;
      most = std::max(most, step.saves[k]);
    }
    if (most >= kWorthIt) steps.push_back(std::move(step));
  };
  NightStep pick{"pick_fruit", kPickHours, {}, {}};
  pick.saves[at(Tissue::fruit)] = now.injury[at(Tissue::fruit)];
  for (const Caution& caution : catalog.cautions)
    if (!within_reach(tree, catalog.cold_model) &&
        std::find(caution.when.begin(), caution.when.end(), Situation::ladder) != caution.when.end())
      pick.cautions.push_back(caution.id);
  add(std::move(pick));

  for (const Protection& one : catalog.protections) {
    if (one.container_only && tree.container_l <= 0) continue;
    if (!one.fits_tall_trees && !within_reach(tree, catalog.cold_model)) continue;
    if (std::find(tree.protections.begin(), tree.protections.end(), &one) != tree.protections.end()) continue;
    const Felt then = feel(tree, air, catalog.cold_model, &one, Lean::best);
    NightStep step{one.id, one.ready_hours, {}, one.cautions};
    for (std::size_t k = 0; k < kTissueCount; ++k) step.saves[k] = std::max(0.0, now.injury[k] - then.injury[k]);
    add(std::move(step));
  }
  // Picking is no way to keep fruit on the tree, so it makes no other step needless.
  const std::vector<NightStep> all = steps;
  std::erase_if(steps, [&](const NightStep& step) {
    return step.id != "pick_fruit" &&
           std::any_of(all.begin(), all.end(), [&](const NightStep& other) { return other.id != "pick_fruit" && spares(other, step); });
  });
  std::sort(steps.begin(), steps.end(), [](const NightStep& a, const NightStep& b) {
    return std::tie(b.ready_hours, a.id) < std::tie(a.ready_hours, b.id);
  });
  return steps;
}

NightResult judge(const NightTree& tree, const NightAir& air, const Catalog& catalog) {
  NightResult result;
  result.id = tree.id;
  const Felt best = feel(tree, air, catalog.cold_model, nullptr, Lean::best);
  const Felt worse = feel(tree, air, catalog.cold_model, nullptr, Lean::worse);
  const Felt kinder = feel(tree, air, catalog.cold_model, nullptr, Lean::kinder);
  for (std::size_t k = 0; k < kTissueCount; ++k)
    result.injury[k] = {best.injury[k], std::min(best.injury[k], kinder.injury[k]), std::max(best.injury[k], worse.injury[k])};
  result.roots = best.roots;
  result.fruit_on = air.month == 0 || fruit_in_month(*tree.traits, tree.region, air.month);
  result.bloom_on = air.month != 0 && tree.traits->bloom.contains(air.month);
  result.outcome = outcome_of(best.injury, result.fruit_on);
  result.steps = steps_for(tree, air, catalog, best, result);
  return result;
}

}  // namespace

int hardening_after(Before before) {
  constexpr int kPermille[] = {500, 300, 900, 50};
  return kPermille[static_cast<std::size_t>(before)];
}

NightAir steady_night(double low_c, int hours) {
  constexpr int kSmallHours = 7;  // counted from the midnight before: the middle of the cold lies about 7
  NightAir air;
  air.start_hour = std::max(0, kSmallHours - hours / 2);
  air.tenths_c.assign(static_cast<std::size_t>(std::max(1, hours)), static_cast<std::int16_t>(to_tenths(low_c)));
  return air;
}

NightReport night(const NightAir& air, std::span<const NightTree> trees, const Catalog& catalog) {
  NightReport report;
  report.hardening_permille = air.hardening_permille;
  report.lowest_tenths = kWarm;
  for (const std::int16_t one : air.tenths_c) {
    report.lowest_tenths = std::min<int>(report.lowest_tenths, one);
    report.freezing_hours += one <= 0 ? 1 : 0;
  }
  for (const NightTree& tree : trees) report.trees.push_back(judge(tree, air, catalog));
  return report;
}

}  // namespace tenwinters
