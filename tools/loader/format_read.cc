// From text to Document: the tree with its comments and its ways of writing.
#include <algorithm>
#include <utility>

#include "loader/format.h"
#include "loader/source_text.h"
#include "loader/yaml_file.h"
#include "loader/yaml_tree.h"

namespace tenwinters {
namespace {

bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\n'; }

class Taker {
 public:
  explicit Taker(const SourceText& source) : source_(source), text_(source.text()) {}

  // "" or why not.
  std::string take(const Node& root, Document& document) {
    if (root.kind != Node::Kind::map) return "line 1: expected keys and values";
    (void)measure(root);
    find_comments();
    std::vector<Start> starts;
    document.root = part(root, starts);
    if (why_.empty()) attach(starts, document);
    return why_;
  }

 private:
  struct Span {
    std::size_t begin = 0, end = 0;
  };
  struct Comment {
    std::size_t offset = 0;
    int line = 0;
    bool own_line = false;
    bool blank_before = false;
    std::string text;
  };
  // Where a part that stands on lines of its own begins.
  struct Start {
    int line = 0;
    std::vector<std::size_t> path;  // of children's places from the root
  };

  void refuse(std::size_t offset, const std::string& what) {
    if (why_.empty()) why_ = "line " + std::to_string(source_.line_of(offset)) + ": " + what;
  }

  [[nodiscard]] bool is_flow(const Node& node) const {
    return (node.kind == Node::Kind::map || node.kind == Node::Kind::list) && node.offset < text_.size() &&
           (text_[node.offset] == '{' || text_[node.offset] == '[');
  }

  std::size_t end_of_quoted(std::size_t at) const {
    const char quote = text_[at];
    for (std::size_t i = at + 1; i < text_.size(); ++i) {
      const bool doubled = quote == '\'' && text_[i] == quote && i + 1 < text_.size() && text_[i + 1] == quote;
      if (doubled || (quote == '"' && text_[i] == '\\')) ++i;
      else if (text_[i] == quote) return i + 1;
    }
    return text_.size();
  }

  std::size_t end_of_scalar(const Node& node) {
    if (node.style == Node::Style::block) {
      refuse(node.offset, "a text over several lines, whose shape would be lost");
      return node.offset + 1;
    }
    const std::size_t end = node.style == Node::Style::quoted ? end_of_quoted(node.offset) : node.offset + node.text.size();
    const std::string_view raw = text_.substr(node.offset, end - node.offset);
    if (raw.find('\n') != std::string_view::npos || (node.style == Node::Style::plain && raw != node.text))
      refuse(node.offset, "a text over several lines, whose shape would be lost");
    return end;
  }

  Span key_span(const Node& node) const {
    const std::size_t end = node.key_quoted ? end_of_quoted(node.key_offset) : node.key_offset + node.key.size();
    return {node.key_offset, end};
  }

  // One past the node's last character. Notes on the way what is no comment.
  std::size_t measure(const Node& node) {
    std::size_t end = node.offset;
    if (node.kind == Node::Kind::scalar) {
      end = end_of_scalar(node);
      content_.push_back({node.offset, end});
      return end;
    }
    const bool flow = is_flow(node);
    if (flow) ++end;
    for (const Node& child : node.children) {
      if (node.kind == Node::Kind::map) content_.push_back(key_span(child));
      end = std::max(end, measure(child));
    }
    if (!flow) return end;
    const char closing = text_[node.offset] == '{' ? '}' : ']';
    while (end < text_.size() && text_[end] != closing) {
      if (text_[end] == '#' && is_blank(text_[end - 1])) {
        refuse(end, "a comment inside " + std::string(1, text_[node.offset]) + " " + closing);
        return end;
      }
      ++end;
    }
    flows_.push_back({node.offset, end + 1});
    return end + 1;
  }

  void find_comments() {
    std::sort(content_.begin(), content_.end(), [](const Span& a, const Span& b) { return a.begin < b.begin; });
    auto next = content_.begin();
    for (std::size_t i = 0; i < text_.size(); ++i) {
      while (next != content_.end() && next->end <= i) ++next;
      if (next != content_.end() && next->begin <= i) {
        i = next->end - 1;
        continue;
      }
      if (text_[i] != '#' || (i > 0 && !is_blank(text_[i - 1]))) continue;
      for (const Span& flow : flows_)
        if (flow.begin < i && i < flow.end) refuse(i, "a comment inside brackets");
      const std::size_t end = std::min(text_.find('\n', i), text_.size());
      const std::size_t line_start = text_.rfind('\n', i) == std::string_view::npos ? 0 : text_.rfind('\n', i) + 1;
      const std::string_view before = text_.substr(line_start, i - line_start);
      Comment comment{i, source_.line_of(i), before.find_first_not_of(" \t") == std::string_view::npos, blank_line_above(line_start),
                      std::string(text_.substr(i, end - i))};
      while (!comment.text.empty() && is_blank(comment.text.back())) comment.text.pop_back();
      comments_.push_back(std::move(comment));
      i = end;
    }
  }

  [[nodiscard]] bool blank_line_above(std::size_t line_start) const {
    if (line_start == 0) return false;
    std::size_t i = line_start - 1;  // the end of the line above
    while (i > 0 && (text_[i - 1] == ' ' || text_[i - 1] == '\t')) --i;
    return i > 0 && text_[i - 1] == '\n';
  }

  [[nodiscard]] std::size_t line_start_of(std::size_t offset) const {
    const std::size_t at = offset == 0 ? std::string_view::npos : text_.rfind('\n', offset - 1);
    return at == std::string_view::npos ? 0 : at + 1;
  }

  Part part(const Node& root, std::vector<Start>& starts) {
    std::vector<std::size_t> path;
    return part(root, false, path, starts);
  }

  Part part(const Node& node, bool in_flow, std::vector<std::size_t>& path, std::vector<Start>& starts) {
    Part out;
    out.kind = node.kind == Node::Kind::map ? Part::Kind::map : node.kind == Node::Kind::list ? Part::Kind::list : Part::Kind::scalar;
    out.text = node.text;
    if (node.kind == Node::Kind::scalar) {
      const std::size_t end = end_of_scalar(node);
      out.raw = std::string(text_.substr(node.offset, end - node.offset));
    }
    out.flow = in_flow || is_flow(node);
    for (const Node& child : node.children) {
      path.push_back(out.children.size());
      const std::size_t begin = node.kind == Node::Kind::map ? child.key_offset : child.offset;
      if (!out.flow) starts.push_back({source_.line_of(begin), path});
      out.children.push_back(part(child, out.flow, path, starts));
      Part& made = out.children.back();
      if (node.kind == Node::Kind::map) {
        const Span key = key_span(child);
        made.key = child.key;
        made.key_raw = std::string(text_.substr(key.begin, key.end - key.begin));
      }
      if (!out.flow) made.blank_before = blank_line_above(line_start_of(begin));
      // The first key of an item stands in the item's line.
      if (node.kind == Node::Kind::list && !made.children.empty()) made.children.front().blank_before = false;
      path.pop_back();
    }
    return out;
  }

  static Part& at(Document& document, const std::vector<std::size_t>& path) {
    Part* part = &document.root;
    for (std::size_t place : path) part = &part->children[place];
    return *part;
  }

  // A comment of its own belongs to what begins next; one behind something to what began last in its line.
  void attach(const std::vector<Start>& starts, Document& document) {
    for (const Comment& comment : comments_) {
      const auto next = std::find_if(starts.begin(), starts.end(), [&](const Start& start) {
        return comment.own_line ? start.line > comment.line : start.line >= comment.line;
      });
      if (comment.own_line) {
        if (next == starts.end()) {
          if (comment.blank_before && !document.footer.empty()) document.footer.emplace_back();
          document.footer.push_back(comment.text);
          continue;
        }
        Part& owner = at(document, next->path);
        if (owner.leading.empty()) owner.blank_before = comment.blank_before;
        else if (comment.blank_before) owner.leading.emplace_back();
        owner.leading.push_back(comment.text);
        continue;
      }
      auto last = next;
      while (last != starts.end() && last + 1 != starts.end() && (last + 1)->line == comment.line) ++last;
      if (last == starts.end() || last->line != comment.line) {
        refuse(comment.offset, "a comment that belongs to no value");
        return;
      }
      at(document, last->path).trailing = comment.text;
    }
  }

  const SourceText& source_;
  std::string_view text_;
  std::vector<Span> content_, flows_;
  std::vector<Comment> comments_;
  std::string why_;
};

}  // namespace

const Part* Part::find(std::string_view name) const {
  for (const Part& child : children)
    if (kind == Kind::map && child.key == name) return &child;
  return nullptr;
}

Part* Part::find(std::string_view name) { return const_cast<Part*>(std::as_const(*this).find(name)); }

std::string name_of_item(const Part& item, std::size_t index) {
  if (const Part* id = item.find("id")) return id->text;
  // Where items are of kinds, several may be of one region.
  if (item.find("kind") == nullptr)
    for (const char* key : {"region", "spot"})
      if (const Part* name = item.find(key)) return name->text;
  return std::to_string(index + 1);
}

Part* find_path(Part& from, std::string_view path) {
  if (path.empty()) return &from;
  const std::size_t dot = path.find('.');
  const std::string_view first = path.substr(0, dot), rest = dot == std::string_view::npos ? "" : path.substr(dot + 1);
  for (std::size_t i = 0; i < from.children.size(); ++i) {
    Part& child = from.children[i];
    if ((from.kind == Part::Kind::map ? child.key : name_of_item(child, i)) == first) return find_path(child, rest);
  }
  return nullptr;
}

std::string read_document(const std::string& name, const std::string& raw, Document& document) {
  document = {};
  SourceText source(name, raw);
  const YamlTree tree(source);
  for (const Diagnostic& fault : source.faults())
    if (!fault.warning) return "line " + std::to_string(fault.line) + ": " + fault.message;
  return Taker(source).take(tree.root(), document);
}

}  // namespace tenwinters
