// Keeping the catalogue without programming: new, fmt, export and import as a person meets them, and a newcomer
// who follows the README alone.
#include <gtest/gtest.h>

#include <map>
#include <nlohmann/json.hpp>

#include "cli_run.h"

namespace tenwinters {
namespace {

namespace fs = std::filesystem;
using testing::Outcome;
using testing::ProjectCopy;

std::string replaced(std::string text, const std::string& what, const std::string& by) {
  const std::size_t at = text.find(what);
  EXPECT_NE(at, std::string::npos) << what;
  EXPECT_EQ(text.find(what, at + 1), std::string::npos) << "not once: " << what;
  return at == std::string::npos ? text : text.replace(at, what.size(), by);
}

std::map<std::string, std::string> all_files(const fs::path& folder) {
  std::map<std::string, std::string> texts;
  for (const auto& entry : fs::recursive_directory_iterator(folder))
    if (entry.is_regular_file()) texts[entry.path().lexically_relative(folder).generic_string()] = testing::file_text(entry.path());
  return texts;
}

std::string row_of(const std::string& csv, const std::string& start) {
  const std::size_t at = csv.find("\n" + start);
  EXPECT_NE(at, std::string::npos) << start;
  return at == std::string::npos ? "" : csv.substr(at + 1, csv.find('\n', at + 1) - at);
}

const std::string kHead = "file,path,value,low,high,unit,sources,basis,seen,note\n";

TEST(CatalogTable, TakenBackUnchangedItChangesNothing) {
  const ProjectCopy project("table");
  const auto before = all_files(project.folder());
  ASSERT_EQ(project.run("export --csv table.csv").status, 0);
  EXPECT_EQ(project.read("table.csv").substr(0, kHead.size()), kHead);
  const Outcome back = project.run("import table.csv --write");
  EXPECT_EQ(back.status, 0) << back.text;
  EXPECT_EQ(back.text, "The table and the catalogue say the same.\n");
  auto after = all_files(project.folder());
  after.erase("table.csv");
  EXPECT_EQ(after, before);
}

// The table is complete: a file that is lost comes back from it, but for its comments and a few quotes.
TEST(CatalogTable, HoldsEverythingOfACultivar) {
  const ProjectCopy project("whole");
  ASSERT_EQ(project.run("export --csv table.csv").status, 0);
  for (const char* id : {"owari", "clementine_algerian", "flying_dragon"})
    fs::remove(project.folder() / "catalog/cultivars" / (std::string(id) + ".yaml"));
  const Outcome back = project.run("import table.csv --write");
  EXPECT_EQ(back.status, 0) << back.text;
  ASSERT_EQ(project.run("export --csv again.csv").status, 0);
  EXPECT_EQ(project.read("again.csv"), project.read("table.csv"));
  EXPECT_EQ(project.run("fmt --check").status, 0);
}

TEST(CatalogTable, AChangeIsShownFirstAndWrittenWhenTold) {
  const ProjectCopy project("change");
  const std::string path = "catalog/cultivars/meiwa.yaml";
  project.write(path, replaced(project.read(path), "\ntraits:", "\n# what follows is its own\ntraits:"));
  ASSERT_EQ(project.run("export --csv table.csv").status, 0);
  const std::string row = row_of(project.read("table.csv"), "cultivars/meiwa.yaml,name,");
  project.write("table.csv", kHead + replaced(row, "Meiwa", "Meiwa of the wharf"));
  const std::string before = project.read(path);
  const std::string shown = "cultivars/meiwa.yaml  name\n    value: Meiwa -> Meiwa of the wharf\n";
  Outcome out = project.run("import table.csv");
  EXPECT_EQ(out.status, 0);
  EXPECT_EQ(out.text, shown + "1 change in 1 file; nothing was written. Say --write to write them.\n");
  EXPECT_EQ(project.read(path), before);
  out = project.run("import table.csv --write");
  EXPECT_EQ(out.status, 0);
  EXPECT_EQ(out.text, shown + "1 change in 1 file: written.\n");
  EXPECT_EQ(project.read(path), replaced(before, "name: Meiwa\n", "name: Meiwa of the wharf\n"));
}

TEST(CatalogTable, AFigureNotThereYetFindsItsPlace) {
  const ProjectCopy project("added");
  project.write("table.csv", kHead +
                                 "cultivars/silverhill.yaml,traits.spread_m,3.2,2.8,3.9,m,,estimate,2026-11-25,\"seen over a fence, and guessed\"\n");
  const Outcome out = project.run("import table.csv --write");
  EXPECT_EQ(out.status, 0) << out.text;
  EXPECT_NE(project.read("catalog/cultivars/silverhill.yaml")
                .find("  spread_m: {best: 3.2, low: 2.8, high: 3.9, unit: m, sources: [], basis: estimate, seen: 2026-11-25, "
                      "note: \"seen over a fence, and guessed\"}\n"),
            std::string::npos)
      << project.read("catalog/cultivars/silverhill.yaml");
  EXPECT_EQ(project.run("fmt --check").status, 0);
}

TEST(CatalogTable, WhatWouldBeAFaultIsNotWritten) {
  const ProjectCopy project("faults");
  const auto before = all_files(project.folder() / "catalog");
  const auto refuses = [&](const std::string& rows, const std::string& said) {
    project.write("table.csv", rows);
    const Outcome out = project.run("import table.csv --write");
    EXPECT_EQ(out.status, 1) << rows;
    EXPECT_NE(out.text.find(said), std::string::npos) << out.text;
    EXPECT_NE(out.text.find("nothing was written"), std::string::npos) << out.text;
    EXPECT_EQ(all_files(project.folder() / "catalog"), before);
  };
  refuses(kHead + "cultivars/owari.yaml,traits.fruit_cm,6,7,8,cm,,common-practice,2026-11-25,\n", "low is 7, more than best, 6");
  refuses(kHead + "cultivars/owari.yaml,traits.no_such,6,5,7,cm,,common-practice,2026-11-25,\n", "row 2, cultivars/owari.yaml traits.no_such");
  refuses(kHead + "../owari.yaml,name,X,,,,,,,\n", "is no file of a catalogue");
  refuses(kHead + "cultivars/owari.yaml,traits.thorns,few,1,,,,,,\n", "this figure has no low");
  refuses("file,path,value\n", "the first line has no column");
  refuses("", "the table is empty");
  project.write("table.csv", kHead + "cultivars/owari.yaml,name,\"Owari\n");
  EXPECT_NE(project.run("import table.csv").text.find("the quote that opens in line 2 is never closed"), std::string::npos);
}

TEST(NewCultivar, TheFileIsSoundAsWrittenAndWithEveryTraitTakenUp) {
  const ProjectCopy project("new");
  for (const char* type : {"mandarin", "trifoliate", "finger_lime"}) {
    const Outcome out = project.run(std::string("new cultivar \"Île d'Or\" --type ") + type);
    EXPECT_EQ(out.status, 0) << out.text;
    // "Île d'Or" -> ile_dor: an apostrophe parts no word.
    const std::string made = "catalog/cultivars/ile_dor.yaml";
    ASSERT_TRUE(fs::exists(project.folder() / made)) << out.text;
    EXPECT_EQ(project.run("check").status, 0);
    EXPECT_EQ(project.run("fmt --check " + made).status, 0);
    std::string text = project.read(made);
    std::string all;
    int taken = 0;
    for (std::size_t at = 0; at < text.size();) {
      const std::size_t end = text.find('\n', at) + 1;
      std::string line = text.substr(at, end - at);
      if (line.starts_with("#traits:") || line.starts_with("#  ") || line.starts_with("#cold_offset:")) {
        line.erase(0, 1);
        ++taken;
      }
      all += line;
      at = end;
    }
    EXPECT_GT(taken, 25) << text;
    project.write(made, all);
    const Outcome check = project.run("check");
    EXPECT_EQ(check.status, 0) << check.text;
    EXPECT_EQ(project.run("fmt --check " + made).status, 0);
    const Outcome twice = project.run(std::string("new cultivar \"Île d'Or\" --type ") + type);
    EXPECT_EQ(twice.status, 1);
    EXPECT_EQ(project.read(made), all) << "a file that is there is never written over";
    fs::remove(project.folder() / made);
  }
  const Outcome unknown = project.run("new cultivar X --type mandarine");
  EXPECT_EQ(unknown.status, 2);
  EXPECT_NE(unknown.text.find("did you mean \"mandarin\"?"), std::string::npos) << unknown.text;
  EXPECT_EQ(project.run("new cultivar 123 --type mandarin").status, 2);
}

// Does line by line what the README tells a newcomer. The editor stands for the person: it takes the # away in
// front of two traits and puts other figures in; in the file for people it writes two sentences.
TEST(Newcomer, AddsACultivarByTheReadmeAlone) {
  const ProjectCopy project("newcomer");
  const std::string readme = project.read("README.md");
  const std::size_t section = readme.find("### A new cultivar\n");
  ASSERT_NE(section, std::string::npos);
  const std::size_t begin = readme.find("```\n", section) + 4, end = readme.find("```", begin);
  std::string steps = readme.substr(begin, end - begin);
  ASSERT_NE(steps.find("new cultivar"), std::string::npos);

  fs::create_directories(project.folder() / "build");
  fs::create_directory_symlink(TENWINTERS_BINARY_DIR, project.folder() / "build/release");
  project.write("editor", "#!/bin/sh\ncase \"$1\" in\n"
                          "*.md) echo 'A mandarin of the old wharf. It keeps well.' > \"$1\" ;;\n"
                          "*) sed -i -e 's/^#traits:/traits:/' -e 's/^#\\(  thorns: {is: \\)few/\\1none/' -e 's/^#\\(  peel: \\)/\\1/' \"$1\" ;;\nesac\n");
  fs::permissions(project.folder() / "editor", fs::perms::owner_all);
  auto before = all_files(project.folder() / "catalog");
  const Outcome out = testing::run_shell(project.folder(), "set -e\nEDITOR=./editor\n" + steps);
  EXPECT_EQ(out.status, 0) << out.text;
  const auto cultivars = std::distance(fs::directory_iterator(project.folder() / "catalog/cultivars"), fs::directory_iterator());
  EXPECT_NE(out.text.find(std::to_string(cultivars) + " cultivars"), std::string::npos) << out.text;
  EXPECT_NE(out.text.find("Old Wharf (old_wharf), a cultivar of mandarin\n"), std::string::npos) << out.text;

  // Two files more, and none other touched.
  auto after = all_files(project.folder() / "catalog");
  EXPECT_EQ(after.erase("cultivars/old_wharf.yaml"), 1u);
  EXPECT_EQ(after.erase("prose/en/cultivars/old_wharf.md"), 1u);
  EXPECT_EQ(after, before);

  const Outcome ranked = project.run("rank --place gannet_quay --answer sun=full --answer planting=ground --all --json");
  EXPECT_EQ(ranked.status, 0) << ranked.text;
  EXPECT_NE(ranked.text.find("\"old_wharf\""), std::string::npos) << "the new cultivar is not ranked";
}

}  // namespace
}  // namespace tenwinters
