// Which kinds descend from which, down to the wild species.
//
//   for (const Forebear* wild : wild_ancestors(loaded.descent, "owari")) print(wild->botanical);
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "tenwinters/catalog.h"

namespace tenwinters {

// A wild species, or an old parent that is no cultivar of this catalogue.
struct Forebear {
  std::string id, botanical;
  Words name;
  bool wild = false;

  bool operator==(const Forebear&) const = default;
};

struct Descent {
  std::map<std::string, std::vector<std::string>, std::less<>> parents;  // of types, cultivars and forebears, by id
  std::map<std::string, Forebear, std::less<>> forebears;

  bool operator==(const Descent&) const = default;
};

// The parents stated for a type, cultivar or forebear; empty where there are none.
[[nodiscard]] const std::vector<std::string>& parents_of(const Descent& descent, std::string_view id);

// The wild species at the ends of all lines, by id; empty where no line reaches one. A cultivar without parents of its
// own is taken for one of its type's.
[[nodiscard]] std::vector<const Forebear*> wild_ancestors(const Descent& descent, std::string_view id);

}  // namespace tenwinters
