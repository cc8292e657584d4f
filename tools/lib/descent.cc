#include "lib/descent.h"

#include <functional>
#include <set>

namespace tenwinters {

const std::vector<std::string>& parents_of(const Descent& descent, std::string_view id) {
  static const std::vector<std::string> kNone;
  const auto parents = descent.parents.find(id);
  return parents == descent.parents.end() ? kNone : parents->second;
}

std::vector<const Forebear*> wild_ancestors(const Descent& descent, std::string_view id) {
  std::set<std::string, std::less<>> seen, wild;
  const std::function<void(std::string_view)> climb = [&](std::string_view at) {
    if (!seen.emplace(at).second) return;
    const auto forebear = descent.forebears.find(at);
    if (forebear != descent.forebears.end() && forebear->second.wild) wild.emplace(at);
    for (const std::string& parent : parents_of(descent, at)) climb(parent);
  };
  climb(id);
  std::vector<const Forebear*> list;
  for (const std::string& one : wild) list.push_back(&descent.forebears.find(one)->second);
  return list;
}

}  // namespace tenwinters
