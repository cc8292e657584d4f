// A catalogue file as a text to edit: its comments and its way of writing are kept, its order is the house's.
//
//   Document document;
//   if (std::string why = read_document("cultivars/owari.yaml", raw, document); !why.empty()) tell(why);
//   find(document.root, "traits.thorns.is")->raw = "few";
//   write(write_document(document, "cultivars/owari.yaml"));
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "lib/files.h"

namespace tenwinters {

struct Part {
  enum class Kind { scalar, map, list };
  Kind kind = Kind::scalar;
  bool flow = false;                 // a map or list on one line
  std::string key;                   // in a map
  std::string key_raw;               // as written
  std::string raw;                   // of a scalar, as written: with its quotes; "" = nothing
  std::string text;                  // of a scalar, as meant
  bool blank_before = false;         // an empty line stands before it and its comments
  std::vector<std::string> leading;  // comments above it, from their #
  std::string trailing;              // the comment behind it, from its #
  std::vector<Part> children;

  [[nodiscard]] const Part* find(std::string_view name) const;  // child of a map by key, or nullptr
  Part* find(std::string_view name);
};

struct Document {
  Part root;                         // a map
  std::vector<std::string> footer;   // comments after the last value
};

// What a list's item is called in a path: its id, or where it has no kind its region or spot, else its place from 1.
[[nodiscard]] std::string name_of_item(const Part& item, std::size_t index);
// "traits.ripening.gulf.from", or nullptr.
[[nodiscard]] Part* find_path(Part& from, std::string_view path);

// "" or why the file cannot be taken apart without losing something ("line 7: ...").
[[nodiscard]] std::string read_document(const std::string& name, const std::string& raw, Document& document);

// Keys in the order of the file's schema, known by its path; those it does not know last, as they stand.
[[nodiscard]] std::string write_document(const Document& document, std::string_view path);

// The name of the schema for a path that ends like one in the catalogue ("x/cultivars/owari.yaml" ->
// "cultivar.json"), or "".
[[nodiscard]] std::string schema_of(std::string_view path);

// What the file's schema has at a path of keys and items' names.
struct ShapeAt {
  bool known = false, list = false;
  std::vector<std::string> keys;       // of a map
  std::vector<std::string> item_keys;  // of a list of maps
};
[[nodiscard]] ShapeAt shape_at(std::string_view file, std::string_view path);

// `raw` in the house order; `why` is set instead where that would lose something.
struct Formatted {
  std::string text;
  std::string why;
};
[[nodiscard]] Formatted format_file(const std::string& path, const std::string& raw);

// Text as a scalar: plain where YAML reads it back the same everywhere, else in double quotes.
[[nodiscard]] std::string written(std::string_view text);

}  // namespace tenwinters
