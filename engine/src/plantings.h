// The distinct plantings among the cases of a yard, so that each is replayed once a tree.
#pragma once

#include <cstddef>
#include <vector>

#include "choice.h"
#include "tenwinters/prospect.h"

namespace tenwinters {

// A planting without its tree: what the yard and one habit of care make of it.
struct Care {
  const Protection* protection = nullptr;
  double warmer_c = 0, container_l = 0, work_nights = 0;
  bool moves_indoors = false;

  friend bool operator==(const Care&, const Care&) = default;
};

// What a household that means to follow `habit` does in this yard: a container that is carried in
// needs no cover, a habit for containers is none in the ground, and no work means none.
Care care_in(const Yard& yard, const Protection& habit, const Catalog& catalog, const Protection& none);

Planting planting_of(const Care& care, const Tree& tree);

// The cares met so far, each once.
class CareList {
 public:
  std::size_t slot(const Care& care);
  [[nodiscard]] const std::vector<Care>& all() const { return cares_; }

 private:
  std::vector<Care> cares_;
};

}  // namespace tenwinters
