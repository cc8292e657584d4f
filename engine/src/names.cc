#include "tenwinters/names.h"

#include <algorithm>
#include <vector>

namespace tenwinters {
namespace {

// Letters changed, added, left out, or two neighbours swapped, each counting one.
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before(b.size() + 1), last(b.size() + 1), now(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    now[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      now[j] = std::min({change, last[j] + 1, now[j - 1] + 1});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) now[j] = std::min(now[j], before[j - 2] + 1);
    }
    before.swap(last);
    last.swap(now);
  }
  return last[b.size()];
}

}  // namespace

std::string_view nearest_name(std::string_view text, std::span<const std::string_view> candidates) {
  constexpr std::size_t kLongest = 200;  // longer texts are no slip of the pen, and would be slow to compare
  if (text.empty() || text.size() > kLongest) return {};
  const std::size_t limit = std::max<std::size_t>(2, text.size() / 3);
  std::string_view nearest;
  std::size_t least = limit + 1;
  for (std::string_view candidate : candidates) {
    const std::size_t difference =
        candidate.size() > text.size() ? candidate.size() - text.size() : text.size() - candidate.size();
    if (difference >= least || candidate.size() > kLongest) continue;
    const std::size_t distance = edit_distance(text, candidate);
    // A word of which every letter differs is another word, however short.
    if (distance >= least || distance >= std::max(text.size(), candidate.size())) continue;
    least = distance;
    nearest = candidate;
  }
  return nearest;
}

}  // namespace tenwinters
