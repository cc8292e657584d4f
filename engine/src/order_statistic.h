// The date that a share of winters has seen, from sorted dates. Shared by the climate's tables and the calendar.
#pragma once

#include <algorithm>
#include <optional>
#include <vector>

namespace tenwinters {

// Order statistic of rank percent * (n + 1) / 100 among n dates of which only `dates` exist (sorted so that
// the missing ones would follow). Between two ranks by straight line, to the nearest day; halves go to
// the even count, which favours neither side.
inline std::optional<int> order_statistic(const std::vector<int>& dates, int n, int percent) {
  const int rank_hundredths = percent * (n + 1);
  const int below = std::max(1, rank_hundredths / 100);
  const int part = rank_hundredths / 100 < 1 ? 0 : rank_hundredths % 100;
  if (below > n) return std::nullopt;
  const auto i = static_cast<std::size_t>(below - 1);
  if (i >= dates.size() || (part > 0 && i + 1 >= dates.size())) return std::nullopt;
  if (part == 0) return dates[i];
  const int hundredths = dates[i] * 100 + (dates[i + 1] - dates[i]) * part;
  const int down = hundredths / 100, over = hundredths % 100;
  return over > 50 || (over == 50 && down % 2 == 1) ? down + 1 : down;
}

}  // namespace tenwinters
