// Which rootstocks may carry a cultivar here.
#pragma once

#include <vector>

#include "choice.h"

namespace tenwinters {

struct Stocks {
  std::vector<const Rootstock*> usable;  // by id; never empty
  bool fits = true;                      // false: none to be had suits the top, `usable` holds the rest
};
// `fallback` stands in when the catalogue has no rootstock at all.
Stocks stocks_for(const Setting& setting, const Cultivar& cultivar, const Rootstock& fallback);

}  // namespace tenwinters
