#include "criteria.h"

namespace tenwinters {
namespace {

// --- harvest: good crops in the first ten years -------------------------------------------------

// Without pollen of another kind a tree that needs it bears lightly and not every year; our judgement.
constexpr double kAloneShare = 0.4;

bool bears_alone(const Tree& tree, const Yard& yard) {
  return tree.cultivar->traits.sets_fruit.is != SetsFruit::partner_needed || has_partner(yard);
}

// A good crop of a dwarf is a smaller one. In a container the stock hardly shows.
double crop_size(const Tree& tree, const Yard& yard) {
  static constexpr Knot kSize[] = {{0.3, 0.8}, {1, 1}};  // by size share; our judgement
  return yard.container_l > 0 ? 1 : piecewise(tree.stock->size_share.best, kSize);
}

double harvest_value(const Tree& tree, const Yard& yard, const Prospect& prospect) {
  // A tree bought at the usual age spends its first years growing, so eight of ten is all there is.
  static constexpr Knot kValue[] = {{0, 0}, {2, 0.2}, {5, 0.65}, {8, 1}};
  return piecewise(prospect.good_harvests.best, kValue) * crop_size(tree, yard) * (bears_alone(tree, yard) ? 1 : kAloneShare);
}

Reason harvest_reason(const Tree& tree, const Yard& yard, const Prospect& prospect, bool) {
  return {bears_alone(tree, yard) ? "harvest_expected" : "harvest_alone",
          {arg("n", ArgKind::count, to_tenth(prospect.good_harvests.best)), arg("years", ArgKind::years, 10)}};
}

// --- taste --------------------------------------------------------------------------------------

// Rows: wish sweet, sweet_tart, sour. Columns: fruit sweet, sweet_tart, tart, sour.
constexpr double kTasteMatch[3][4] = {{1, 0.65, 0.15, 0}, {0.65, 1, 0.6, 0.15}, {0, 0.2, 0.8, 1}};

double taste_match(const Tree& tree, const Yard& yard) {
  if (yard.taste == TasteWish::any) return 1;
  return kTasteMatch[static_cast<std::size_t>(yard.taste) - 1][static_cast<std::size_t>(tree.cultivar->traits.taste.is)];
}

double taste_value(const Tree& tree, const Yard& yard, const Prospect&) {
  static constexpr double kStockQuality[] = {0.85, 0.95, 1};  // by Fitness
  return taste_match(tree, yard) * kStockQuality[static_cast<std::size_t>(tree.stock->fruit_quality.is)];
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
  // Over two seeds a fruit a packing house calls it seedy; few means few enough to eat around.
  static constexpr Knot kNone[] = {{0, 1}, {2, 0.8}, {6, 0.25}, {15, 0}};
  static constexpr Knot kFew[] = {{2, 1}, {6, 0.75}, {12, 0.3}, {25, 0}};
  const double seeds = seeds_here(tree, yard);
  switch (yard.seeds) {
    case SeedWish::none: return piecewise(seeds, kNone);
    case SeedWish::few: return piecewise(seeds, kFew);
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

double season_value(const Tree&, const Yard& yard, const Prospect& prospect) {
  if (prospect.ripe_from_month == 0) return 0;
  if (yard.season == SeasonWish::any) return 1;
  const Window ripe{prospect.ripe_from_month, prospect.ripe_to_month, {}};
  const int shared = months_shared(ripe, yard.season, false);
  if (shared > 0) return shared > 1 ? 1 : 0.8;
  return months_shared(ripe, yard.season, true) > 0 ? 0.4 : 0;
}

Reason season_reason(const Tree& tree, const Yard& yard, const Prospect& prospect, bool open) {
  if (prospect.ripe_from_month == 0) return {"season_never", {}};
  const double value = season_value(tree, yard, prospect);
  const char* id = open || yard.season == SeasonWish::any ? "season_is" : value >= 0.8 ? "season_fits" : value > 0 ? "season_near" : "season_other";
  return {id, {months_arg(prospect)}};
}

// --- room: a place for crown and roots ----------------------------------------------------------

double room_value(const Tree& tree, const Yard& yard, const Prospect&) {
  static constexpr Knot kWidth[] = {{kPrunedShare, 0.35}, {1, 1}};  // room as a share of the full crown
  static constexpr double kGround[] = {0.4, 0.85, 1};               // by Fitness
  static constexpr double kContainer[] = {0.3, 0.8, 1};
  double value = piecewise(yard.room_m / std::max(full_spread_m(tree, yard), 0.1), kWidth) *
                 kGround[static_cast<std::size_t>(ground_fitness(*tree.stock, yard))];
  if (yard.container_l > 0) value *= kContainer[static_cast<std::size_t>(tree.cultivar->traits.container.is)];
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

double work_value(const Tree&, const Yard&, const Prospect& prospect) {
  static constexpr Knot kNights[] = {{0, 1}, {3, 0.65}, {10, 0.25}, {25, 0}};
  return piecewise(prospect.work_nights.best, kNights);
}

Reason work_reason(const Tree&, const Yard&, const Prospect& prospect, bool) {
  const double nights = to_tenth(prospect.work_nights.best);
  if (nights < 0.1) return {"work_none", {}};
  return {"work_nights", {arg("n", ArgKind::count, nights)}};
}

// --- thorns -------------------------------------------------------------------------------------

double thorns_value(const Tree& tree, const Yard& yard, const Prospect&) {
  static constexpr double kAvoid[] = {1, 0.75, 0.3, 0}, kMind[] = {1, 0.97, 0.9, 0.8};
  const std::size_t thorns = static_cast<std::size_t>(tree.cultivar->traits.thorns.is);
  return yard.avoid_thorns ? kAvoid[thorns] : kMind[thorns];
}

Reason thorns_reason(const Tree& tree, const Yard&, const Prospect&, bool) {
  return {"thorns_are", {word_arg("thorns", "thorns", tree.cultivar->traits.thorns.is)}};
}

// --- ornament -----------------------------------------------------------------------------------

double ornament_value(const Tree& tree, const Yard&, const Prospect&) {
  static constexpr double kWorth[] = {0.3, 0.65, 1};
  return kWorth[static_cast<std::size_t>(tree.cultivar->traits.ornamental.is)];
}

Reason ornament_reason(const Tree& tree, const Yard&, const Prospect&, bool) {
  return {"ornament_is", {word_arg("ornament", "ornament", tree.cultivar->traits.ornamental.is)}};
}

constexpr CriterionRule kRules[] = {
    {"harvest", kWinterReads | reads({Variable::company}), true, harvest_value, harvest_reason},
    {"taste", reads({Variable::taste}), false, taste_value, taste_reason},
    {"use", reads({Variable::use}), false, use_value, use_reason},
    {"seeds", reads({Variable::seeds, Variable::company}), false, seeds_value, seeds_reason},
    {"season", reads({Variable::season}), false, season_value, season_reason},
    {"room", reads({Variable::room_m, Variable::container_l, Variable::soil, Variable::drainage}), false, room_value, room_reason},
    {"work", kWinterReads, true, work_value, work_reason},
    {"thorns", reads({Variable::avoid_thorns}), false, thorns_value, thorns_reason},
    {"ornament", 0, false, ornament_value, ornament_reason},
};
static_assert(std::size(kRules) == std::size(kCriteria));

}  // namespace

std::span<const CriterionRule> criterion_rules() { return kRules; }

double tilt(Priority priority, std::string_view criterion) {
  switch (priority) {
    case Priority::balanced: return 1;
    case Priority::harvest: return criterion == "harvest" ? 2 : 1;
    case Priority::eating: return criterion == "taste" || criterion == "use" || criterion == "seeds" || criterion == "season" ? 2 : 1;
    case Priority::little_work: return criterion == "work" ? 4 : 1;
  }
  return 1;
}

}  // namespace tenwinters
