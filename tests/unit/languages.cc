// A third language is one more file of words and a folder of prose: the checker says what it lacks, and the site is
// built with it, without touching the program.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <regex>
#include <string>

#include "cli_run.h"

namespace tenwinters {
namespace {

namespace fs = std::filesystem;
using testing::Outcome;
using testing::ProjectCopy;

void replace_once(std::string& text, const std::string& what, const std::string& with) {
  const std::size_t at = text.find(what);
  ASSERT_NE(at, std::string::npos) << what;
  text.replace(at, what.size(), with);
}

// English under the invented code xx, spoken by the office beside its own two.
void add_third_language(const ProjectCopy& project) {
  std::string words = project.read("catalog/words/en.yaml");
  replace_once(words, "code: en\n", "code: xx\n");
  replace_once(words, "name: English\n", "name: Xanthic\n");
  replace_once(words, "site_title: \"", "site_title: \"In Xanthic: ");
  replace_once(words, "back: \"Back to", "back: \"In Xanthic: back to");  // printed sheets do not bear the site's title
  project.write("catalog/words/xx.yaml", words);
  fs::copy(project.folder() / "catalog/prose/en", project.folder() / "catalog/prose/xx", fs::copy_options::recursive);
  std::string office = project.read("catalog/offices/demo/office.yaml");
  replace_once(office, "languages: [en, es]", "languages: [en, es, xx]");
  project.write("catalog/offices/demo/office.yaml", office);
}

// Pages of one language, by their path in its folder.
std::map<std::string, std::string> pages(const fs::path& site, const std::string& code) {
  std::map<std::string, std::string> found;
  for (const auto& entry : fs::recursive_directory_iterator(site / code))
    if (entry.path().extension() == ".html") found[entry.path().lexically_relative(site / code).generic_string()] = testing::file_text(entry.path());
  return found;
}

class ThirdLanguage : public ::testing::Test {
 protected:
  // Built once; building takes seconds.
  static void SetUpTestSuite() {
    project_ = new ProjectCopy("languages");
    add_third_language(*project_);
    checked_ = new Outcome(project_->run("check"));
    built_ = new Outcome(project_->run("site --out site --templates " TENWINTERS_SOURCE_DIR "/site-templates --engine README.md --screens-engine README.md"));
  }
  static void TearDownTestSuite() {
    delete built_;
    delete checked_;
    delete project_;
  }
  static ProjectCopy* project_;
  static Outcome *checked_, *built_;
};
ProjectCopy* ThirdLanguage::project_ = nullptr;
Outcome* ThirdLanguage::checked_ = nullptr;
Outcome* ThirdLanguage::built_ = nullptr;

TEST_F(ThirdLanguage, TheCheckerTellsWhereItsTextIsWanting) {
  EXPECT_EQ(checked_->status, 0) << checked_->text;  // what is missing is a warning
  EXPECT_NE(checked_->text.find("catalog/rules.yaml:"), std::string::npos) << checked_->text;
  EXPECT_NE(checked_->text.find("warning: rules.fed_canker.says: no text in \"xx\""), std::string::npos) << checked_->text;
  EXPECT_NE(checked_->text.find("no faults"), std::string::npos) << checked_->text;
  // Its words are whole, so nothing is said of them.
  EXPECT_EQ(checked_->text.find("words/xx.yaml"), std::string::npos) << checked_->text;
  std::string words = project_->read("catalog/words/xx.yaml");
  const std::string whole = words;
  replace_once(words, "  use_fits: \"Good for {use}.\"\n", "");
  project_->write("catalog/words/xx.yaml", words);
  const Outcome lacking = project_->run("check");
  project_->write("catalog/words/xx.yaml", whole);
  EXPECT_EQ(lacking.status, 0);
  EXPECT_NE(lacking.text.find("warning: reasons: missing use_fits"), std::string::npos) << lacking.text;
}

TEST_F(ThirdLanguage, TheSiteHasEveryPageInIt) {
  ASSERT_EQ(built_->status, 0) << built_->text;
  const auto english = pages(project_->folder() / "site", "en"), third = pages(project_->folder() / "site", "xx");
  ASSERT_GT(english.size(), 150u);
  ASSERT_EQ(english.size(), third.size());
  for (const auto& [path, text] : third) {
    ASSERT_TRUE(english.contains(path)) << path;
    EXPECT_NE(text.find("<html lang=\"xx\""), std::string::npos) << path;
    EXPECT_NE(text.find("In Xanthic: "), std::string::npos) << path;
    EXPECT_EQ(std::count(text.begin(), text.end(), '\n'), std::count(english.at(path).begin(), english.at(path).end(), '\n')) << path;
  }
  EXPECT_NE(testing::file_text(project_->folder() / "site/index.html").find("Xanthic"), std::string::npos);
}

// A key without text shows as "[the.key]"; nothing of the kind, and no empty cell, may reach a reader. Empty by right
// are the corner of a table between its two kinds of headings, and the line that the picker speaks through.
TEST_F(ThirdLanguage, NoPageShowsAnEmptyOrPlaceholderField) {
  ASSERT_EQ(built_->status, 0) << built_->text;
  const std::regex placeholder(R"(\[[a-z_]+[.][a-z0-9_.-]+\]|\{[a-z_]+\}|>\s*(TO[D]O|TB[D]|N/A|null|undefined|nan)\s*<)");
  const std::regex empty(R"(<(td|th|dd|dt|h1|h2|h3|p|li|a|caption)( [^>]*)?>\s*</\1>)");
  for (const char* code : {"en", "es", "xx"})
    for (auto [path, text] : pages(project_->folder() / "site", code)) {
      for (const std::string rightly : {"<thead><tr><td></td>", "role=\"status\"></p>"})
        for (std::size_t at = text.find(rightly); at != std::string::npos; at = text.find(rightly, at)) text.erase(at, rightly.size());
      std::smatch found;
      EXPECT_FALSE(std::regex_search(text, found, placeholder)) << code << "/" << path << ": " << found.str();
      EXPECT_FALSE(std::regex_search(text, found, empty)) << code << "/" << path << ": " << found.str();
    }
}

TEST_F(ThirdLanguage, DescentIsSaidInWholeSentences) {
  ASSERT_EQ(built_->status, 0) << built_->text;
  const auto page = [&](const char* path) { return testing::file_text(project_->folder() / "site" / path); };
  const std::string wild = "<i lang=\"la\">Citrus maxima (Burm.) Merr.</i>";
  const std::string minneola = page("en/cultivars/minneola.html");
  EXPECT_NE(minneola.find("Descends from <a href=\"../cultivars/duncan.html\">Duncan</a> and <a href=\"../cultivars/dancy.html\">Dancy</a>. "
                          "Its line goes back to 2 wild species: wild pomelo (" + wild + ") and wild mandarin (<i lang=\"la\">Citrus reticulata Blanco</i>)."),
            std::string::npos);
  EXPECT_NE(page("es/cultivars/minneola.html").find("Desciende de <a href=\"../cultivars/duncan.html\">Duncan</a> y <a"), std::string::npos);
  // A cultivar that is only one of its type is not said to descend from it; a type that is wild itself has no parents.
  EXPECT_EQ(page("en/cultivars/owari.html").find("Descends from"), std::string::npos);
  EXPECT_NE(page("en/cultivars/owari.html").find("Its line goes back to 2 wild species: "), std::string::npos);
  EXPECT_NE(page("en/types/kumquat.html").find("Its line goes back to one wild species: wild kumquat (<i"), std::string::npos);
  EXPECT_EQ(page("en/types/citron.html").find("Descends from"), std::string::npos);
  EXPECT_NE(page("es/types/lemon.html").find("Desciende de <a href=\"../types/citron.html\">Cidra</a> y <a href=\"../types/sour_orange.html\">Naranja agria</a>."),
            std::string::npos);
  // The Key lime is a type and a cultivar of the same name; in Spanish it has another.
  EXPECT_NE(page("es/types/tahiti_lime.html").find("Desciende de <a href=\"../types/key_lime.html\">Limón mexicano</a> y "), std::string::npos);
}

// Names in a language that is not the page's are marked, for those who listen to the page.
TEST_F(ThirdLanguage, NamesInAnotherLanguageAreMarked) {
  ASSERT_EQ(built_->status, 0) << built_->text;
  const auto page = [&](const char* path) { return testing::file_text(project_->folder() / "site" / path); };
  EXPECT_NE(page("es/types/key_lime.html").find("limón criollo, limón agrio, lima ácida, <span lang=\"en\">Mexican lime, "), std::string::npos);
  EXPECT_NE(page("en/types/key_lime.html").find("<span lang=\"es\">limón criollo, "), std::string::npos);
  EXPECT_NE(page("es/cultivars/owari.html").find("<span lang=\"en\">Owari satsuma, Unshu mikan</span>"), std::string::npos);
  EXPECT_EQ(page("en/cultivars/owari.html").find("<span lang=\"en\">"), std::string::npos);
}

}  // namespace
}  // namespace tenwinters
