#include "criteria.h"

#include <iterator>

#include "tenwinters/decide.h"

namespace tenwinters {
namespace {

// --- harvest: good crops in the first ten years -------------------------------------------------

bool bears_alone(const Tree& tree, const Yard& yard) {
  return tree.cultivar->traits.sets_fruit.is != SetsFruit::partner_needed || has_partner(yard);
}

// In a container the stock hardly shows.
double crop_size(const Tree& tree, const Yard& yard) {
  return yard.container_l > 0 ? 1 : worth(tree, CurveId::crop_by_size, tree.stock->size_share.best);
}

double harvest_value(const Tree& tree, const Yard& yard, const Prospect& prospect) {
  return worth(tree, CurveId::good_harvests, prospect.good_harvests.best) * crop_size(tree, yard) *
         (bears_alone(tree, yard) ? 1 : worth(tree, CurveId::crop_alone, 0));
}

Reason harvest_reason(const Tree& tree, const Yard& yard, const Prospect& prospect, bool) {
  return {bears_alone(tree, yard) ? "harvest_expected" : "harvest_alone",
          {arg("n", ArgKind::count, to_tenth(prospect.good_harvests.best)), arg("years", ArgKind::years, 10)}};
}

// --- taste --------------------------------------------------------------------------------------

double taste_match(const Tree& tree, const Yard& yard) {
  const Taste taste = tree.cultivar->traits.taste.is;
  switch (yard.taste) {
    case TasteWish::sweet: return worth(tree, CurveId::taste_sweet, taste);
    case TasteWish::sweet_tart: return worth(tree, CurveId::taste_sweet_tart, taste);
    case TasteWish::sour: return worth(tree, CurveId::taste_sour, taste);
    case TasteWish::any: break;
  }
  return 1;
}

double taste_value(const Tree& tree, const Yard& yard, const Prospect&) {
  return taste_match(tree, yard) * worth(tree, CurveId::fruit_on_stock, tree.stock->fruit_quality.is);
}

Reason taste_reason(const Tree& tree, const Yard& yard, const Prospect&, bool open) {
  Reason reason{"taste_is", {word_arg("taste", "taste", tree.cultivar->traits.taste.is)}};
  if (open || yard.taste == TasteWish::any) return reason;
  const double match = taste_match(tree, yard);
  reason.id = match >= 1 ? "taste_as_wished" : match >= 0.5 ? "taste_near" : "taste_other";
  if (match < 1) reason.args.push_back(word_arg("wish", "taste_wish", yard.taste));
  return reason;
}

// --- use ----------------------------------------------------------------------------------------

double use_value(const Tree& tree, const Yard& yard, const Prospect&) { return use_match(tree, yard); }

Reason use_reason(const Tree& tree, const Yard& yard, const Prospect& prospect, bool open) {
  if (open) return {"use_many", {arg("n", ArgKind::count, static_cast<double>(tree.cultivar->traits.uses.are.size()))}};
  const double value = use_value(tree, yard, prospect);
  return {value >= 1 ? "use_fits" : value >= 0.4 ? "use_partly" : "use_other", {word_arg("use", "use", yard.use)}};
}

// --- seeds --------------------------------------------------------------------------------------

double seeds_value(const Tree& tree, const Yard& yard, const Prospect&) {
  const double seeds = seeds_here(tree, yard);
  switch (yard.seeds) {
    case SeedWish::none: return worth(tree, CurveId::seeds_none, seeds);
    case SeedWish::few: return worth(tree, CurveId::seeds_few, seeds);
    case SeedWish::any: break;
  }
  return 1;
}

Reason seeds_reason(const Tree& tree, const Yard& yard, const Prospect&, bool) {
  const double seeds = seeds_here(tree, yard);
  if (seeds < 1) return {"seeds_none", {}};
  return {"seeds_count", {arg("n", ArgKind::count, to_tenth(seeds))}};
}

// --- season -------------------------------------------------------------------------------------

int months_shared(const Window& ripe, SeasonWish season, bool or_beside) {
  // autumn 9-11, winter 12-2, spring 3-5, summer 6-8
  static constexpr int kFirst[] = {0, 9, 12, 3, 6};
  const int first = kFirst[static_cast<std::size_t>(season)];
  int shared = 0;
  for (int step = or_beside ? -1 : 0; step < (or_beside ? 4 : 3); ++step)
    if (ripe.contains((first + step + 11) % 12 + 1)) ++shared;
  return shared;
}

double season_value(const Tree& tree, const Yard& yard, const Prospect& prospect) {
  if (prospect.ripe_from_month == 0) return 0;
  if (yard.season == SeasonWish::any) return 1;
  const Window ripe{prospect.ripe_from_month, prospect.ripe_to_month, {}};
  const int shared = months_shared(ripe, yard.season, false);
  const int step = shared > 0 ? std::min(shared, 2) + 1 : months_shared(ripe, yard.season, true) > 0 ? 1 : 0;
  return worth(tree, CurveId::season, step);
}

Reason season_reason(const Tree& tree, const Yard& yard, const Prospect& prospect, bool open) {
  if (prospect.ripe_from_month == 0) return {"season_never", {}};
  const double value = season_value(tree, yard, prospect);
  const char* id = open || yard.season == SeasonWish::any ? "season_is" : value >= 0.8 ? "season_fits" : value > 0 ? "season_near" : "season_other";
  return {id, {months_arg(prospect)}};
}

// --- room: a place for crown and roots ----------------------------------------------------------

double room_value(const Tree& tree, const Yard& yard, const Prospect&) {
  double value = worth(tree, CurveId::room_by_crown, yard.room_m / std::max(full_spread_m(tree, yard), 0.1)) *
                 worth(tree, CurveId::ground, ground_fitness(*tree.stock, yard));
  if (yard.container_l > 0) value *= worth(tree, CurveId::container, tree.cultivar->traits.container.is);
  return value;
}

Reason room_reason(const Tree& tree, const Yard& yard, const Prospect&, bool open) {
  const double spread = full_spread_m(tree, yard);
  if (open) return {"room_spread", {arg("spread", ArgKind::metres, spread)}};
  if (yard.container_l > 0) {
    const bool poor = tree.cultivar->traits.container.is == Fitness::poor;
    return {poor ? "room_poor_container" : "room_container", {arg("litres", ArgKind::litres, yard.container_l)}};
  }
  if (spread > yard.room_m) return {"room_prune", {arg("spread", ArgKind::metres, spread), arg("room", ArgKind::metres, yard.room_m)}};
  if (ground_fitness(*tree.stock, yard) != Fitness::good && yard.soil != Soil::acid_or_neutral)
    return {"room_poor_soil", {word_arg("soil", "soil", yard.soil)}};
  return {"room_fits", {arg("spread", ArgKind::metres, spread), arg("room", ArgKind::metres, yard.room_m)}};
}

// --- work ---------------------------------------------------------------------------------------

double work_value(const Tree& tree, const Yard&, const Prospect& prospect) {
  return worth(tree, CurveId::work_nights, prospect.work_nights.best);
}

Reason work_reason(const Tree&, const Yard&, const Prospect& prospect, bool) {
  const double nights = to_tenth(prospect.work_nights.best);
  if (nights < 0.1) return {"work_none", {}};
  return {"work_nights", {arg("n", ArgKind::count, nights)}};
}

// --- thorns -------------------------------------------------------------------------------------

double thorns_value(const Tree& tree, const Yard& yard, const Prospect&) {
  return worth(tree, yard.avoid_thorns ? CurveId::thorns_avoided : CurveId::thorns_minded, tree.cultivar->traits.thorns.is);
}

Reason thorns_reason(const Tree& tree, const Yard&, const Prospect&, bool) {
  return {"thorns_are", {word_arg("thorns", "thorns", tree.cultivar->traits.thorns.is)}};
}

// --- ornament -----------------------------------------------------------------------------------

double ornament_value(const Tree& tree, const Yard&, const Prospect&) {
  return worth(tree, CurveId::ornament, tree.cultivar->traits.ornamental.is);
}

Reason ornament_reason(const Tree& tree, const Yard&, const Prospect&, bool) {
  return {"ornament_is", {word_arg("ornament", "ornament", tree.cultivar->traits.ornamental.is)}};
}

// The swing that a criterion is part of; balanced: none.
Priority swing_of(std::string_view criterion) {
  if (criterion == "harvest") return Priority::harvest;
  if (criterion == "taste" || criterion == "use" || criterion == "seeds" || criterion == "season") return Priority::eating;
  return criterion == "work" ? Priority::little_work : Priority::balanced;
}

constexpr CriterionRule kRules[] = {
    {"harvest", kWinterReads | reads({Variable::company}), true, false, harvest_value, harvest_reason},
    {"taste", reads({Variable::taste}), false, false, taste_value, taste_reason},
    {"use", reads({Variable::use}), false, false, use_value, use_reason},
    {"seeds", reads({Variable::seeds, Variable::company}), false, true, seeds_value, seeds_reason},
    {"season", reads({Variable::season}), false, false, season_value, season_reason},
    {"room", reads({Variable::room_m, Variable::container_l, Variable::soil, Variable::drainage}), false, true, room_value, room_reason},
    {"work", kWinterReads, true, false, work_value, work_reason},
    {"thorns", reads({Variable::avoid_thorns}), false, false, thorns_value, thorns_reason},
    {"ornament", 0, false, false, ornament_value, ornament_reason},
};
static_assert(std::size(kRules) == std::size(kCriteria));

}  // namespace

std::span<const CriterionRule> criterion_rules() { return kRules; }

std::vector<double> stated_weights(const std::vector<Criterion>& criteria, Priority most) {
  std::vector<double> weights;
  std::vector<Priority> swings;
  double sum = 0, total[4] = {};  // total: of each swing; balanced stands for none
  for (const Criterion& criterion : criteria) {
    weights.push_back(criterion.weight);
    swings.push_back(swing_of(criterion.id));
    sum += criterion.weight;
    total[static_cast<std::size_t>(swings.back())] += criterion.weight;
  }
  if (sum <= 0) return weights;
  for (double& weight : weights) weight = weight * 100 / sum;
  const auto of = [&](Priority swing) { return total[static_cast<std::size_t>(swing)]; };
  const Priority stated[] = {Priority::harvest, Priority::eating, Priority::little_work};
  // A swing that no criterion has can neither be named nor share.
  if (most == Priority::balanced || std::any_of(std::begin(stated), std::end(stated), [&](Priority swing) { return of(swing) <= 0; })) return weights;
  const std::vector<double> centroid = rank_order_centroid_weights(std::size(stated));
  const double named = centroid[0], other = (centroid[1] + centroid[2]) / 2;
  const double swung = (of(stated[0]) + of(stated[1]) + of(stated[2])) * 100 / sum;
  for (std::size_t c = 0; c < criteria.size(); ++c)
    if (swings[c] != Priority::balanced) weights[c] = swung * (swings[c] == most ? named : other) * criteria[c].weight / of(swings[c]);
  return weights;
}

}  // namespace tenwinters
