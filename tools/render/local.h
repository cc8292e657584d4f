// What a place's record says to the questions people ask: dates of freezes and dates by warmth.
#pragma once

#include <optional>
#include <vector>

#include "tenwinters/catalog.h"
#include "tenwinters/climate.h"
#include "tenwinters/winters.h"

namespace tenwinters {

// The winters as the climate module counts them: first and last day of each freeze in kFreezeThresholdsF.
[[nodiscard]] std::vector<WinterLow> lows_of(const Winters& winters);

// Days since 1 January, 0..365, at the middle of a window of months.
[[nodiscard]] double middle_of(const Window& window);

// Days since 1 January (beyond 365: in the next year) at which an average year has given `need` degree-days from
// `from_day` on; nullopt if two years do not.
[[nodiscard]] std::optional<double> day_with_heat(const Winters& winters, double from_day, double need);

// Winters whose growing season gave `need` from the month after the middle of bloom to the end of the ripening
// window, as the replay counts.
[[nodiscard]] int winters_with_heat(const Winters& winters, const Window& bloom, const Window& ripe, double need);

// Winters in which the air was at or below `celsius`, and the earliest day of a winter (as Spell::day) on which it
// was, or -1.
struct ColdCount {
  int winters = 0, earliest_day = -1;
};
[[nodiscard]] ColdCount cold_count(const Winters& winters, double celsius);

// Winters with a reading at or below `celsius` in a calendar month, 1..12.
[[nodiscard]] int winters_cold_in(const Winters& winters, double celsius, int month);

}  // namespace tenwinters
