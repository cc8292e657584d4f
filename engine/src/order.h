// Sorting for everything here that is not asked often: one sort of the library serves all types, where one each
// would be a tenth of what a page has to download.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <utility>
#include <vector>

namespace tenwinters {

using IsBefore = bool (*)(const void* what, std::uint32_t a, std::uint32_t b);
// The places 0..count-1 in their new order; equals stay in the order they were in.
[[nodiscard]] std::vector<std::uint32_t> order_of(std::size_t count, const void* what, IsBefore before);

// Stable. `before(a, b)`: does a stand before b?
template <class T, class Before>
void put_in_order(std::span<T> all, const Before& before) {
  const auto what = std::make_pair(all, &before);
  const std::vector<std::uint32_t> order = order_of(all.size(), &what, [](const void* given, std::uint32_t a, std::uint32_t b) {
    const auto& [items, is_before] = *static_cast<const std::pair<std::span<T>, const Before*>*>(given);
    return (*is_before)(items[a], items[b]);
  });
  std::vector<T> moved;
  moved.reserve(all.size());
  for (const std::uint32_t from : order) moved.push_back(std::move(all[from]));
  for (std::size_t i = 0; i < all.size(); ++i) all[i] = std::move(moved[i]);
}
template <class T, class Before>
void put_in_order(std::vector<T>& all, const Before& before) { put_in_order(std::span<T>(all), before); }
template <class T>
void put_in_order(std::vector<T>& all) { put_in_order(std::span<T>(all), [](const T& a, const T& b) { return a < b; }); }

}  // namespace tenwinters
