// A list of trees in YAML: maps of words, nothing more.

#include "loader/reading.h"

namespace tenwinters {
namespace {

TreeRow read_row(YamlFile& file, const Node& node) {
  TreeRow row;
  row.line = file.line_of(node);
  for (const Node& child : node.children) {
    std::string text;
    if (child.kind == Node::Kind::list) {
      for (const Node& item : child.children) text += (text.empty() ? "" : " ") + read_text_or_number(file, &item);
    } else if (child.kind != Node::Kind::null) {
      text = read_text_or_number(file, &child);
    }
    row.cells.emplace_back(child.key, std::move(text));
  }
  return row;
}

}  // namespace

LoadedTrees load_trees(const FileReader& files, const std::string& path) {
  LoadedTrees loaded;
  loaded.faults = read_alone(files, path, [&](YamlFile& file) {
    const Node* list = &file.root();
    if (list->kind == Node::Kind::map) {
      MapReader map(file, list);
      list = map.take("trees");
      map.finish();
    }
    if (list != nullptr) {
      for (const Node& item : items(file, list))
        if (const Node* row = as_map(file, &item)) loaded.rows.push_back(read_row(file, *row));
    }
  });
  return loaded;
}

}  // namespace tenwinters
