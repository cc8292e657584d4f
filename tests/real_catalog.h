// The catalogue of this tree and its demonstration office, loaded once for a test program.
#pragma once

#include <gtest/gtest.h>

#include "load_real.h"

namespace tenwinters::testing {

inline const RealCatalog& real_catalog() {
  static const RealCatalog loaded = load_real([](const std::string& fault) { ADD_FAILURE() << fault; });
  return loaded;
}

}  // namespace tenwinters::testing
