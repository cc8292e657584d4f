#include "ripening.h"

#include <array>

namespace tenwinters {
namespace {

constexpr int kMonthsInYear = 12;
constexpr int kGreenAfter = 3;  // months from the start of bloom until fruit is worth guarding

// Regions in the order in which their climates resemble each other, coast by coast.
constexpr std::array<std::array<Region, 5>, 6> kNearest = {{
    {Region::gulf, Region::texas, Region::other, Region::california, Region::arizona},      // florida
    {Region::florida, Region::texas, Region::other, Region::california, Region::arizona},   // gulf
    {Region::gulf, Region::florida, Region::other, Region::arizona, Region::california},    // texas
    {Region::california, Region::texas, Region::other, Region::florida, Region::gulf},      // arizona
    {Region::arizona, Region::other, Region::gulf, Region::texas, Region::florida},         // california
    {Region::gulf, Region::florida, Region::texas, Region::california, Region::arizona},    // other
}};

const Window* listed(const std::vector<Ripening>& ripening, Region region) {
  for (const Ripening& one : ripening)
    if (one.region == region) return &one.window;
  return nullptr;
}

}  // namespace

const Window* ripening_window(const Traits& traits, Region region, bool* local) {
  const Window* window = listed(traits.ripening, region);
  if (local != nullptr) *local = window != nullptr;
  for (const Region near : kNearest[static_cast<std::size_t>(region)])
    if (window == nullptr) window = listed(traits.ripening, near);
  return window;
}

int window_months(const Window& window) {
  return (window.to_month - window.from_month + kMonthsInYear) % kMonthsInYear + 1;
}

bool fruit_in_month(const Traits& traits, Region region, int month) {
  const Window* window = ripening_window(traits, region);
  if (window == nullptr) return true;
  if (window_months(*window) >= kEverbearingMonths) return true;
  // A window that opens as the tree blooms is last year's crop: the green one hangs beside it.
  if ((window->from_month - traits.bloom.from_month + kMonthsInYear) % kMonthsInYear < kGreenAfter) return true;
  const int green_from = (traits.bloom.from_month - 1 + kGreenAfter) % kMonthsInYear + 1;
  return Window{green_from, window->to_month, {}}.contains(month);
}

}  // namespace tenwinters
