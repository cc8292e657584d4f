// From Document to text, in the house order.
#include <algorithm>
#include <array>
#include <map>
#include <nlohmann/json.hpp>

#include "loader/format.h"
#include "loader/schema.h"
#include "loader/source_text.h"
#include "loader/yaml_file.h"

namespace tenwinters {
namespace {

using Json = nlohmann::ordered_json;

const Json* schema_named(const std::string& name) {
  static const std::map<std::string, Json> all = [] {
    std::map<std::string, Json> parsed;
    for (const SchemaFile& file : catalog_schemas()) parsed.emplace(file.name, Json::parse(file.content));
    return parsed;
  }();
  const auto found = all.find(name);
  return found == all.end() ? nullptr : &found->second;
}

const Json* below(const Json* schema, std::string_view key) {
  if (schema == nullptr || !schema->is_object()) return nullptr;
  const auto found = schema->find(std::string(key));
  return found == schema->end() ? nullptr : &*found;
}

class Writer {
 public:
  std::string write(const Document& document, const Json* schema) {
    block_map(document.root, schema, 0, false);
    for (const std::string& comment : document.footer) out_ += comment + "\n";
    return std::move(out_);
  }

 private:
  // Children in the order of the schema's properties; others last.
  static std::vector<const Part*> ordered(const Part& map, const Json* schema) {
    std::vector<const Part*> order;
    if (const Json* properties = below(schema, "properties")) {
      for (const auto& [key, value] : properties->items())
        if (const Part* child = map.find(key)) order.push_back(child);
    }
    for (const Part& child : map.children)
      if (std::find(order.begin(), order.end(), &child) == order.end()) order.push_back(&child);
    return order;
  }

  static const Json* of_key(const Json* schema, const std::string& key) { return below(below(schema, "properties"), key); }

  void flow(const Part& part, const Json* schema) {
    if (part.kind == Part::Kind::scalar) {
      out_ += part.raw;
      return;
    }
    const bool map = part.kind == Part::Kind::map;
    out_ += map ? "{" : "[";
    bool first = true;
    if (map) {
      for (const Part* child : ordered(part, schema)) {
        out_ += (first ? "" : ", ") + child->key_raw + ": ";
        flow(*child, of_key(schema, child->key));
        first = false;
      }
    } else {
      for (const Part& child : part.children) {
        if (!first) out_ += ", ";
        flow(child, below(schema, "items"));
        first = false;
      }
    }
    out_ += map ? "}" : "]";
  }

  void comments(const Part& part, std::size_t indent) {
    if (part.blank_before && !out_.empty()) out_ += "\n";
    for (const std::string& comment : part.leading) out_ += comment.empty() ? "\n" : std::string(indent, ' ') + comment + "\n";
  }

  void end_line(const Part& part) { out_ += (part.trailing.empty() ? "" : "  " + part.trailing) + "\n"; }

  // Behind "key:" or "-".
  void value(const Part& part, const Json* schema, std::size_t indent) {
    if (part.kind == Part::Kind::scalar || part.flow) {
      if (part.kind != Part::Kind::scalar || !part.raw.empty()) out_ += " ";
      flow(part, schema);
      end_line(part);
    } else if (part.kind == Part::Kind::map) {
      end_line(part);
      block_map(part, schema, indent + 2, false);
    } else {
      end_line(part);
      block_list(part, schema, indent);
    }
  }

  // `first_inline`: the first key stands behind a dash.
  void block_map(const Part& part, const Json* schema, std::size_t indent, bool first_inline) {
    for (const Part* child : ordered(part, schema)) {
      if (!first_inline) {
        comments(*child, indent);
        out_ += std::string(indent, ' ');
      }
      first_inline = false;
      out_ += child->key_raw + ":";
      value(*child, of_key(schema, child->key), indent);
    }
  }

  void block_list(const Part& part, const Json* schema, std::size_t indent) {
    const Json* items = below(schema, "items");
    for (const Part& child : part.children) {
      comments(child, indent);
      const bool opens = child.kind == Part::Kind::map && !child.flow && !child.children.empty();
      // A comment above the key that comes to stand behind the dash goes above the dash.
      if (opens)
        for (const std::string& comment : ordered(child, items).front()->leading)
          if (!comment.empty()) out_ += std::string(indent, ' ') + comment + "\n";
      out_ += std::string(indent, ' ') + "-";
      if (opens) {
        out_ += " ";
        block_map(child, items, indent + 2, true);
      } else {
        value(child, items, indent);
      }
    }
  }

  std::string out_;
};

std::vector<std::string> comments_of(const Part& part) {
  std::vector<std::string> all;
  for (const std::string& comment : part.leading)
    if (!comment.empty()) all.push_back(comment);
  if (!part.trailing.empty()) all.push_back(part.trailing);
  for (const Part& child : part.children)
    for (std::string& comment : comments_of(child)) all.push_back(std::move(comment));
  return all;
}

std::vector<std::string> comments_of(const Document& document) {
  std::vector<std::string> all = comments_of(document.root);
  for (const std::string& comment : document.footer)
    if (!comment.empty()) all.push_back(comment);
  std::sort(all.begin(), all.end());
  return all;
}

// The same values under the same keys, whatever the order of the keys.
bool same(const Part& a, const Part& b) {
  if (a.kind != b.kind || a.raw != b.raw || a.children.size() != b.children.size()) return false;
  for (std::size_t i = 0; i < a.children.size(); ++i) {
    const Part* twin = a.kind == Part::Kind::map ? b.find(a.children[i].key) : &b.children[i];
    if (twin == nullptr || !same(a.children[i], *twin)) return false;
  }
  return true;
}

}  // namespace

std::string schema_of(std::string_view path) {
  const std::size_t slash = path.rfind('/');
  const std::string_view name = path.substr(slash == std::string_view::npos ? 0 : slash + 1);
  if (!name.ends_with(".yaml")) return "";
  const std::string_view above = slash == std::string_view::npos ? "" : path.substr(0, slash);
  const std::string_view folder = above.substr(above.rfind('/') == std::string_view::npos ? 0 : above.rfind('/') + 1);
  constexpr std::array<std::pair<std::string_view, std::string_view>, 4> kFolders = {
      {{"types", "type"}, {"cultivars", "cultivar"}, {"rootstocks", "rootstock"}, {"words", "words"}}};
  for (const auto& [of, schema] : kFolders)
    if (folder == of) return std::string(schema) + ".json";
  const std::string by_name = std::string(name.substr(0, name.size() - 5)) + ".json";
  return schema_named(by_name) != nullptr ? by_name : "";
}

std::string write_document(const Document& document, std::string_view path) {
  return Writer().write(document, schema_named(schema_of(path)));
}

ShapeAt shape_at(std::string_view file, std::string_view path) {
  const Json* schema = schema_named(schema_of(file));
  while (schema != nullptr && !path.empty()) {
    const std::size_t dot = path.find('.');
    const std::string_view first = path.substr(0, dot);
    path = dot == std::string_view::npos ? "" : path.substr(dot + 1);
    const Json* items = below(schema, "items");
    schema = items != nullptr ? items : below(below(schema, "properties"), first);
  }
  ShapeAt shape;
  if (schema == nullptr) return shape;
  shape.known = true;
  const auto keys_of = [](const Json* map) {
    std::vector<std::string> keys;
    if (const Json* properties = below(map, "properties"))
      for (const auto& [key, value] : properties->items()) keys.push_back(key);
    return keys;
  };
  shape.list = below(schema, "items") != nullptr;
  shape.keys = keys_of(schema);
  shape.item_keys = keys_of(below(schema, "items"));
  return shape;
}

Formatted format_file(const std::string& path, const std::string& raw) {
  Document document, again;
  Formatted result;
  result.why = read_document(path, raw, document);
  if (!result.why.empty()) return result;
  result.text = write_document(document, path);
  // Whatever was overlooked above must not cost anybody a line.
  result.why = read_document(path, result.text, again);
  if (result.why.empty() && (!same(document.root, again.root) || comments_of(document) != comments_of(again)))
    result.why = "the file would read differently afterwards";
  return result;
}

std::string written(std::string_view text) {
  const bool number = !text.empty() && text.find_first_not_of("+-.0123456789eExXoO_:") == std::string_view::npos;
  const bool plain = !text.empty() && !number && !looks_like_boolean(text) && text.front() != ' ' && text.back() != ' ' &&
                     text.find_first_of("\n\t\"'#:{}[],&*!|>%@`\\?=<~-") == std::string_view::npos;
  if (plain) return std::string(text);
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') quoted += '\\';
    if (c == '\n') quoted += "\\n";
    else if (c == '\t') quoted += "\\t";
    else quoted += c;
  }
  return quoted + "\"";
}

}  // namespace tenwinters
