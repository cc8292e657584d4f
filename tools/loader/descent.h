// Which kinds descend from which, down to the wild species.
//
//   const Descent descent = read_descent(disk, "catalog");
//   for (const Forebear* wild : wild_ancestors(descent, "owari")) print(wild->botanical);
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "lib/files.h"
#include "tenwinters/catalog.h"

namespace tenwinters {

// A wild species, or an old parent that is no cultivar of this catalogue.
struct Forebear {
  std::string id, botanical;
  Words name;
  bool wild = false;
};

struct Descent {
  std::map<std::string, std::vector<std::string>, std::less<>> parents;  // of types, cultivars and forebears, by id
  std::map<std::string, Forebear, std::less<>> forebears;
};

// Files that cannot be read are passed over: load_catalog tells of them.
[[nodiscard]] Descent read_descent(const FileReader& files, const Catalog& catalog, const std::string& root);

// The wild species at the ends of all lines, by id; empty where no line reaches one. A cultivar without parents of its
// own is taken for one of its type's.
[[nodiscard]] std::vector<const Forebear*> wild_ancestors(const Descent& descent, std::string_view id);

}  // namespace tenwinters
