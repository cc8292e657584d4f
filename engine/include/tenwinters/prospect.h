// The seam between the choice and the cold: what a place's winters do to one tree.
#pragma once

#include "tenwinters/advise.h"
#include "tenwinters/catalog.h"
#include "tenwinters/winters.h"

namespace tenwinters {

// One tree in one spot, cared for in one way.
struct Planting {
  const Cultivar* cultivar = nullptr;
  const Rootstock* rootstock = nullptr;     // never null
  const Protection* protection = nullptr;   // never null; used on at most `work_nights` a winter
  double warmer_c = 0;                      // microclimate, still night
  double container_l = 0;                   // 0 = in the ground
  bool moves_indoors = false;
  double work_nights = 0;
  Region region = Region::other;
};

[[nodiscard]] Prospect prospect(const Planting& planting, const Winters& winters);

}  // namespace tenwinters
