// One tree in one night, for tests: the air held at one temperature for so many hours.
#pragma once

#include <cmath>

#include "tenwinters/night.h"
#include "tenwinters/units.h"

namespace tenwinters::testing {

struct OneNight {
  double air_c = 0;
  int hours = 4;
  double hardening = 0.5;
  bool windy = false;
};

inline NightAir air_of(const OneNight& night) {
  NightAir air;
  air.hardening_permille = static_cast<int>(night.hardening * 1000 + 0.5);
  air.windy = night.windy;
  air.start_hour = 22;
  air.tenths_c.assign(static_cast<std::size_t>(night.hours), static_cast<std::int16_t>(to_tenths(night.air_c)));
  return air;
}

inline NightTree tree_of(const Traits& traits) {
  NightTree tree;
  tree.traits = &traits;
  return tree;
}

inline NightResult lived_through(const NightTree& tree, const OneNight& night, const Catalog& catalog) {
  return tenwinters::night(air_of(night), {&tree, 1}, catalog).trees.front();
}

inline double killed(const NightTree& tree, Tissue tissue, const OneNight& night, const Catalog& catalog) {
  return lived_through(tree, night, catalog).injury[static_cast<std::size_t>(tissue)].best;
}

// The coldest four hours, in whole tenths of a degree C, that cost at most this share of the tissue.
inline double bears_to_c(const NightTree& tree, Tissue tissue, double share, double hardening, const Catalog& catalog) {
  for (int tenths = 20; tenths > -400; --tenths)
    if (killed(tree, tissue, {tenths / 10.0, 4, hardening, false}, catalog) > share) return (tenths + 1) / 10.0;
  return -40;
}

inline double f(double fahrenheit) { return to_celsius(Fahrenheit{fahrenheit}).degrees; }
inline double in_f(double celsius) { return to_fahrenheit(Celsius{celsius}).degrees; }

}  // namespace tenwinters::testing
