// The whole yard: which trees to plant, which old ones stay, and where each one stands.
//
//   PlanProblem problem = yard_offer(catalog, office, place, answers, {});   // every tree that would do here
//   problem.plot = {.width_cm = 900, .length_cm = 1200};
//   problem.trees_at_most = 3;
//   YardPlan yard = plan_yard(problem);
//   if (!yard.plans.empty()) draw(yard.plans.front());                       // best first
//
// The value of a plan, in whole points:
//     points of its trees
//   + weights.month      for every month in which at least one of them has ripe fruit
//   + weights.stays      for every old tree that stays
//   - weights.tree_night for every night on which one tree asks for work in a winter (rounded for each tree)
//   - alone_loss         of a tree for which no partner stands in the plan
//   - seed_loss          of a tree that gets unwelcome pollen from another tree of the plan
//
// Pure and deterministic: same arguments, same bytes, native or WebAssembly. Never throws.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "tenwinters/advise.h"
#include "tenwinters/catalog.h"
#include "tenwinters/office.h"

namespace tenwinters {

using Months = std::uint16_t;  // bit 0 = January
[[nodiscard]] Months months_of(int from_month, int to_month);  // both included; 0 for a month outside 1..12

// A tree on offer, or one that stands already. Offers that share an id are ways to grow the same kind
// (another rootstock, kept smaller, in a pot), and existing ones that share a slot are ways to keep one
// tree: a plan takes at most one of them.
struct PlanTree {
  std::string id;                          // cultivar
  std::string type;
  std::string rootstock, protection;
  int points = 0;                          // 0..100, with the pollen it wants and none that makes it seedy
  int alone_loss = 0;                      // points lost without a partner in the plan
  int seed_loss = 0;                       // points lost when a tree of the plan makes its fruit seedy
  bool needs_partner = false;              // without one it bears next to nothing: its months do not count
  bool partner_near = false;               // needs one, and other citrus near the yard will do
  Months ripe = 0, bloom = 0;
  PollenWorth pollen = PollenWorth::none;
  std::vector<std::string> partners, not_partners;  // cultivar ids
  int work_tenths = 0;                     // nights of work a winter, tenths
  int crown_cm = 0;                        // width at full size, as it will be kept
  int natural_cm = 0;                      // width if never pruned
  int height_cm = 0;
  bool container = false;
  bool carried = false;                    // a pot that is carried in on cold nights
  bool existing = false;
  int slot = 0;                            // of an existing tree: which one; ways to keep it share its slot
  bool fixed = false;                      // an existing tree whose place is known
  int x_cm = 0, y_cm = 0;                  // of a fixed tree: from the west and from the south edge of the plot
  std::vector<std::string> cautions;
};

// A rectangle, its length running north. Setbacks are kept free between its edges and every crown:
// kWallSetbackCm along a wall, kLineSetbackCm along power lines or a septic field, else 0.
struct Plot {
  int width_cm = 0;                        // west to east, 0..kPlotMostCm
  int length_cm = 0;                       // south to north, 0..kPlotMostCm
  int north_cm = 0, east_cm = 0, south_cm = 0, west_cm = 0;
  bool sun_from_north = false;             // south of the equator
};
inline constexpr int kWallSetbackCm = 90, kLineSetbackCm = 305, kPlotMostCm = 12000;

// Judged by us, as are all weights: a month more of fresh fruit is worth a few points, a night less in
// the cold one point, and a tree that bears already is ten points ahead of a whip from the nursery.
struct PlanWeights {
  int month = 3, tree_night = 1, stays = 10;
};

inline constexpr int kNoLimit = -1;
inline constexpr int kPlanTreesMost = 20;

struct PlanProblem {
  std::vector<PlanTree> trees;
  int trees_at_most = 1;                   // 1..kPlanTreesMost, those that stay included
  Plot plot;
  int carried_at_most = kNoLimit;          // pots to be carried in
  int work_tenths_at_most = kNoLimit;      // tree-nights a winter, tenths
  PlanWeights weights;
  bool place = true;                       // false: crowns need only add up to the area of the plot
  std::int64_t node_limit = 3'000'000;     // steps of the search; at the limit the answer is not proven
  std::vector<Limit> spot;                 // what is wrong with the spot itself, to be said first
  std::vector<Reason> notes;               // on the offer
};

// The room a crown takes up, in hundredths of a square metre, rounded down.
[[nodiscard]] std::int64_t crown_room(int crown_cm);
// The room there is, in the same unit.
[[nodiscard]] std::int64_t plot_room(const Plot& plot);

// Whether pollen of `giver` sets fruit on `taker`: another cultivar that shares no incompatibility with
// it, in bloom with it, and either a proven partner or a good giver of pollen of another type (sisters of
// one type often share their incompatibility). Bees do the carrying.
[[nodiscard]] bool sets_fruit_of(const PlanTree& giver, const PlanTree& taker);
// Whether pollen of `giver` gets seeds into fruit of `taker`: as above, but weak pollen or a sister will do.
[[nodiscard]] bool makes_seeds_in(const PlanTree& giver, const PlanTree& taker);

// What a tree adds by itself, at best: points, staying, less its work.
[[nodiscard]] int own_value(const PlanTree& tree, const PlanWeights& weights);

struct PlanStand {                         // a tree of a plan, in its place
  PlanTree tree;
  int x_cm = 0, y_cm = 0;                  // centre, from the west and the south edge; 0, 0 when not placed
  bool has_partner = false;
  bool seedy = false;                      // gets pollen that makes seeds (and minds it)
};

struct Plan {
  int value = 0;
  std::vector<PlanStand> stands;           // by id
  std::vector<std::string> gone;           // existing trees to take out, by id, one entry a tree
  Months months = 0;                       // with ripe fruit
  std::vector<std::pair<std::string, std::string>> partners;  // giver, taker
  std::vector<Reason> notes;
  std::vector<std::string> cautions;       // ids, sorted
};

// Crowns that the plot cannot hold together: the count of movable crowns at least so wide (half metres
// to centimetres), and fixed trees by their index in PlanProblem::trees.
struct Misfit {
  std::vector<std::pair<int, int>> wider;  // crown_cm (a multiple of 50), trees at least so wide
  std::vector<int> fixed;
};

struct YardPlan {
  // At most three, best first. A plan stands here only if no better one has the same types of trees,
  // so the second differs from the first in at least one type, not only in a sister cultivar.
  std::vector<Plan> plans;
  bool proven = false;                     // nothing better exists
  int gap = 0;                             // no plan is worth more than plans[0].value + gap
  std::int64_t nodes = 0;                  // steps of the search
  std::vector<Misfit> misfits;             // met on the way; with them the selection alone is exact
};

[[nodiscard]] YardPlan plan_yard(const PlanProblem& problem);

// An existing tree as a household names it.
struct ExistingTree {
  std::string cultivar;
  std::string rootstock;                   // "" = not known
  bool fixed = false;
  int x_cm = 0, y_cm = 0;
};

// Every tree that would do at this place for these answers, in every useful size, in the ground or in a
// pot as the answers allow, and the existing ones. The answer on room is left aside: the plot decides.
// Limits and plot are left for the caller to set. Unknown existing cultivars are left out.
[[nodiscard]] PlanProblem yard_offer(const Catalog& catalog, const Office& office, const Place& place,
                                     const Answers& answers, const std::vector<ExistingTree>& existing);

}  // namespace tenwinters
