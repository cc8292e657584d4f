// Which ripening window holds in a region, and whether fruit hangs in a month.
#pragma once

#include "tenwinters/catalog.h"

namespace tenwinters {

// The window listed for the region, else for the region whose climate is nearest; nullptr if none is
// listed at all. `local` says whether it was the region's own.
[[nodiscard]] const Window* ripening_window(const Traits& traits, Region region, bool* local = nullptr);

// A ripening window of at least so many months: some fruit, ripe and green, at any time.
inline constexpr int kEverbearingMonths = 11;

// Months of a window, both ends included, 1..12.
[[nodiscard]] int window_months(const Window& window);

// Whether fruit worth the name hangs on the tree: from the third month after bloom to the end of the window.
[[nodiscard]] bool fruit_in_month(const Traits& traits, Region region, int month);

}  // namespace tenwinters
