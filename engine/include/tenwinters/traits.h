// Every trait by its key, with unit and range: the one list that the loader, the JSON Schemas and the
// sensitivity of rankings go through.
//
//   for_each_trait(traits, Overloaded{...});   // called once a trait, in the order of the files:
//     visit("cold", std::array<TissueCold, kTissueCount>&)
//     visit("bloom", Window&)
//     visit("ripening", std::vector<Ripening>&)
//     visit("height_m", Fact&, "m", 0.3, 20.0)         unit, least, most
//     visit("habit", Choice<Habit>&)
//     visit("uses", Choices<Use>&, false)              may it be empty?
#pragma once

#include <string_view>

#include "tenwinters/catalog.h"

namespace tenwinters {

// Degrees Celsius: beyond these no citrus tissue is hurt or lives.
inline constexpr double kColdestTissue = -30, kWarmestTissue = 5;

template <class T, class Visit>  // T: Traits or const Traits
void for_each_trait(T& t, Visit&& visit) {
  using std::string_view;
  visit(string_view("cold"), t.cold);
  visit(string_view("bloom"), t.bloom);
  visit(string_view("ripening"), t.ripening);
  visit(string_view("holds_weeks"), t.holds_weeks, string_view("weeks"), 0.0, 52.0);
  visit(string_view("heat_need"), t.heat_need);
  visit(string_view("heat_units_c"), t.heat_units_c, string_view("C_days"), 200.0, 6000.0);
  visit(string_view("sets_fruit"), t.sets_fruit);
  visit(string_view("pollen"), t.pollen);
  visit(string_view("seeds_alone"), t.seeds_alone, string_view("seeds"), 0.0, 200.0);
  visit(string_view("seeds_with_pollen"), t.seeds_with_pollen, string_view("seeds"), 0.0, 200.0);
  visit(string_view("height_m"), t.height_m, string_view("m"), 0.3, 20.0);
  visit(string_view("spread_m"), t.spread_m, string_view("m"), 0.3, 20.0);
  visit(string_view("habit"), t.habit);
  visit(string_view("thorns"), t.thorns);
  visit(string_view("bearing_age_years"), t.bearing_age_years, string_view("years"), 1.0, 15.0);
  visit(string_view("alternation"), t.alternation);
  visit(string_view("rebloom"), t.rebloom);
  visit(string_view("container"), t.container);
  visit(string_view("taste"), t.taste);
  visit(string_view("peel"), t.peel);
  visit(string_view("uses"), t.uses, false);
  visit(string_view("fruit_cm"), t.fruit_cm, string_view("cm"), 0.5, 30.0);
  visit(string_view("ornamental"), t.ornamental);
  visit(string_view("greening"), t.greening);
  visit(string_view("canker"), t.canker);
  visit(string_view("scab"), t.scab);
  visit(string_view("hazards"), t.hazards, true);
}

// Makes one visitor out of several lambdas.
template <class... F>
struct Overloaded : F... {
  using F::operator()...;
};
template <class... F>
Overloaded(F...) -> Overloaded<F...>;

}  // namespace tenwinters
