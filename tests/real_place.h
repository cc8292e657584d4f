// One place of the demonstration office, with what is remembered of its winters between choices.
#pragma once

#include "real_catalog.h"
#include "tenwinters/advise.h"
#include "tenwinters/certainty.h"
#include "tenwinters/prospect.h"

namespace tenwinters::testing {

struct RealPlace {
  explicit RealPlace(std::size_t at) : place(real_catalog().office.places[at]) {}
  const Place& place;
  Replay replay = make_replay(place.winters, real_catalog().catalog.cold_model);
  ReplayMemo memo;

  Advice advise(const Answers& answers) {
    return tenwinters::advise(real_catalog().catalog, real_catalog().office, place, answers, replay, memo);
  }
  Certainty sure(const Answers& answers, const Catalog& catalog = real_catalog().catalog) {
    return how_sure(catalog, real_catalog().office, place, answers, replay, memo);
  }
};

}  // namespace tenwinters::testing
