// The house order of catalogue files, and the schemas from which it is taken.
#include <gtest/gtest.h>

#include <filesystem>
#include <map>
#include <random>

#include "cli_run.h"
#include "loader/format.h"
#include "loader/schema.h"

namespace tenwinters {
namespace {

namespace fs = std::filesystem;
using testing::file_text;

const fs::path kCatalog = fs::path(TENWINTERS_SOURCE_DIR) / "catalog";

std::map<std::string, std::string> catalog_texts() {
  std::map<std::string, std::string> texts;
  for (const auto& entry : fs::recursive_directory_iterator(kCatalog))
    if (entry.path().extension() == ".yaml") texts[entry.path().lexically_relative(kCatalog).generic_string()] = file_text(entry.path());
  return texts;
}

TEST(Format, EveryCatalogueFileStandsInTheHouseOrder) {
  const auto texts = catalog_texts();
  EXPECT_GT(texts.size(), 150u);
  for (const auto& [path, text] : texts) {
    const Formatted formatted = format_file(path, text);
    EXPECT_EQ(formatted.why, "") << path;
    EXPECT_EQ(formatted.text, text) << path;
  }
}

TEST(Format, ShuffledFilesComeBackAsTheyWere) {
  std::mt19937 random(7);
  const auto shuffle = [&](auto&& self, Part& part) -> void {
    if (part.kind == Part::Kind::map)
      for (std::size_t i = part.children.size(); i > 1; --i) std::swap(part.children[i - 1], part.children[random() % i]);
    for (Part& child : part.children) self(self, child);
  };
  int shuffled = 0;
  for (const auto& [path, text] : catalog_texts()) {
    // Words keep the order in which they were written, and what heads a table heads whatever stands first.
    if (!path.starts_with("cultivars/") && !path.starts_with("types/") && !path.starts_with("rootstocks/")) continue;
    Document document;
    ASSERT_EQ(read_document(path, text, document), "") << path;
    // The comment above the first key would move with it.
    const std::vector<std::string> head = std::move(document.root.children.front().leading);
    document.root.children.front().leading.clear();
    shuffle(shuffle, document.root);
    std::string mixed;
    for (const std::string& line : head) mixed += line + "\n";
    mixed += write_document(document, "");  // a file of no known kind: the order is left alone
    if (mixed == text) continue;
    ++shuffled;
    Document again;
    ASSERT_EQ(read_document(path, mixed, again), "") << path;
    again.root.children.front().leading.clear();
    std::string back;
    for (const std::string& line : head) back += line + "\n";
    EXPECT_EQ(back + write_document(again, path), text) << path;
  }
  EXPECT_GT(shuffled, 100);
}

TEST(Format, KeepsCommentsWithWhatTheyStandBy) {
  const std::string before =
      "# about the file\n"
      "name: Old Wharf  # as the trade writes it\n"
      "# why this type\n"
      "type: mandarin\n"
      "\n"
      "# the figures\n"
      "traits:\n"
      "  # seen by us\n"
      "  thorns: {seen: 2026-11-25, is: few, basis: common-practice, sources: []}  # on old wood\n"
      "  bloom: {from: 3, to: 4, sources: [], basis: common-practice, seen: 2026-11-25}\n"
      "id: old_wharf\n"
      "# at the end\n";
  const std::string after =
      "id: old_wharf\n"
      "# why this type\n"
      "type: mandarin\n"
      "# about the file\n"
      "name: Old Wharf  # as the trade writes it\n"
      "\n"
      "# the figures\n"
      "traits:\n"
      "  bloom: {from: 3, to: 4, sources: [], basis: common-practice, seen: 2026-11-25}\n"
      "  # seen by us\n"
      "  thorns: {is: few, sources: [], basis: common-practice, seen: 2026-11-25}  # on old wood\n"
      "# at the end\n";
  const Formatted formatted = format_file("cultivars/old_wharf.yaml", before);
  EXPECT_EQ(formatted.why, "");
  EXPECT_EQ(formatted.text, after);
  EXPECT_EQ(format_file("cultivars/old_wharf.yaml", after).text, after);
}

TEST(Format, SaysWhatItCannotKeep) {
  EXPECT_EQ(format_file("cultivars/a.yaml", "id: a\nname: |\n  one\n  two\n").why,
            "line 2: a text over several lines, whose shape would be lost");
  EXPECT_EQ(format_file("cultivars/a.yaml", "id: a\nsynonyms: [one,  # the first\n  two]\n").why.substr(0, 7), "line 2:");
  EXPECT_EQ(format_file("cultivars/a.yaml", "id: a\nid: b\n").why.substr(0, 7), "line 2:");
  EXPECT_NE(format_file("cultivars/a.yaml", "id: [a\n").why, "");
}

// An editor that reads the schema needs to be told of it, by the name it has.
TEST(Schema, EveryCatalogueFileNamesItsOwn) {
  for (const auto& [path, text] : catalog_texts()) {
    std::string up;
    for (char c : path) up += c == '/' ? "../" : "";
    EXPECT_EQ(text.substr(0, text.find('\n')), "# yaml-language-server: $schema=" + up + "schema/" + schema_of(path)) << path;
  }
}

TEST(Schema, TheFilesInTheCatalogueAreThoseOfTheLoader) {
  const std::vector<SchemaFile> schemas = catalog_schemas();
  std::size_t there = 0;
  for (const auto& entry : fs::directory_iterator(kCatalog / "schema")) there += entry.path().extension() == ".json" ? 1U : 0U;
  EXPECT_EQ(there, schemas.size());
  for (const SchemaFile& schema : schemas)
    EXPECT_EQ(file_text(kCatalog / "schema" / schema.name), schema.content)
        << schema.name << ": write it anew with `tenwinters export --schema catalog/schema`";
}

}  // namespace
}  // namespace tenwinters
