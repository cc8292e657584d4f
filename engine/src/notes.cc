#include "notes.h"

#include <tuple>

#include "limit_rules.h"
#include "order.h"

namespace tenwinters {
namespace {

constexpr double kFullSizeContainerL = 75.7;  // 20 US gallons; common practice
constexpr double kFullSizeHeightM = 2.4;      // taller than a person reaches: a full-size tree, picked from a ladder
constexpr double kHeavyContainerL = 38;       // 10 US gallons of wet mix weigh more than one person should lift
constexpr std::size_t kPartnersNamed = 3;

bool blooms_together(const Window& a, const Window& b) {
  for (int month = 1; month <= 12; ++month)
    if (a.contains(month) && b.contains(month)) return true;
  return false;
}

bool to_be_had(const Setting& setting, const Cultivar& cultivar) {
  const std::vector<std::string>& sold = setting.office.on_sale;
  return (sold.empty() || contains(sold, cultivar.id)) && forbidding(setting.office, cultivar.id) == nullptr &&
         forbidding(setting.office, cultivar.type) == nullptr;
}

bool may_partner(const Cultivar& tree, const Cultivar& other) {
  return other.id != tree.id && other.traits.pollen.is != PollenWorth::none && !contains(tree.not_partners, other.id) &&
         blooms_together(tree.traits.bloom, other.traits.bloom);
}

// Names of up to three partners: those known to serve, to be had first; else good pollen of another type.
std::string partner_names(const Tree& tree) {
  const Setting& setting = *tree.setting;
  std::vector<const Cultivar*> found;
  for (const bool sold : {true, false})
    for (const std::string& id : tree.cultivar->partners)
      if (const Cultivar* other = find_cultivar(setting.catalog, id);
          other != nullptr && may_partner(*tree.cultivar, *other) && to_be_had(setting, *other) == sold)
        found.push_back(other);
  if (found.empty())
    for (const Cultivar& other : setting.catalog.cultivars)
      if (other.type != tree.cultivar->type && other.traits.pollen.is == PollenWorth::good && to_be_had(setting, other) &&
          may_partner(*tree.cultivar, other))
        found.push_back(&other);
  std::string names;
  for (std::size_t i = 0; i < std::min(found.size(), kPartnersNamed); ++i) names += (i > 0 ? ", " : "") + found[i]->name;
  return names;
}

void pollen_notes(const Tree& tree, const Household& household, std::vector<Reason>& notes) {
  const Traits& traits = tree.cultivar->traits;
  const Yard& yard = household.likeliest;
  if (traits.sets_fruit.is == SetsFruit::partner_needed) {
    const std::string partners = partner_names(tree);
    std::string id = household.company_known && yard.company == Company::other_kind ? "partner_check" : "partner_needed";
    if (partners.empty()) notes.push_back({id + "_any", {}});
    else notes.push_back({id, {arg("partners", ArgKind::text, partners)}});
  } else if (traits.sets_fruit.is == SetsFruit::own_pollen && tree.type != nullptr &&
             tree.type->traits.sets_fruit.is == SetsFruit::partner_needed) {
    notes.push_back({"partner_helps", {arg("type", ArgKind::type, tree.type->id)}});
  }
  constexpr double kNoticed = 3;  // seeds a fruit more than alone
  if (household.company_known && has_partner(yard) && traits.seeds_with_pollen.best >= traits.seeds_alone.best + kNoticed)
    notes.push_back({"pollen_seeds", {arg("alone", ArgKind::count, to_tenth(traits.seeds_alone.best)),
                                      arg("n", ArgKind::count, to_tenth(traits.seeds_with_pollen.best))}});
}

void site_notes(const Tree& tree, const Household& household, std::vector<Reason>& notes) {
  const Traits& traits = tree.cultivar->traits;
  const Yard& yard = household.likeliest;
  const bool in_container = household.container_known && yard.container_l > 0;
  const bool in_ground = household.container_known && yard.container_l <= 0;
  if (in_container) {
    if (yard.container_l < kFullSizeContainerL && full_height_m(tree) >= kFullSizeHeightM)
      notes.push_back({"container_small", {arg("litres", ArgKind::litres, yard.container_l), arg("need", ArgKind::litres, kFullSizeContainerL)}});
    if (traits.container.is == Fitness::poor) notes.push_back({"container_poor", {}});
  }
  if (in_ground && household.soil_known && yard.soil != Soil::acid_or_neutral)
    notes.push_back({"stock_for_soil", {arg("rootstock", ArgKind::rootstock, tree.stock->id), word_arg("soil", "soil", yard.soil)}});
  if (in_ground && household.drainage_known && yard.drainage == Drainage::slow && tree.stock->wet.is == Fitness::good)
    notes.push_back({"stock_for_wet", {arg("rootstock", ArgKind::rootstock, tree.stock->id)}});
  constexpr double kDwarfing = 0.6;
  if (tree.stock->size_share.best <= kDwarfing)
    notes.push_back({"dwarfing_stock", {arg("rootstock", ArgKind::rootstock, tree.stock->id), arg("height", ArgKind::metres, full_height_m(tree))}});
  if (in_ground && household.room_known && full_spread_m(tree, yard) > yard.room_m)
    notes.push_back({"prune_to_room", {arg("spread", ArgKind::metres, full_spread_m(tree, yard)), arg("room", ArgKind::metres, yard.room_m)}});
}

void tree_habits(const Tree& tree, const Household& household, const Prospect& prospect, std::vector<Reason>& notes) {
  const Traits& traits = tree.cultivar->traits;
  notes.push_back({"first_crop", {arg("n", ArgKind::count, to_tenth(traits.bearing_age_years.best))}});
  if (to_tenth(prospect.crops_lost.best) >= 1)
    notes.push_back({"lost_crops", {arg("n", ArgKind::count, to_tenth(prospect.crops_lost.best))}});
  if (traits.alternation.is >= Alternation::moderate) notes.push_back({"alternate", {}});
  if (traits.heat_need.is == Heat::high) notes.push_back({"heat_high", {}});
  if (household.thorns_known && household.likeliest.avoid_thorns && traits.thorns.is == Thorns::some) notes.push_back({"thorns_some", {}});
  const std::pair<std::string_view, Tolerance> diseases[] = {
      {"canker", traits.canker.is}, {"greening", traits.greening.is}, {"scab", traits.scab.is}};
  for (const auto& [disease, tolerance] : diseases)
    if (tolerance == Tolerance::susceptible && contains(tree.setting->office.diseases_present, disease))
      notes.push_back({"disease", {arg("disease", ArgKind::word, "disease." + std::string(disease))}});
}

bool concerns(Situation situation, const Tree& tree, const Household& household) {
  const Traits& traits = tree.cultivar->traits;
  const auto hazard = [&](Hazard one) { return contains(traits.hazards.are, one); };
  const bool protects = tree.habit->id != "none";
  switch (situation) {
    case Situation::eats_fruit: return true;
    case Situation::medicine: return hazard(Hazard::furanocoumarins);
    case Situation::skin_and_sun: return hazard(Hazard::skin_and_sun) || hazard(Hazard::furanocoumarins);
    case Situation::pets: return household.may_pets;
    case Situation::thorny: return traits.thorns.is >= Thorns::some;
    case Situation::heavy_container: return household.may_heavy;
    case Situation::protects: return protects;
    // What a way through a freeze brings with it stands at that way, by caution id.
    case Situation::heat_source:
    case Situation::icing: return false;
    case Situation::ladder: return household.may_ground && full_height_m(tree) >= kFullSizeHeightM;
    case Situation::digs: return household.may_ground;
    case Situation::sprays: return true;
    case Situation::acid_fruit: return hazard(Hazard::acid_juice) || traits.taste.is == Taste::sour;
    case Situation::moves_plants: return true;
  }
  return true;
}

}  // namespace

Household describe(const Interview& interview) {
  const auto known = [&](Variable variable) { return interview.first_open(reads({variable})).empty(); };
  Household household;
  household.likeliest = interview.likeliest();
  household.company_known = known(Variable::company);
  household.container_known = known(Variable::container_l);
  household.room_known = known(Variable::room_m);
  household.soil_known = known(Variable::soil);
  household.drainage_known = known(Variable::drainage);
  household.thorns_known = known(Variable::avoid_thorns);
  for (const Case& one : interview.cases(reads({Variable::container_l}))) {
    household.may_ground = household.may_ground || one.yard.container_l <= 0;
    household.may_container = household.may_container || one.yard.container_l > 0;
    household.may_heavy = household.may_heavy || one.yard.container_l >= kHeavyContainerL;
  }
  for (const Case& one : interview.cases(reads({Variable::has_pets}))) household.may_pets = household.may_pets || one.yard.has_pets;
  return household;
}

std::vector<Reason> tree_notes(const Tree& tree, const Household& household, const Prospect& prospect) {
  std::vector<Reason> notes;
  pollen_notes(tree, household, notes);
  site_notes(tree, household, notes);
  tree_habits(tree, household, prospect, notes);
  return notes;
}

std::vector<std::string> tree_cautions(const Tree& tree, const Household& household) {
  std::vector<const Caution*> found;
  for (const Caution& caution : tree.setting->catalog.cautions) {
    bool wanted = contains(tree.habit->cautions, caution.id);
    for (Situation situation : caution.when) wanted = wanted || concerns(situation, tree, household);
    if (wanted) found.push_back(&caution);
  }
  put_in_order(found, [](const Caution* a, const Caution* b) {
    return std::tie(b->severity, a->id) < std::tie(a->severity, b->id);
  });
  std::vector<std::string> ids;
  for (const Caution* caution : found) ids.push_back(caution->id);
  return ids;
}

}  // namespace tenwinters
