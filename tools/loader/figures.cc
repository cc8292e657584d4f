#include "loader/figures.h"

#include <algorithm>
#include <array>

#include "loader/reading.h"

namespace tenwinters {
namespace {

std::string text_of(const Node* map, std::string_view key) {
  const Node* node = map->find(key);
  return node == nullptr ? "" : std::string(node->text);
}

std::string words_of(const Node& list) {
  std::string text;
  for (const Node& item : list.children) text += (text.empty() ? "" : ", ") + std::string(item.text);
  return text.empty() ? "none" : text;
}

std::string value_of(const Node& map) {
  if (map.find("best") != nullptr) {
    const std::string best = text_of(&map, "best"), low = text_of(&map, "low"), high = text_of(&map, "high");
    return best + " " + text_of(&map, "unit") + (low == high ? "" : " (" + low + " to " + high + ")");
  }
  if (map.find("is") != nullptr) return text_of(&map, "is");
  if (const Node* are = map.find("are")) return words_of(*are);
  if (const Node* alleles = map.find("alleles")) return words_of(*alleles);
  if (map.find("from") != nullptr) return "months " + text_of(&map, "from") + " to " + text_of(&map, "to");
  if (map.find("weight") != nullptr) return text_of(&map, "weight") + " points";
  return "";
}

Evidence evidence_of(const Node& map) {
  Evidence evidence;
  evidence.basis = parse<Basis>(text_of(&map, "basis")).value_or(Basis::estimate);
  if (const Node* sources = map.find("sources"))
    for (const Node& source : sources->children) evidence.sources.emplace_back(source.text);
  evidence.seen = text_of(&map, "seen");
  evidence.note = text_of(&map, "note");
  return evidence;
}

// What names an item of a list.
std::string name_of_item(const Node& item, std::size_t index) {
  for (const char* key : {"id", "region", "spot"})
    if (item.kind == Node::Kind::map && item.find(key) != nullptr) return std::string(item.find(key)->text);
  return std::to_string(index + 1);
}

class Lister {
 public:
  Lister(const FileReader& disk, std::vector<Figure>& out) : disk_(disk), out_(out) {}

  // One thing a file.
  void file(const std::string& path, const std::string& kind, const std::string& id) {
    with_tree(disk_, path, [&](const SourceText& text, const Node& root) { walk(text, root, {text.name(), 0, kind, id, "", "", {}}); });
  }
  // A list of things, or (`cold_model.yaml`) a map of constants.
  void table(const std::string& path, const std::string& kind) {
    with_tree(disk_, path, [&](const SourceText& text, const Node& root) {
      for (const Node& rows : root.children) {
        if (rows.kind == Node::Kind::map) walk(text, rows, {text.name(), 0, kind, std::string(rows.key), "", "", {}});
        if (rows.kind != Node::Kind::list) continue;
        for (std::size_t i = 0; i < rows.children.size(); ++i)
          walk(text, rows.children[i], {text.name(), 0, kind, name_of_item(rows.children[i], i), "", "", {}});
      }
    });
  }

 private:
  void walk(const SourceText& text, const Node& node, const Figure& above) {
    if (node.kind == Node::Kind::map && node.find("basis") != nullptr) {
      Figure figure = above;
      figure.line = text.line_of(node.offset);
      figure.value = value_of(node);
      figure.evidence = evidence_of(node);
      out_.push_back(std::move(figure));
    }
    for (std::size_t i = 0; i < node.children.size(); ++i) {
      const Node& child = node.children[i];
      if (child.kind != Node::Kind::map && child.kind != Node::Kind::list) continue;
      Figure below = above;
      below.path += (below.path.empty() ? "" : ".") + (node.kind == Node::Kind::list ? name_of_item(child, i) : std::string(child.key));
      walk(text, child, below);
    }
  }

  const FileReader& disk_;
  std::vector<Figure>& out_;
};

// The part of a trait's path that a cultivar replaces as a whole: a tissue, or the trait.
std::string_view replaced_part(std::string_view path) {
  constexpr std::string_view kTraits = "traits.", kCold = "traits.cold.";
  const std::size_t begin = path.starts_with(kCold) ? kCold.size() : path.starts_with(kTraits) ? kTraits.size() : 0;
  return path.substr(0, path.find('.', begin));
}

}  // namespace

std::vector<Figure> list_figures(const FileReader& files, const std::string& root) {
  std::vector<Figure> figures;
  Lister lister(files, figures);
  constexpr std::array<std::pair<const char*, const char*>, 3> kFolders = {
      {{"types", "type"}, {"cultivars", "cultivar"}, {"rootstocks", "rootstock"}}};
  for (const auto& [folder, kind] : kFolders) {
    for (const std::string& name : files.list(root + "/" + folder))
      if (name.ends_with(".yaml")) lister.file(root + "/" + folder + "/" + name, kind, name.substr(0, name.size() - 5));
  }
  constexpr std::array<std::pair<const char*, const char*>, 12> kTables = {
      {{"questions", "question"}, {"model", "criterion"}, {"curves", "curve"}, {"cold_model", "constant"}, {"microclimates", "spot"},
       {"protections", "protection"}, {"cautions", "caution"}, {"seasons", "season"}, {"rules", "rule"}, {"ancestors", "ancestor"}, {"calls", "call"}, {"guides", "guide"}}};
  for (const auto& [name, kind] : kTables) lister.table(root + "/" + name + ".yaml", kind);
  return figures;
}

std::vector<Figure> figures_of(const std::vector<Figure>& all, const Catalog& catalog, std::string_view id) {
  std::vector<Figure> own;
  for (const Figure& figure : all)
    if (figure.of == id) own.push_back(figure);
  const Cultivar* cultivar = find_cultivar(catalog, id);
  if (cultivar == nullptr) return own;
  std::vector<std::string> replaced;
  for (const Figure& figure : own) replaced.emplace_back(replaced_part(figure.path));
  for (const Figure& figure : all) {
    if (figure.kind != "type" || figure.of != cultivar->type) continue;
    if (std::find(replaced.begin(), replaced.end(), replaced_part(figure.path)) != replaced.end()) continue;
    own.push_back(figure);
    own.back().evidence.from_type = true;
  }
  return own;
}

}  // namespace tenwinters
