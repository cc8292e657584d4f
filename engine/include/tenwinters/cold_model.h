// The few constants of the cold model. Their values and evidence stand in catalog/cold_model.yaml;
// `tools/calibrate` shows what they make of every recorded freeze.
//
// Adding one: a line here, a line in for_each_constant, a line in the YAML file.
#pragma once

#include <string_view>

#include "tenwinters/fact.h"

namespace tenwinters {

struct ColdModel {
  // How injury grows with cold and hours: see injury() in cold.h.
  Fact dose_width_c;    // hours count from this far above the four-hour killing point
  Fact dose_power;      // steepness, a whole number 1..6
  // How a tree's state moves its killing points (leaf, wood, trunk), in degrees tenderer.
  Fact young_c;         // a tree in its first winter
  Fact grown_years;     // winter in which a tree is as hardy as a mature one; in between, evenly less
  Fact fair_health_c;
  Fact poor_health_c;
  Fact heavy_crop_c;
  // Roots in a pot, which the air chills.
  Fact root_c;          // air temperature at the root for four hours that kills half of the roots
  Fact small_pot_c;     // roots warmer than the air: pots up to kSmallPotLitres
  Fact large_pot_c;     // and from kLargePotLitres; lost after a day of unbroken frost
  // What a household does and what a hurt tree takes.
  Fact call_margin_c;   // work is called for when a night falls to within this of a killing point
  Fact regrowth_years;  // seasons without a crop after the wood is killed, a whole number 0..3
  Fact leaf_crop_share; // share of the next crop lost with all the leaves
  Fact heat_share;      // share of a cultivar's heat need that still makes a fair fruit
  Fact reach_m;         // tallest tree that a household can cover
  Fact full_height_years;  // years in which a tree in the ground reaches its full height
};

inline constexpr double kSmallPotLitres = 19;   // 5 US gallons
inline constexpr double kLargePotLitres = 57;   // 15 US gallons

// Calls visit(name, unit, lowest, highest, fact) for every constant, in the order of the file.
// Works on a const model too. Units are those of catalog/SCHEMA.md.
template <class Model, class Visit>
constexpr void for_each_constant(Model& model, Visit visit) {
  using std::string_view;
  visit(string_view("dose_width_c"), string_view("C"), 0.1, 10.0, model.dose_width_c);
  visit(string_view("dose_power"), string_view("power"), 1.0, 6.0, model.dose_power);
  visit(string_view("young_c"), string_view("C"), 0.0, 6.0, model.young_c);
  visit(string_view("grown_years"), string_view("years"), 2.0, 10.0, model.grown_years);
  visit(string_view("fair_health_c"), string_view("C"), 0.0, 5.0, model.fair_health_c);
  visit(string_view("poor_health_c"), string_view("C"), 0.0, 5.0, model.poor_health_c);
  visit(string_view("heavy_crop_c"), string_view("C"), 0.0, 3.0, model.heavy_crop_c);
  visit(string_view("root_c"), string_view("C"), -15.0, 0.0, model.root_c);
  visit(string_view("small_pot_c"), string_view("C"), 0.0, 8.0, model.small_pot_c);
  visit(string_view("large_pot_c"), string_view("C"), 0.0, 8.0, model.large_pot_c);
  visit(string_view("call_margin_c"), string_view("C"), 0.0, 5.0, model.call_margin_c);
  visit(string_view("regrowth_years"), string_view("years"), 0.0, 3.0, model.regrowth_years);
  visit(string_view("leaf_crop_share"), string_view("share"), 0.0, 1.0, model.leaf_crop_share);
  visit(string_view("heat_share"), string_view("share"), 0.0, 1.0, model.heat_share);
  visit(string_view("reach_m"), string_view("m"), 0.5, 10.0, model.reach_m);
  visit(string_view("full_height_years"), string_view("years"), 1.0, 40.0, model.full_height_years);
}

}  // namespace tenwinters
