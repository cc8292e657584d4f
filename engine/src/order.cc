#include "order.h"

#include <algorithm>
#include <numeric>

namespace tenwinters {

std::vector<std::uint32_t> order_of(std::size_t count, const void* what, IsBefore before) {
  std::vector<std::uint32_t> order(count);
  std::iota(order.begin(), order.end(), 0u);
  std::stable_sort(order.begin(), order.end(), [what, before](std::uint32_t a, std::uint32_t b) { return before(what, a, b); });
  return order;
}

}  // namespace tenwinters
