// The house's own strict reader of YAML: text -> tree of nodes that know where they stand.
//
// It reads the plain part of YAML that people write: maps, lists, one-line {flow} and [flow] forms (also
// over several lines), plain and quoted text, | and > blocks, comments. It refuses what leads astray:
// tabs, several documents, anchors, aliases, tags, directives, complex and repeated keys, text that runs
// on into what looks like a key, quotes and brackets that are never closed. Each fault is told at its own
// place, and reading goes on behind it. A test reads every catalogue file with a general YAML library too
// and compares the trees.
//
// A general library was not enough: the one at hand reads 4 MB a second, joins an unclosed quote with the
// rest of the file without a word, hides repeated keys, and knows no end place for what is never closed.
#pragma once

#include <cstddef>
#include <memory_resource>
#include <span>
#include <string_view>

#include "loader/source_text.h"

namespace tenwinters {

struct Node {
  enum class Kind { null, scalar, map, list, broken };  // broken: a fault was told; say nothing more of it
  enum class Style { plain, quoted, block };

  Kind kind = Kind::null;
  Style style = Style::plain;  // of a scalar
  bool key_quoted = false;
  bool partial = false;        // of a map or list: some of it was broken, so nothing is known to be missing
  std::size_t offset = 0;      // of the value in the text
  std::size_t key_offset = 0;  // of its key, in a map
  std::string_view key;        // in a map
  std::string_view text;       // of a scalar
  std::span<const Node> children;  // of a map or list, in file order, keys without repeats

  [[nodiscard]] bool is_plain() const { return kind == Kind::scalar && style == Style::plain; }
  [[nodiscard]] const Node* find(std::string_view name) const;  // child of a map, or nullptr
};

inline constexpr int kDeepest = 32;  // levels of nesting

// The tree of one file. A catalogue is some hundreds of files and forty thousand nodes, so nodes are small and stand
// together, and texts are not copied: what is written in one piece is a view into `source`, which must live as long.
class YamlTree {
 public:
  // Faults go to `source`. A broken file gives a broken or partial root.
  explicit YamlTree(SourceText& source);

  [[nodiscard]] const Node& root() const { return root_; }

 private:
  std::pmr::monotonic_buffer_resource memory_;  // of the nodes, and of texts written in several pieces
  Node root_;
};

}  // namespace tenwinters
