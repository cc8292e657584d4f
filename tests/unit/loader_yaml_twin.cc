// The house's YAML reader against a general YAML library, its slow twin: on every file of the catalogue,
// and on small texts for each form that people write, both must read the same tree.
#include <gtest/gtest.h>
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/yaml.h>

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "loader/source_text.h"
#include "loader/yaml_tree.h"

namespace tenwinters {
namespace {

// Writes what the library reads as one line a node; ours is written the same way.
class Printer final : public YAML::EventHandler {
 public:
  std::string out;
  void OnDocumentStart(const YAML::Mark&) override {}
  void OnDocumentEnd() override {}
  void OnNull(const YAML::Mark& mark, YAML::anchor_t) override {
    (void)mark;
    add("null");
  }
  void OnAlias(const YAML::Mark&, YAML::anchor_t) override { add("alias"); }
  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t, const std::string& value) override {
    add((tag == "!" ? "quoted " : "plain ") + std::to_string(mark.line + 1) + " <" + value + ">");
  }
  void OnSequenceStart(const YAML::Mark&, const std::string&, YAML::anchor_t, YAML::EmitterStyle::value) override {
    add("[");
  }
  void OnSequenceEnd() override { add("]"); }
  void OnMapStart(const YAML::Mark&, const std::string&, YAML::anchor_t, YAML::EmitterStyle::value) override {
    add("{");
  }
  void OnMapEnd() override { add("}"); }

 private:
  void add(const std::string& line) { out += line + '\n'; }
};

std::string library_reads(const std::string& text) {
  std::istringstream in(text);
  YAML::Parser parser(in);
  Printer printer;
  while (parser.HandleNextDocument(printer)) {
  }
  return printer.out;
}

void print(const SourceText& source, const Node& node, std::string& out) {
  const auto line = [&](std::size_t offset) { return std::to_string(source.line_of(offset)); };
  switch (node.kind) {
    case Node::Kind::null:
      out += "null\n";
      break;
    case Node::Kind::broken:
      out += "broken\n";
      break;
    case Node::Kind::scalar:
      if (node.is_plain() && (node.text == "null" || node.text == "~")) {
        out += "null\n";
      } else {
        out += (node.is_plain() ? "plain " : "quoted ") + line(node.offset) + " <" + std::string(node.text) + ">\n";
      }
      break;
    case Node::Kind::list:
      out += "[\n";
      for (const Node& child : node.children) print(source, child, out);
      out += "]\n";
      break;
    case Node::Kind::map:
      out += "{\n";
      for (const Node& child : node.children) {
        out += (child.key_quoted ? "quoted " : "plain ") + line(child.key_offset) + " <" + std::string(child.key) + ">\n";
        print(source, child, out);
      }
      out += "}\n";
      break;
  }
}

std::string we_read(const std::string& text) {
  SourceText source("twin.yaml", text);
  const YamlTree tree(source);
  std::string out;
  for (const Diagnostic& fault : source.faults()) out += to_text(fault) + "\n";
  print(source, tree.root(), out);
  return out;
}

TEST(YamlTwin, ReadsEveryCatalogueFileLikeTheLibrary) {
  const std::filesystem::path root = std::filesystem::path(TENWINTERS_SOURCE_DIR) / "catalog";
  int files = 0;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(root)) {
    if (entry.path().extension() != ".yaml") continue;
    std::ifstream in(entry.path(), std::ios::binary);
    std::stringstream text;
    text << in.rdbuf();
    EXPECT_EQ(we_read(text.str()), library_reads(text.str())) << entry.path();
    ++files;
  }
  EXPECT_GE(files, 5);
}

TEST(YamlTwin, ReadsEveryFormThatPeopleWriteLikeTheLibrary) {
  const std::vector<std::string> texts = {
      "a: 1\nb: two words\n",
      "# a comment\n\na: 1   # another\n\n# last\n",
      "---\na: 1\n",
      "a:\n  b:\n    c: 1\n  d: 2\ne: 3\n",
      "a:\n- 1\n- 2\nb:\n  - 3\n",
      "- a: 1\n  b: 2\n- a: 3\n",
      "-\n  a: 1\n-\n  - x\n",
      "- - 1\n  - 2\n- 3\n",
      "a: {b: 1, c: [x, y], d: {}}\ne: []\n",
      "a: {b: 1,\n    c: 2}\nd: [1,\n    2, # why\n    3,\n  ]\n",
      "a: [\n  1,\n  2\n]\nb: 3\n",
      "a: {is: a few, it's: that's}\n",
      "a: 'it''s'\nb: \"q \\\" \\\\ \\n \\u00e9 \\x41 \\U0001F34B\"\n",
      "\"a b\": 1\n'c: d': 2\n",
      "a: {\"b\":1, 'c' : 2}\n",
      "a: one\n  two\n\n  three\nb: 1\n",
      "a: [one\n  two, three]\n",
      "a: 'one\n  two\n\n  three'\nb: 1\n",
      "a: \"one \\\n  two\\\n  \\ three\"\nb: 1\n",
      "a: |\n  one\n   two\n\n  three\n\nb: >\n  one\n  two\n\n  three\n   four\n  five\nc: 1\n",
      "a: |-\n  one\n\nb: |+\n  one\n\nc: >-\n  one\n  two\nd: 1\n",
      "a: |2\n   one\n  two\nb: 1\n",
      "- |\n  one\n- >\n  two\n",
      "a:\nb: 1\n",
      "url: https://example.org/a:b?c#d\n",
      "a: -1.5\nb: {c: , d: 1}\n",
      "a: x#y\nb: \"#z\"\n",
      "key with words: v\na.b/c-d: w\n",
      "months:\n  1: January\n  12: December\n",
      "wide: 金柑\nnext: {é: ü}\n",
      "a : 1\nb: 'x' # why\n",
  };
  for (const std::string& text : texts) EXPECT_EQ(we_read(text), library_reads(text)) << text;
}

}  // namespace
}  // namespace tenwinters
