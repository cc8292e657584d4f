// A small catalogue, office and record built in code: round numbers, nobody's facts.
#pragma once

#include <string>
#include <vector>

#include "tenwinters/advise.h"
#include "tenwinters/catalog.h"
#include "tenwinters/office.h"

namespace tenwinters::testing {

inline Fact fact(double best) { return {best, best, best, {}}; }

// Leaf, wood, trunk: killed at `hardy`, two and four degrees below; half as hardy when not hardened.
inline Traits small_traits(double hardy_c) {
  Traits t;
  const double below[] = {0, -2, -4};
  for (std::size_t k = 0; k < 3; ++k) t.cold[k] = {fact(hardy_c + below[k]), fact((hardy_c + below[k]) / 2)};
  t.cold[static_cast<std::size_t>(Tissue::fruit)] = {fact(-3), fact(-3)};
  t.cold[static_cast<std::size_t>(Tissue::bloom)] = {fact(-2), fact(-2)};
  t.bloom = {3, 4, {}};
  t.ripening = {{Region::gulf, {10, 12, {}}}};
  t.heat_need.is = Heat::medium;
  t.heat_units_c = fact(1500);
  t.sets_fruit.is = SetsFruit::own_pollen;
  t.pollen.is = PollenWorth::good;
  t.seeds_alone = fact(1);
  t.seeds_with_pollen = fact(1);
  t.height_m = fact(4);
  t.spread_m = fact(4);
  t.thorns.is = Thorns::few;
  t.bearing_age_years = fact(3);
  t.container.is = Fitness::good;
  t.taste.is = Taste::sweet;
  t.uses.are = {Use::fresh};
  t.ornamental.is = Ornament::medium;
  t.greening.is = t.canker.is = t.scab.is = Tolerance::moderate;
  return t;
}

inline Cultivar small_cultivar(const std::string& id, double hardy_c) {
  Cultivar cultivar;
  cultivar.id = id;
  cultivar.name = id;
  cultivar.type = "kind";
  cultivar.traits = small_traits(hardy_c);
  return cultivar;
}

inline Rootstock small_stock(const std::string& id, double cold_gain_c, double size_share, Fitness lime) {
  Rootstock stock;
  stock.id = stock.name = id;
  stock.cold_gain_c = fact(cold_gain_c);
  stock.size_share = fact(size_share);
  stock.lime.is = lime;
  stock.salt.is = stock.wet.is = stock.foot_rot.is = stock.fruit_quality.is = stock.tristeza.is = Fitness::good;
  return stock;
}

inline Question small_question(const std::string& id, std::vector<Answer> answers) { return {id, std::move(answers), "", {}, {}}; }

// Cultivars "brave", "mild" and "tender"; stocks "acid_stock" (hardy) and "lime_stock".
inline Catalog small_catalog() {
  Catalog catalog;
  CitrusType kind;
  kind.id = "kind";
  kind.traits = small_traits(-8);
  catalog.types = {kind};
  catalog.cultivars = {small_cultivar("brave", -9), small_cultivar("mild", -6), small_cultivar("tender", -2)};
  catalog.rootstocks = {small_stock("acid_stock", 1, 1, Fitness::poor), small_stock("lime_stock", 0, 1, Fitness::good)};
  for (std::size_t i = 0; i < names_of<Spot>().size(); ++i) catalog.microclimates.push_back({static_cast<Spot>(i), fact(0)});
  Protection carry, cover, none;
  carry.id = "carry_in";
  carry.gain_c = carry.windy_gain_c = fact(12);
  carry.covers.fill(true);
  carry.container_only = true;
  cover.id = "cover";
  cover.gain_c = fact(3);
  cover.windy_gain_c = fact(1);
  cover.covers.fill(true);
  cover.cautions = {"b_cover"};
  none.id = "none";
  catalog.protections = {carry, cover, none};
  catalog.cautions = {{"a_medicine", Severity::high, {Situation::medicine}, "pharmacist", {}},
                      {"b_cover", Severity::low, {}, "label", {}},
                      {"c_pets", Severity::medium, {Situation::pets}, "veterinarian", {}}};
  catalog.questions = {
      small_question("sun", {{"full", 0.6, {{Variable::sun_hours, "9"}}}, {"part", 0.4, {{Variable::sun_hours, "6.5"}}}}),
      small_question("planting", {{"ground", 0.75, {{Variable::container_l, "0"}}}, {"pot", 0.25, {{Variable::container_l, "57"}}}}),
      small_question("indoors", {{"in", 0.6, {{Variable::moves_indoors, "true"}}}, {"out", 0.4, {{Variable::moves_indoors, "false"}}}}),
      small_question("soil", {{"acid", 0.8, {{Variable::soil, "acid_or_neutral"}}}, {"limy", 0.2, {{Variable::soil, "limy"}}}}),
      small_question("room", {{"wide", 0.5, {{Variable::room_m, "6"}}}, {"narrow", 0.5, {{Variable::room_m, "1"}}}}),
      small_question("work", {{"none", 0.5, {{Variable::work_nights, "0"}}}, {"some", 0.5, {{Variable::work_nights, "5"}}}}),
      small_question("taste", {{"sweet", 0.5, {{Variable::taste, "sweet"}}}, {"sour", 0.5, {{Variable::taste, "sour"}}}}),
      small_question("priority", {{"balanced", 0.5, {{Variable::priority, "balanced"}}}, {"little_work", 0.5, {{Variable::priority, "little_work"}}}}),
  };
  catalog.questions[2].asked_if_question = "planting";
  catalog.questions[2].asked_if_answers = {"pot"};
  for (std::string_view id : kCriteria) catalog.criteria.push_back({std::string(id), id == "harvest" ? 40 : id == "taste" ? 18 : 6});
  catalog.curves = {{  // in the order of CurveId
                    {{{0, 0}, {2, 0.2}, {5, 0.65}, {8, 1}}},
                    {{{0.3, 0.8}, {1, 1}}},
                    {{{0, 0.4}}},
                    {{{0, 1}, {1, 0.65}, {2, 0.15}, {3, 0}}},
                    {{{0, 0.65}, {1, 1}, {2, 0.6}, {3, 0.15}}},
                    {{{0, 0}, {1, 0.2}, {2, 0.8}, {3, 1}}},
                    {{{0, 0.85}, {1, 0.95}, {2, 1}}},
                    {{{0, 0}, {1, 0.4}, {2, 1}}},
                    {{{0, 0.2}, {1, 0.6}, {2, 1}}},
                    {{{0, 1}, {2, 0.8}, {6, 0.25}, {15, 0}}},
                    {{{2, 1}, {6, 0.75}, {12, 0.3}, {25, 0}}},
                    {{{0, 0}, {1, 0.4}, {2, 0.8}, {3, 1}}},
                    {{{0.5, 0.35}, {1, 1}}},
                    {{{0, 0.4}, {1, 0.85}, {2, 1}}},
                    {{{0, 0.3}, {1, 0.8}, {2, 1}}},
                    {{{0, 1}, {3, 0.65}, {10, 0.25}, {25, 0}}},
                    {{{0, 1}, {1, 0.75}, {2, 0.3}, {3, 0}}},
                    {{{0, 1}, {1, 0.97}, {2, 0.9}, {3, 0.8}}},
                    {{{0, 0.3}, {1, 0.65}, {2, 1}}}}};
  ColdModel& m = catalog.cold_model;
  m.dose_width_c = fact(1);
  m.dose_power = fact(3);
  m.young_c = fact(1.5);
  m.grown_years = fact(4);
  m.fair_health_c = fact(0.5);
  m.poor_health_c = fact(1.5);
  m.heavy_crop_c = fact(0.5);
  m.root_c = fact(-6);
  m.small_pot_c = fact(0.5);
  m.large_pot_c = fact(2);
  m.call_margin_c = fact(1);
  m.regrowth_years = fact(2);
  m.leaf_crop_share = fact(0.5);
  m.heat_share = fact(0.8);
  m.reach_m = fact(3);
  m.full_height_years = fact(10);
  return catalog;
}

// Twenty winters, each with one spell of six hours on 10 January whose lowest reading falls from
// -1 C in the mildest by a quarter of a degree a winter.
inline Winters small_winters() {
  Winters winters;
  winters.station = "invented";
  winters.invented = true;
  winters.latitude_deg = 30;
  for (int i = 0; i < 20; ++i) {
    Winter winter;
    winter.year = 2001 + i;
    winter.lowest_tenths_c = -10 - i * 5 / 2;
    winter.first_freeze_day = winter.last_freeze_day = 193;
    winter.heat_units.fill(200);
    Spell spell;
    spell.day = 193;
    spell.start_hour = 2;
    spell.hardening_permille = 800;
    spell.tenths_c.assign(6, static_cast<std::int16_t>(winter.lowest_tenths_c));
    winter.spells = {spell};
    winters.winters.push_back(winter);
  }
  return winters;
}

inline Office small_office() {
  Office office;
  office.id = "small";
  office.invented = true;
  office.languages = {"en"};
  Place place;
  place.id = "here";
  place.region = Region::gulf;
  place.share = 1;
  place.winters = small_winters();
  office.places = {place};
  return office;
}

inline Advice small_advice(const Catalog& catalog, const Office& office, const Answers& answers) {
  return advise(catalog, office, office.places[0], answers);
}

inline const Candidate* find_candidate(const Advice& advice, std::string_view id) {
  for (const Candidate& candidate : advice.candidates)
    if (candidate.cultivar == id) return &candidate;
  return nullptr;
}
inline const Limit* find_limit(const std::vector<Limit>& limits, std::string_view id) {
  for (const Limit& limit : limits)
    if (limit.id == id) return &limit;
  return nullptr;
}
inline bool has_note(const std::vector<Reason>& notes, std::string_view id) {
  for (const Reason& note : notes)
    if (note.id == id) return true;
  return false;
}

}  // namespace tenwinters::testing
