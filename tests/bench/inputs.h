// What the benchmarks run on, loaded once.
#pragma once

#include <cstdio>
#include <cstdlib>

#include "../load_real.h"

namespace tenwinters {

inline const testing::RealCatalog& inputs() {
  static const testing::RealCatalog loaded = testing::load_real([](const std::string& fault) {
    std::fprintf(stderr, "%s\n", fault.c_str());
    std::exit(1);
  });
  return loaded;
}

}  // namespace tenwinters
