// ancestors.yaml, and what descends from what.
#include <algorithm>

#include "loader/reading.h"

namespace tenwinters {
namespace {

constexpr const char* kFile = "ancestors.yaml";

}  // namespace

void read_descent_of(Reading& reading, YamlFile& file, const Node* node, const std::string& self) {
  MapReader map(file, node);
  const Node* are = map.take("are");
  std::vector<std::string> parents = reading.link_all(file, are, Kin::ancestor);
  if (are != nullptr)
    for (const Node& item : are->children)
      if (item.kind == Node::Kind::scalar && item.text == self) file.fault(item, "descends from itself");
  (void)read_evidence(reading, map);
  map.finish();
  reading.descent.parents.insert_or_assign(self, std::move(parents));
}

void read_ancestors(Reading& reading) {
  if (!has_table(reading, kFile)) {
    reading.not_whole.emplace_back("ancestors");  // nothing to hold an ancestor to
    return;
  }
  std::span<const Node> rows;
  YamlFile* file = open_table(reading, kFile, "ancestors", rows);
  for (const Node& row : rows) {
    Forebear forebear;
    MapReader map(*file, &row);
    const Node* id = map.take("id");
    forebear.id = read_id(*file, id);
    if (id != nullptr) is_new(*file, *id, forebear.id, reading.ancestor_ids);
    forebear.botanical = read_text(*file, map.take("botanical"));
    if (const Node* name = as_map(*file, map.take("name"))) {
      for (const Node& child : name->children) {
        if (!is_language_code(child.key)) file->fault_at_key(child, "found " + quoted(child.key) + ", expected a language code, as en or es-MX");
        forebear.name.emplace(child.key, read_text(*file, &child));
      }
    }
    forebear.wild = read_bool(*file, map.take("wild"));
    if (const Node* ancestors = map.take_if("ancestors")) {
      if (forebear.wild) file->fault_at_key(*ancestors, "a wild species is where a line ends; it has no ancestors here");
      read_descent_of(reading, *file, ancestors, forebear.id);
    }
    (void)read_evidence(reading, map);
    map.finish();
    const std::string key = forebear.id;
    reading.descent.forebears.insert_or_assign(key, std::move(forebear));
  }
}

void note_parents_of_cultivars(Reading& reading) {
  for (const Cultivar& cultivar : reading.catalog.cultivars) {
    std::vector<std::string> parents = cultivar.ancestors;
    // A kind may bear its type's name: makrut is the makrut lime there is.
    std::erase(parents, cultivar.id);
    if (parents.empty()) parents.push_back(cultivar.type);
    if (cultivar.id != cultivar.type) reading.descent.parents.insert_or_assign(cultivar.id, std::move(parents));
  }
}

}  // namespace tenwinters
