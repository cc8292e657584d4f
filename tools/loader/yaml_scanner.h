// The characters under the YAML reader: lines, indentation, blanks, and the scalars made of them.
#pragma once

#include <cstddef>
#include <memory_resource>
#include <string>
#include <string_view>

#include "loader/source_text.h"
#include "loader/yaml_tree.h"

namespace tenwinters {

// A place in the text that moves forward. Columns count bytes from 0; indentation is spaces only.
class YamlScanner {
 public:
  // Texts that are not written in one piece are put together in `memory`.
  YamlScanner(SourceText& source, std::pmr::memory_resource& memory) : source_(source), memory_(memory), text_(source.text()) {}

  [[nodiscard]] std::size_t at() const { return at_; }
  [[nodiscard]] char peek(std::size_t ahead = 0) const {
    return at_ + ahead < text_.size() ? text_[at_ + ahead] : '\n';
  }
  [[nodiscard]] bool done() const { return done_; }
  [[nodiscard]] int column() const { return static_cast<int>(at_ - line_start_); }
  void step(std::size_t count = 1) { at_ += count; }
  // Back to a place in the current or an earlier line.
  void go_back(std::size_t offset);

  // From the end of a value to the first character of the next line with content. False, and done() from
  // then on, at the end of the text or of the document.
  bool next_content();
  // Past blanks in the line. True if nothing but a comment is left of the line.
  bool skip_blanks();
  // Past blanks, comments and line ends, for flow forms. False at the end of the text.
  bool skip_flow_blanks();
  void skip_line();

  // True if a plain or quoted key and its colon stand here.
  [[nodiscard]] bool key_here() const;
  // ": " or a colon at the end of the line, here.
  [[nodiscard]] bool colon_here(std::size_t ahead = 0) const { return peek(ahead) == ':' && is_blank(peek(ahead + 1)); }
  [[nodiscard]] bool dash_here() const { return peek() == '-' && is_blank(peek(1)); }

  // Scalars, from their first character to behind their last. Lines that go on a scalar must be indented
  // by at least `indent`. False after a fault.
  bool read_quoted(std::string_view& out, int indent);
  bool read_plain(std::string_view& out, int indent, bool in_flow);
  bool read_block(std::string_view& out, int parent_indent);
  // A one-line key and its colon; the place is then behind the colon.
  bool read_key(std::string_view& out, bool& quoted, bool in_flow);

  // False, for `return fail(...)`.
  bool fail(std::size_t offset, std::string message);
  [[nodiscard]] static bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\n'; }

 private:
  bool read_pieces(std::string& out, int indent);
  bool read_escape(std::string& out);
  [[nodiscard]] std::string_view keep(std::string_view text);
  bool read_hex(std::size_t digits, char32_t& value);
  bool document_mark_here() const;
  void begin_line();
  [[nodiscard]] std::size_t line_end() const;

  SourceText& source_;
  std::pmr::memory_resource& memory_;
  std::string_view text_;
  std::size_t at_ = 0;
  std::size_t line_start_ = 0;
  bool done_ = false;
  bool tab_told_ = false;
  bool started_ = false;
};

}  // namespace tenwinters
