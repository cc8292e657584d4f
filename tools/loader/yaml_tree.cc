#include "loader/yaml_tree.h"

#include <algorithm>
#include <memory>
#include <string>
#include <unordered_map>
#include <vector>

#include "loader/yaml_scanner.h"

namespace tenwinters {
namespace {

// Remembers the keys of one map beyond its first few: comparing those one by one is quicker, but a map of a
// hundred thousand keys must not take a hundred thousand times as long.
class KeySet {
 public:
  // The offset at which the key stood before, or npos.
  std::size_t find(std::span<const Node> children, const Node& child) {
    constexpr std::size_t kFew = 24;
    if (children.size() <= kFew) {
      for (const Node& other : children)
        if (other.key.front() == child.key.front() && other.key == child.key) return other.key_offset;
      return std::string::npos;
    }
    for (; known_ < children.size(); ++known_) seen_.try_emplace(children[known_].key, children[known_].key_offset);
    const auto place = seen_.find(child.key);
    return place == seen_.end() ? std::string::npos : place->second;
  }

 private:
  std::unordered_map<std::string_view, std::size_t> seen_;
  std::size_t known_ = 0;  // children of which seen_ knows
};

class YamlReader {
 public:
  YamlReader(SourceText& source, std::pmr::memory_resource& memory)
      : source_(source), memory_(memory), scan_(source, memory) {}

  Node read() {
    Node root;
    if (tab_in_indentation() || !scan_.next_content()) {
      if (source_.faults().empty()) source_.fault_of_file("the file is empty");
      root.kind = Node::Kind::broken;
      return root;
    }
    if (!block_node(root, -1, 1, true)) root.kind = Node::Kind::broken;
    if (root.kind != Node::Kind::broken && scan_.next_content()) {
      scan_.fail(scan_.at(), "found more behind the end of the map or list; check the indentation");
      root.partial = true;
    }
    return root;
  }

 private:
  bool tab_in_indentation() {
    const std::string_view text = source_.text();
    if (text.find('\t') == std::string_view::npos) return false;
    for (std::size_t start = 0; start < text.size();) {
      const std::size_t content = text.find_first_not_of(" \t", start);
      const std::size_t tab = text.find('\t', start);
      if (content == std::string_view::npos) return false;
      if (tab < content && text[content] != '\n' && text[content] != '#') {
        scan_.fail(tab,
                   "a tab in the indentation; indent with spaces (told once a file; the file is not read further)");
        return true;
      }
      const std::size_t end = text.find('\n', content);
      if (end == std::string_view::npos) return false;
      start = end + 1;
    }
    return false;
  }

  // True if a value may begin with the character here; tells the fault if not.
  bool may_begin() {
    const std::size_t at = scan_.at();
    switch (scan_.peek()) {
      case '&':
        return scan_.fail(at, "an anchor (&); anchors and aliases are not used here, write the value out");
      case '*':
        return scan_.fail(at, "an alias (*); anchors and aliases are not used here, write the value out");
      case '!':
        return scan_.fail(at, "a tag (!); tags are not used here; put text that begins with ! in quotes");
      case '%':
        return scan_.fail(at, "a directive (%); directives are not used here; put text that begins with % in quotes");
      case '@':
      case '`':
        return scan_.fail(at, "text cannot begin with @ or ` unless it is in quotes");
      case ',':
      case ']':
      case '}':
        return scan_.fail(at, std::string("found ") + scan_.peek() + " where a value should begin");
      case '?':
        if (YamlScanner::is_blank(scan_.peek(1))) return scan_.fail(at, "a complex key (?); keys are plain words here");
        return true;
      case ':':
        if (scan_.colon_here()) return scan_.fail(at, "an empty key");
        return true;
      default:
        return true;
    }
  }

  bool deep(int depth) {
    if (depth <= kDeepest) return false;
    scan_.fail(scan_.at(), "nested deeper than " + std::to_string(kDeepest) + " levels");
    return true;
  }

  bool rest_of_line(const char* behind) {
    if (scan_.skip_blanks()) return true;
    return scan_.fail(scan_.at(), std::string("found more text behind the closing ") + behind);
  }

  // A value at its first character. `opens`: a block map or list may begin here (own line, or behind "- ").
  bool block_node(Node& out, int parent_indent, int depth, bool opens) {
    out.offset = scan_.at();
    if (!may_begin() || deep(depth)) return false;
    if (scan_.dash_here()) {
      if (!opens) return scan_.fail(scan_.at(), "a list item cannot stand on the line of its key");
      return block_list(out, scan_.column(), depth);
    }
    const char c = scan_.peek();
    if (c == '{' || c == '[') return flow(out, parent_indent, depth) && rest_of_line("bracket");
    out.kind = Node::Kind::scalar;
    if (c == '|' || c == '>') {
      out.style = Node::Style::block;
      return scan_.read_block(out.text, parent_indent);
    }
    if (opens && scan_.key_here()) return block_map(out, scan_.column(), depth);
    if (c == '"' || c == '\'') {
      out.style = Node::Style::quoted;
      return scan_.read_quoted(out.text, parent_indent + 1) && rest_of_line("quote");
    }
    return scan_.read_plain(out.text, parent_indent + 1, false);
  }

  // What stands behind "key:" or "-".
  bool block_value(Node& out, int parent_indent, int depth, bool behind_dash) {
    out.offset = scan_.at() - 1;
    if (!scan_.skip_blanks()) return block_node(out, parent_indent, depth, behind_dash);
    if (!scan_.next_content()) return true;
    if (scan_.column() > parent_indent) return block_node(out, parent_indent, depth, true);
    if (!behind_dash && scan_.column() == parent_indent && scan_.dash_here()) {
      out.offset = scan_.at();
      return !deep(depth) && block_list(out, parent_indent, depth);
    }
    return true;
  }

  // Behind a fault: to the next line that is indented no more than `indent`.
  void recover(int indent) {
    do {
      scan_.skip_line();
    } while (scan_.next_content() && (scan_.column() > indent || scan_.peek() == '}' || scan_.peek() == ']'));
  }

  // After an entry at `indent`: true if another one follows.
  bool another(Node& out, int indent) {
    if (!scan_.next_content() || scan_.column() < indent) return false;
    if (scan_.column() == indent) return true;
    scan_.fail(scan_.at(), "indented by " + std::to_string(scan_.column()) + ", its neighbours by " +
                               std::to_string(indent));
    out.partial = true;
    recover(indent);
    return !scan_.done() && scan_.column() == indent;
  }

  // What `read` adds to `open_` from here on becomes the children of `out`.
  template <class Read>
  bool with_children(Node& out, const Read& read) {
    const std::size_t first = open_.size();
    const bool good = read(first);
    const std::size_t count = open_.size() - first;
    if (count > 0) {
      auto* place = static_cast<Node*>(memory_.allocate(count * sizeof(Node), alignof(Node)));
      std::uninitialized_copy_n(open_.data() + first, count, place);
      out.children = {place, count};
      open_.resize(first);
    }
    return good;
  }

  bool block_list(Node& out, int indent, int depth) {
    out.kind = Node::Kind::list;
    return with_children(out, [&](std::size_t) {
      do {
        if (!scan_.dash_here()) return true;  // a list at the indentation of its key ends at the next key
        Node child;
        scan_.step();
        const bool good = block_value(child, indent, depth + 1, true);
        if (!good) broken(child, out);
        open_.push_back(child);
        if (good) continue;
        recover(indent);
        if (scan_.done() || scan_.column() < indent) return true;
      } while (another(out, indent));
      return true;
    });
  }

  bool block_map(Node& out, int indent, int depth) {
    out.kind = Node::Kind::map;
    KeySet keys;
    return with_children(out, [&](std::size_t first) {
      do {
        Node child;
        child.key_offset = scan_.at();
        const bool good = block_entry(child, indent, depth);
        if (!good) {
          broken(child, out);
          recover(indent);
        }
        keep(first, keys, child);
        if (!good && (scan_.done() || scan_.column() < indent)) return true;
      } while (another(out, indent));
      return true;
    });
  }

  bool block_entry(Node& child, int indent, int depth) {
    if (!may_begin()) return false;
    if (scan_.dash_here()) return scan_.fail(scan_.at(), "a list item among the keys of a map");
    return scan_.read_key(child.key, child.key_quoted, false) && block_value(child, indent, depth + 1, false);
  }

  static void broken(Node& child, Node& parent) {
    child.kind = Node::Kind::broken;
    child.children = {};
    parent.partial = true;
  }

  // Adds a child to the map whose children stand in `open_` from `first` on, unless its key is there already.
  void keep(std::size_t first, KeySet& keys, const Node& child) {
    if (child.key.empty()) return;
    const std::size_t before = keys.find(std::span(open_).subspan(first), child);
    if (before == std::string::npos) {
      open_.push_back(child);
    } else {
      scan_.fail(child.key_offset, "the key \"" + std::string(child.key) + "\" stands here a second time; first in line " +
                                       std::to_string(source_.line_of(before)));
    }
  }

  // Blanks inside a flow form; false if the form is never closed.
  bool flow_blanks(std::size_t open, int parent_indent) {
    const bool more = scan_.skip_flow_blanks();
    const bool closing = scan_.peek() == ']' || scan_.peek() == '}';
    if (more && (scan_.column() > parent_indent || closing)) return true;
    scan_.go_back(open);
    return scan_.fail(open, std::string("this ") + scan_.peek() + " is never closed");
  }

  bool flow(Node& out, int parent_indent, int depth) {
    const bool map = scan_.peek() == '{';
    out.kind = map ? Node::Kind::map : Node::Kind::list;
    return with_children(out, [&](std::size_t first) { return flow_children(first, map, parent_indent, depth); });
  }

  bool flow_children(std::size_t first, bool map, int parent_indent, int depth) {
    const std::size_t open = scan_.at();
    const char close = map ? '}' : ']';
    KeySet keys;
    scan_.step();
    for (;;) {
      if (!flow_blanks(open, parent_indent)) return false;
      if (scan_.peek() == close) {
        scan_.step();
        return true;
      }
      Node child;
      if (!may_begin()) return false;
      child.key_offset = scan_.at();
      if (map) {
        if (!scan_.read_key(child.key, child.key_quoted, true)) return false;
        child.offset = scan_.at() - 1;
        if (!flow_blanks(open, parent_indent)) return false;
      }
      if (scan_.peek() != ',' && scan_.peek() != close && !flow_value(child, parent_indent, depth + 1)) return false;
      const bool behind_quote = child.kind == Node::Kind::scalar && child.style == Node::Style::quoted;
      if (map) {
        keep(first, keys, child);
      } else {
        open_.push_back(child);
      }
      if (!flow_blanks(open, parent_indent)) return false;
      if (scan_.peek() == ',') {
        scan_.step();
      } else if (scan_.peek() != close) {
        const std::string found = behind_quote ? "found more text behind the closing quote, " : "";
        return scan_.fail(scan_.at(), found + "expected , or " + close);
      }
    }
  }

  bool flow_value(Node& out, int parent_indent, int depth) {
    out.offset = scan_.at();
    if (!may_begin() || deep(depth)) return false;
    if (scan_.dash_here()) return scan_.fail(scan_.at(), "a \"- \" item cannot stand inside brackets");
    const char c = scan_.peek();
    if (c == '{' || c == '[') return flow(out, parent_indent, depth);
    if (c == '|' || c == '>') return scan_.fail(scan_.at(), "a | or > block cannot stand inside brackets");
    out.kind = Node::Kind::scalar;
    if (c == '"' || c == '\'') {
      out.style = Node::Style::quoted;
      return scan_.read_quoted(out.text, parent_indent + 1);
    }
    return scan_.read_plain(out.text, parent_indent + 1, true);
  }

  SourceText& source_;
  std::pmr::memory_resource& memory_;
  YamlScanner scan_;
  std::vector<Node> open_;  // children of maps and lists that are not yet read to their end
};

}  // namespace

const Node* Node::find(std::string_view name) const {
  const auto found =
      std::find_if(children.begin(), children.end(), [&](const Node& child) { return child.key == name; });
  return found == children.end() ? nullptr : &*found;
}

YamlTree::YamlTree(SourceText& source)
    : memory_(source.text().size() * 4 + 64), root_(YamlReader(source, memory_).read()) {}

}  // namespace tenwinters
