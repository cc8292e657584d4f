// How hardened trees are taken to be after common kinds of weather, 0..1; see the rates of HardeningModel in climate.h.
#pragma once

#include <string_view>

namespace tenwinters {

struct Before {
  std::string_view id;
  double hardening;
};
inline constexpr double kAfterMild = 0.3, kAfterGradual = 0.9, kAfterSudden = 0.05;
inline constexpr Before kBefore[] = {{"mild", kAfterMild}, {"gradual", kAfterGradual}, {"sudden", kAfterSudden}};

}  // namespace tenwinters
