#include "tenwinters/plan.h"

#include <algorithm>
#include <bit>

#include "plan_place.h"
#include "plan_search.h"

namespace tenwinters {
namespace {

bool lists(const std::vector<std::string>& ids, std::string_view id) { return std::find(ids.begin(), ids.end(), id) != ids.end(); }

// Pollen can meet a receptive flower of another kind.
bool can_meet(const PlanTree& giver, const PlanTree& taker) {
  return giver.id != taker.id && (giver.bloom & taker.bloom) != 0 && !lists(taker.not_partners, giver.id) &&
         !lists(giver.not_partners, taker.id);
}

Arg about(std::string name, ArgKind kind, std::string id) { return {std::move(name), kind, 0, std::move(id)}; }
Arg figure(std::string name, ArgKind kind, double number) { return {std::move(name), kind, number, ""}; }

class Writer {
 public:
  Writer(const PlanProblem& problem, const Grid& grid) : problem_(problem), grid_(grid) {}

  Plan write(const Chosen& chosen) {
    Plan plan;
    plan.value = chosen.value;
    std::vector<Crown> crowns;
    for (std::size_t index : chosen.trees) {
      const PlanTree& tree = problem_.trees[index];
      plan.stands.push_back({tree, 0, 0, false, false});
      crowns.push_back({counted_crown_cm(tree.crown_cm) / 2, tree.height_cm, tree.fixed, tree.x_cm, tree.y_cm});
    }
    if (problem_.place) {
      const std::vector<std::pair<int, int>> places = grid_.arrange(crowns);
      for (std::size_t i = 0; i < places.size(); ++i) {
        plan.stands[i].x_cm = places[i].first;
        plan.stands[i].y_cm = places[i].second;
      }
    }
    std::stable_sort(plan.stands.begin(), plan.stands.end(),
                     [](const PlanStand& a, const PlanStand& b) { return a.tree.id < b.tree.id; });
    pollinate(plan);
    what_goes(plan, chosen);
    season(plan);
    upkeep(plan);
    if (problem_.place) shade(plan);
    cautions(plan);
    return plan;
  }

 private:
  void pollinate(Plan& plan) const {
    for (PlanStand& taker : plan.stands) {
      const PlanStand* spoiler = nullptr;
      for (const PlanStand& giver : plan.stands) {
        if (&giver == &taker) continue;
        if (sets_fruit_of(giver.tree, taker.tree)) {
          taker.has_partner = true;
          if (taker.tree.alone_loss > 0 || taker.tree.needs_partner) plan.partners.emplace_back(giver.tree.id, taker.tree.id);
        }
        if (spoiler == nullptr && makes_seeds_in(giver.tree, taker.tree)) spoiler = &giver;
      }
      if (taker.tree.needs_partner && !taker.has_partner)
        plan.notes.push_back({"plan_partner_missing", {about("tree", ArgKind::cultivar, taker.tree.id)}});
      if (taker.tree.partner_near) plan.notes.push_back({"plan_partner_near", {about("tree", ArgKind::cultivar, taker.tree.id)}});
      if (taker.tree.seed_loss > 0 && spoiler != nullptr) {
        taker.seedy = true;
        plan.notes.push_back({"plan_seedy",
                              {about("tree", ArgKind::cultivar, taker.tree.id), about("by", ArgKind::cultivar, spoiler->tree.id)}});
      }
    }
    std::sort(plan.partners.begin(), plan.partners.end());
    plan.partners.erase(std::unique(plan.partners.begin(), plan.partners.end()), plan.partners.end());
    for (const auto& [giver, taker] : plan.partners)
      plan.notes.push_back({"plan_partner", {about("tree", ArgKind::cultivar, taker), about("by", ArgKind::cultivar, giver)}});
  }

  void what_goes(Plan& plan, const Chosen& chosen) const {
    std::vector<std::pair<int, std::string>> standing;
    for (const PlanTree& tree : problem_.trees)
      if (tree.existing) standing.emplace_back(tree.slot, tree.id);
    std::sort(standing.begin(), standing.end());
    standing.erase(std::unique(standing.begin(), standing.end()), standing.end());
    for (const auto& [slot, id] : standing) {
      const int wanted = slot;
      const bool stays = std::any_of(chosen.trees.begin(), chosen.trees.end(), [&](std::size_t i) {
        return problem_.trees[i].existing && problem_.trees[i].slot == wanted;
      });
      if (!stays) plan.gone.push_back(id);
    }
    std::sort(plan.gone.begin(), plan.gone.end());
    for (const std::string& id : plan.gone) plan.notes.push_back({"plan_goes", {about("tree", ArgKind::cultivar, id)}});
    for (const PlanStand& stand : plan.stands)
      if (stand.tree.existing)
        plan.notes.push_back({stand.tree.fixed ? "plan_stays" : "plan_stays_somewhere", {about("tree", ArgKind::cultivar, stand.tree.id)}});
  }

  void season(Plan& plan) const {
    for (const PlanStand& stand : plan.stands)
      if (!stand.tree.needs_partner || stand.has_partner) plan.months = static_cast<Months>(plan.months | stand.tree.ripe);
    plan.notes.push_back({"plan_months", {figure("n", ArgKind::count, std::popcount(plan.months))}});
  }

  void upkeep(Plan& plan) const {
    int tenths = 0, carried = 0;
    for (const PlanStand& stand : plan.stands) {
      tenths += stand.tree.work_tenths;
      carried += stand.tree.carried ? 1 : 0;
      if (stand.tree.crown_cm < stand.tree.natural_cm && !stand.tree.container)
        plan.notes.push_back({"plan_pruned",
                              {about("tree", ArgKind::cultivar, stand.tree.id),
                               figure("spread", ArgKind::metres, stand.tree.crown_cm / 100.0),
                               figure("natural", ArgKind::metres, stand.tree.natural_cm / 100.0)}});
    }
    const int nights = (tenths + 5) / 10;
    if (tenths > 0) plan.notes.push_back({"plan_work", {figure("n", ArgKind::count, nights)}});
    if (carried > 0) plan.notes.push_back({"plan_carry", {figure("n", ArgKind::count, carried)}});
  }

  void shade(Plan& plan) const {
    for (const PlanStand& shorter : plan.stands)
      for (const PlanStand& taller : plan.stands) {
        if (!shaded_by(crown(taller), taller.x_cm, taller.y_cm, crown(shorter), shorter.x_cm, shorter.y_cm, problem_.plot.sun_from_north))
          continue;
        plan.notes.push_back({"plan_shade",
                              {about("tree", ArgKind::cultivar, shorter.tree.id), about("by", ArgKind::cultivar, taller.tree.id)}});
      }
  }
  static Crown crown(const PlanStand& stand) {
    return {counted_crown_cm(stand.tree.crown_cm) / 2, stand.tree.height_cm, false, 0, 0};
  }

  static void cautions(Plan& plan) {
    for (const PlanStand& stand : plan.stands)
      plan.cautions.insert(plan.cautions.end(), stand.tree.cautions.begin(), stand.tree.cautions.end());
    std::sort(plan.cautions.begin(), plan.cautions.end());
    plan.cautions.erase(std::unique(plan.cautions.begin(), plan.cautions.end()), plan.cautions.end());
  }

  const PlanProblem& problem_;
  const Grid& grid_;
};

constexpr int kFixedMost = 64;

// Sizes no yard has would overflow the sums; they count as the nearest one that cannot.
PlanProblem within_bounds(PlanProblem problem) {
  for (int* side : {&problem.plot.width_cm, &problem.plot.length_cm, &problem.plot.north_cm, &problem.plot.east_cm,
                    &problem.plot.south_cm, &problem.plot.west_cm})
    *side = std::clamp(*side, 0, kPlotMostCm);
  int fixed = 0;
  for (PlanTree& tree : problem.trees) {
    for (int* size : {&tree.crown_cm, &tree.height_cm}) *size = std::clamp(*size, 1, kPlotMostCm);
    for (int* at : {&tree.x_cm, &tree.y_cm}) *at = std::clamp(*at, -kPlotMostCm, 2 * kPlotMostCm);
    for (int* points : {&tree.alone_loss, &tree.seed_loss, &tree.work_tenths}) *points = std::clamp(*points, 0, 100'000);
    tree.points = std::clamp(tree.points, -100'000, 100'000);
    tree.fixed = tree.fixed && tree.existing && ++fixed <= kFixedMost;
  }
  for (int* weight : {&problem.weights.month, &problem.weights.tree_night, &problem.weights.stays})
    *weight = std::clamp(*weight, 0, 1000);
  return problem;
}

}  // namespace

Months months_of(int from_month, int to_month) {
  if (from_month < 1 || from_month > 12 || to_month < 1 || to_month > 12) return 0;
  unsigned months = 0;
  for (int month = from_month;; month = month % 12 + 1) {
    months |= 1U << (month - 1);
    if (month == to_month) return static_cast<Months>(months);
  }
}

std::int64_t crown_room(int crown_cm) {
  // 3.1415 is a little less than pi, so the room is never overstated.
  return std::int64_t{31415} * crown_cm * crown_cm / 4 / 10'000 / 100;
}

std::int64_t plot_room(const Plot& plot) {
  const std::int64_t wide = plot.width_cm - plot.west_cm - plot.east_cm;
  const std::int64_t deep = plot.length_cm - plot.south_cm - plot.north_cm;
  return wide <= 0 || deep <= 0 ? 0 : wide * deep / 100;
}

bool sets_fruit_of(const PlanTree& giver, const PlanTree& taker) {
  if (!can_meet(giver, taker) || giver.pollen == PollenWorth::none) return false;
  return lists(taker.partners, giver.id) || (giver.pollen == PollenWorth::good && giver.type != taker.type);
}

bool makes_seeds_in(const PlanTree& giver, const PlanTree& taker) {
  return can_meet(giver, taker) && giver.pollen != PollenWorth::none;
}

int own_value(const PlanTree& tree, const PlanWeights& weights) {
  return tree.points + (tree.existing ? weights.stays : 0) - (weights.tree_night * tree.work_tenths + 5) / 10;
}

YardPlan plan_yard(const PlanProblem& problem_as_given) {
  const PlanProblem problem = within_bounds(problem_as_given);
  Choosing choosing = choose_trees(problem);
  YardPlan yard;
  yard.proven = choosing.proven;
  yard.gap = choosing.gap;
  yard.nodes = choosing.nodes;
  yard.misfits = std::move(choosing.misfits);
  const Grid grid(problem.plot);
  Writer writer(problem, grid);
  for (const Chosen& chosen : choosing.best) yard.plans.push_back(writer.write(chosen));
  return yard;
}

}  // namespace tenwinters
