// The ten years of one tree, hour by hour and as plainly as can be: the twin of the engine's replay.
// Written from engine/include/tenwinters/{cold,prospect}.h alone. Slow on purpose.
#pragma once

#include <array>

#include "tenwinters/prospect.h"

namespace tenwinters::slow {

// Alive at ten, good harvests, work nights, crops lost.
using Figures = std::array<double, 4>;

[[nodiscard]] Figures ten_years(const Planting& planting, const Winters& winters, const ColdModel& model, Lean lean);

// What records that lack one winter each lead to: 1.645 standard errors about the best. Sums are taken
// afresh for each, so equal to the engine's only but for rounding.
struct Span {
  Figures low{}, high{};
};
[[nodiscard]] Span left_out_once(const Planting& planting, const Winters& winters, const ColdModel& model);

}  // namespace tenwinters::slow
