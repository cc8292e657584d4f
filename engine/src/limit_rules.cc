#include "limit_rules.h"

namespace tenwinters {
namespace {

constexpr double kBestSunHours = 8;      // common practice
constexpr double kLeastSunHours = 6;     // common practice: below it no crop worth the name
constexpr double kLeastAlive = 0.5;      // an even chance of being alive after ten winters
constexpr double kLeastHarvests = 2;     // good harvests in ten years
constexpr double kSeedyOver = 2;         // seeds a fruit: above it a packing house calls fruit seedy
constexpr int kFewWinters = 15;

bool rule_passes(const Tree& tree, const Yard&, const Prospect&) { return tree.forbidden_by == nullptr; }
Reason rule_reason(const Tree& tree, const Yard&, const Prospect&) {
  return {"rule_forbids", {arg("rule", ArgKind::text, tree.forbidden_by->id), arg("citation", ArgKind::text, tree.forbidden_by->citation)}};
}

double least_room_m(const Tree& tree, const Yard& yard) { return full_spread_m(tree, yard) * kPrunedShare; }
bool room_passes(const Tree& tree, const Yard& yard, const Prospect&) { return least_room_m(tree, yard) <= yard.room_m; }
Reason room_reason(const Tree& tree, const Yard& yard, const Prospect&) {
  return {"room_narrow", {arg("need", ArgKind::metres, least_room_m(tree, yard)), arg("room", ArgKind::metres, yard.room_m)}};
}

bool thorns_pass(const Tree& tree, const Yard& yard, const Prospect&) {
  return !yard.avoid_thorns || tree.cultivar->traits.thorns.is != Thorns::many;
}
Reason thorns_reason(const Tree&, const Yard&, const Prospect&) { return {"thorns_many", {}}; }

bool medicine_passes(const Tree& tree, const Yard& yard, const Prospect&) {
  return !yard.avoid_medicine_fruit || !contains(tree.cultivar->traits.hazards.are, Hazard::furanocoumarins);
}
Reason medicine_reason(const Tree&, const Yard&, const Prospect&) { return {"medicine_fruit", {}}; }

// Wished for and of no use at all: no number of good crops makes up for that.
bool use_passes(const Tree& tree, const Yard& yard, const Prospect&) { return use_match(tree, yard) > 0; }
Reason use_limit_reason(const Tree&, const Yard& yard, const Prospect&) { return {"use_none", {word_arg("use", "use", yard.use)}}; }

bool seeds_pass(const Tree& tree, const Yard& yard, const Prospect&) {
  return yard.seeds != SeedWish::none || seeds_here(tree, yard) <= kSeedyOver;
}
Reason seeds_reason(const Tree& tree, const Yard& yard, const Prospect&) {
  const bool by_pollen = has_partner(yard) && tree.cultivar->traits.seeds_alone.best <= kSeedyOver;
  return {by_pollen ? "seeds_many_pollen" : "seeds_many", {arg("n", ArgKind::count, to_tenth(seeds_here(tree, yard)))}};
}

bool soil_passes(const Tree& tree, const Yard& yard, const Prospect&) {
  Yard drained = yard;  // slow ground alone is a note, not a no
  drained.drainage = Drainage::good;
  return ground_fitness(*tree.stock, drained) != Fitness::poor;
}
Reason soil_reason(const Tree& tree, const Yard& yard, const Prospect&) {
  return {"soil_unfit", {word_arg("soil", "soil", yard.soil), arg("rootstock", ArgKind::rootstock, tree.stock->id)}};
}

bool stock_passes(const Tree& tree, const Yard&, const Prospect&) { return tree.stock_fits; }
Reason stock_reason(const Tree&, const Yard&, const Prospect&) { return {"stock_none", {}}; }

bool cold_passes(const Tree&, const Yard&, const Prospect& prospect) { return lives(prospect); }
Reason cold_reason(const Tree& tree, const Yard&, const Prospect& prospect) {
  const Arg place = arg("place", ArgKind::place, tree.setting->place.id);
  if (tree.setting->place.winters.winters.empty()) return {"cold_no_record", {place}};
  if (prospect.alive_at_ten.best < kLeastAlive) return {"cold_tree", {arg("chance", ArgKind::percent, prospect.alive_at_ten.best * 100), place}};
  if (prospect.ripe_from_month == 0) return {"never_ripens", {place}};
  return {"cold_fruit", {arg("n", ArgKind::count, to_tenth(prospect.good_harvests.best)), place}};
}

constexpr LimitRule kRules[] = {
    {"rule", 0, false, false, false, rule_passes, rule_reason},
    {"cold", kWinterReads, true, false, false, cold_passes, cold_reason},
    {"stock", 0, false, false, false, stock_passes, stock_reason},
    {"soil", reads({Variable::soil, Variable::container_l}), false, true, false, soil_passes, soil_reason},
    {"room", reads({Variable::room_m, Variable::container_l}), false, true, true, room_passes, room_reason},
    {"medicine", reads({Variable::avoid_medicine_fruit}), false, false, false, medicine_passes, medicine_reason},
    {"thorns", reads({Variable::avoid_thorns}), false, false, false, thorns_pass, thorns_reason},
    {"use", reads({Variable::use}), false, false, false, use_passes, use_limit_reason},
    {"seeds", reads({Variable::seeds, Variable::company}), false, false, true, seeds_pass, seeds_reason},
};

bool sun_passes(const Yard& yard) { return yard.sun_hours >= kBestSunHours; }
bool drainage_passes(const Yard& yard) { return yard.drainage != Drainage::standing || yard.container_l > 0; }
Reason sun_reason(const Yard& yard) {
  return {yard.sun_hours < kLeastSunHours ? "sun_far_short" : "sun_short",
          {arg("hours", ArgKind::hours, yard.sun_hours), arg("need", ArgKind::hours, kBestSunHours)}};
}
Reason drainage_reason(const Yard&) { return {"drainage_standing", {}}; }

void settle_spot(const Interview& interview, std::string_view id, Reads what, bool (*passes)(const Yard&), Reason (*reason)(const Yard&),
                 std::vector<Limit>& out) {
  double chance = 0;
  bool all_pass = true, all_fail = true;
  Reason why;
  for (const Case& one : interview.cases(what)) {
    if (passes(one.yard)) {
      chance += one.share;
      all_fail = false;
    } else {
      if (all_pass) why = reason(one.yard);
      all_pass = false;
    }
  }
  if (!all_pass) out.push_back(settle(id, chance, all_pass, all_fail, interview.first_open(what), std::move(why)));
}

}  // namespace

std::span<const LimitRule> limit_rules() { return kRules; }

bool lives(const Prospect& prospect) {
  return prospect.alive_at_ten.best >= kLeastAlive && prospect.good_harvests.best >= kLeastHarvests && prospect.ripe_from_month != 0;
}

const LocalRule* forbidding(const Office& office, std::string_view id) {
  for (const LocalRule& rule : office.rules)
    if (contains(rule.forbids, id)) return &rule;
  return nullptr;
}

Limit settle(std::string_view id, double chance, bool all_pass, bool all_fail, std::string_view open_question, Reason why) {
  if (all_pass) return {std::string(id), Verdict::pass, 1, {}};
  if (all_fail) return {std::string(id), Verdict::fail, 0, std::move(why)};
  return {std::string(id), Verdict::unknown, chance,
          {"find_out", {arg("question", ArgKind::question, open_question), arg("chance", ArgKind::percent, chance * 100)}}};
}

bool spot_fails(const Yard& yard) { return !sun_passes(yard) || !drainage_passes(yard); }

std::vector<Limit> yard_limits(const Interview& interview) {
  std::vector<Limit> limits;
  settle_spot(interview, "sun", reads({Variable::sun_hours}), sun_passes, sun_reason, limits);
  settle_spot(interview, "drainage", reads({Variable::drainage, Variable::container_l}), drainage_passes, drainage_reason, limits);
  return limits;
}

std::vector<Reason> yard_notes(const Interview& interview, const Place& place) {
  std::vector<Reason> notes;
  const Reads ground = reads({Variable::drainage, Variable::soil, Variable::container_l, Variable::spot});
  // Notes are for what is known: a spot whose ground is still an open question is asked about instead.
  if (interview.first_open(ground & ~reads({Variable::spot, Variable::soil})).empty()) {
    const Yard yard = interview.likeliest();
    if (yard.drainage == Drainage::slow && yard.container_l <= 0) notes.push_back({"drainage_slow", {}});
    if (yard.drainage == Drainage::standing && yard.container_l > 0) notes.push_back({"drainage_container", {}});
  }
  if (interview.first_open(ground & ~reads({Variable::spot, Variable::drainage})).empty()) {
    const Yard yard = interview.likeliest();
    if (yard.soil != Soil::acid_or_neutral) {
      if (yard.container_l > 0) notes.push_back({"soil_in_container", {}});
      else notes.push_back({yard.soil == Soil::limy ? "soil_limy" : "soil_salty", {}});
    }
  }
  if (interview.first_open(reads({Variable::spot})).empty()) {
    const Spot spot = interview.likeliest().spot;
    if (spot == Spot::low_pocket) notes.push_back({"low_pocket", {}});
    if (spot == Spot::under_canopy) notes.push_back({"under_canopy", {}});
  }
  const std::size_t winters = place.winters.winters.size();
  if (winters > 0 && winters < kFewWinters) notes.push_back({"winters_few", {arg("n", ArgKind::count, static_cast<double>(winters))}});
  return notes;
}

}  // namespace tenwinters
