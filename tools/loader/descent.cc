#include "loader/descent.h"

#include <algorithm>
#include <functional>
#include <set>

#include "loader/reading.h"

namespace tenwinters {
namespace {

constexpr const char* kFile = "ancestors.yaml";

std::vector<std::string> listed(const Node* descent) {
  std::vector<std::string> ids;
  const Node* are = descent == nullptr ? nullptr : descent->find("are");
  if (are == nullptr) return ids;
  for (const Node& item : are->children) ids.push_back(item.text);
  return ids;
}

Words words_of(const Node* map) {
  Words words;
  if (map == nullptr) return words;
  for (const Node& child : map->children) words.emplace(child.key, child.text);
  return words;
}

}  // namespace

void read_descent_of(Reading& reading, YamlFile& file, const Node* node, const std::string& self) {
  MapReader map(file, node);
  const Node* are = map.take("are");
  (void)reading.link_all(file, are, Kin::ancestor);
  if (are != nullptr)
    for (const Node& item : are->children)
      if (item.kind == Node::Kind::scalar && item.text == self) file.fault(item, "descends from itself");
  (void)read_evidence(reading, map);
  map.finish();
}

void read_ancestors(Reading& reading) {
  const std::vector<std::string> there = reading.disk.list(reading.root);
  if (std::find(there.begin(), there.end(), kFile) == there.end()) {
    reading.not_whole.emplace_back("ancestors");  // nothing to hold an ancestor to
    return;
  }
  std::span<const Node> rows;
  YamlFile* file = open_table(reading, kFile, "ancestors", rows);
  for (const Node& row : rows) {
    MapReader map(*file, &row);
    const Node* id = map.take("id");
    const std::string self = read_id(*file, id);
    if (id != nullptr) is_new(*file, *id, self, reading.ancestor_ids);
    (void)read_text(*file, map.take("botanical"));
    if (const Node* name = as_map(*file, map.take("name"))) {
      for (const Node& child : name->children) {
        if (!is_language_code(child.key)) file->fault_at_key(child, "found " + quoted(child.key) + ", expected a language code, as en or es-MX");
        (void)read_text(*file, &child);
      }
    }
    const bool wild = read_bool(*file, map.take("wild"));
    if (const Node* ancestors = map.take_if("ancestors")) {
      if (wild) file->fault_at_key(*ancestors, "a wild species is where a line ends; it has no ancestors here");
      read_descent_of(reading, *file, ancestors, self);
    }
    (void)read_evidence(reading, map);
    map.finish();
  }
}

Descent read_descent(const FileReader& files, const Catalog& catalog, const std::string& root) {
  Descent descent;
  with_tree(files, root + "/" + kFile, [&](const SourceText&, const Node& top) {
    const Node* rows = top.find("ancestors");
    if (rows == nullptr) return;
    for (const Node& row : rows->children) {
      const auto text = [&](std::string_view key) { return row.find(key) == nullptr ? "" : row.find(key)->text; };
      descent.forebears.emplace(text("id"), Forebear{text("id"), text("botanical"), words_of(row.find("name")), text("wild") == "true"});
      descent.parents.emplace(text("id"), listed(row.find("ancestors")));
    }
  });
  for (const CitrusType& type : catalog.types)
    with_tree(files, root + "/types/" + type.id + ".yaml",
              [&](const SourceText&, const Node& top) { descent.parents.emplace(type.id, listed(top.find("ancestors"))); });
  for (const Cultivar& cultivar : catalog.cultivars) {
    std::vector<std::string> parents = cultivar.ancestors;
    // A kind may bear its type's name: makrut is the makrut lime there is.
    std::erase(parents, cultivar.id);
    if (parents.empty()) parents.push_back(cultivar.type);
    if (cultivar.id != cultivar.type) descent.parents.emplace(cultivar.id, std::move(parents));
  }
  return descent;
}

std::vector<const Forebear*> wild_ancestors(const Descent& descent, std::string_view id) {
  std::set<std::string, std::less<>> seen, wild;
  const std::function<void(std::string_view)> climb = [&](std::string_view at) {
    if (!seen.emplace(at).second) return;
    const auto forebear = descent.forebears.find(at);
    if (forebear != descent.forebears.end() && forebear->second.wild) wild.emplace(at);
    const auto parents = descent.parents.find(at);
    if (parents == descent.parents.end()) return;
    for (const std::string& parent : parents->second) climb(parent);
  };
  climb(id);
  std::vector<const Forebear*> list;
  for (const std::string& one : wild) list.push_back(&descent.forebears.find(one)->second);
  return list;
}

}  // namespace tenwinters
