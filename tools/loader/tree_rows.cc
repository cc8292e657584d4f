// A list of trees in YAML: maps of words, nothing more.
#include <exception>

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
  try {
    std::string why;
    std::optional<std::string> raw = files.read(path, kLargestFile, why);
    if (!raw) {
      loaded.faults.push_back({path, 0, 0, why, "", false});
      return loaded;
    }
    YamlFile file(path, std::move(*raw));
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
    loaded.faults = file.faults();
    sort_diagnostics(loaded.faults);
  } catch (const std::exception& error) {
    loaded.faults.push_back({path, 0, 0, std::string("could not be read: ") + error.what(), "", false});
  }
  return loaded;
}

}  // namespace tenwinters
