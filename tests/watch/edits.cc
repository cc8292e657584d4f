// A watch builds only what an edit has changed. Whatever the edit, the folder must hold what a fresh build makes.
#include <algorithm>
#include <cstdlib>
#include <map>
#include <random>
#include <regex>
#include <vector>

#include "faults/folders.h"
#include "watch/run.h"

namespace tenwinters {
namespace {

using namespace testing;

constexpr int kEdits = 16;

std::uint32_t number_from(const char* name, std::uint32_t usual) {
  const char* said = std::getenv(name);
  return said ? static_cast<std::uint32_t>(std::strtoul(said, nullptr, 10)) : usual;
}

class Editor {
 public:
  Editor(const Watched& watch, std::uint32_t seed) : watch_(watch), random_(seed) {}

  // Changes one file; says which, and how.
  std::string edit(int number) {
    n_ = std::to_string(number);
    using Edit = std::string (Editor::*)();
    // Every kind comes up before any comes again.
    constexpr Edit kKinds[] = {&Editor::prose, &Editor::word,   &Editor::page_template, &Editor::shared_template, &Editor::style,     &Editor::script,     &Editor::figure,
                               &Editor::name,  &Editor::office, &Editor::record,        &Editor::yards,           &Editor::no_prose, &Editor::print_room, &Editor::spanish_type, &Editor::line,
                               &Editor::choice};
    if (order_.empty()) {
      order_.assign(std::begin(kKinds), std::end(kKinds));
      std::shuffle(order_.begin(), order_.end(), random_);
    }
    const Edit kind = order_.back();
    order_.pop_back();
    return (this->*kind)();
  }

 private:
  std::size_t below(std::size_t limit) { return std::uniform_int_distribution<std::size_t>(0, limit - 1)(random_); }

  std::string any_file(const std::string& folder, const std::string& ending) {
    std::vector<std::string> found;
    const fs::path root = watch_.project().folder();
    for (const auto& entry : fs::recursive_directory_iterator(root / folder))
      if (entry.is_regular_file() && entry.path().string().ends_with(ending)) found.push_back(entry.path().lexically_relative(root).generic_string());
    std::sort(found.begin(), found.end());
    return found[below(found.size())];
  }
  std::string add(const std::string& path, const std::string& text) {
    watch_.save(path, watch_.project().read(path) + text);
    return path + ": one line more";
  }
  std::string swap(const std::string& path, const std::string& from, const std::string& to) {
    watch_.edit(path, from, to);
    return path + ": " + from + " -> " + to;
  }

  std::string prose() { return add(any_file("catalog/prose", ".md"), "\nEdit " + n_ + ", *in* the catalogue's \"prose\".\n"); }
  std::string word() {
    // Any line with one text in quotes, in either language.
    const std::string path = below(2) == 0 ? "catalog/words/en.yaml" : "catalog/words/es.yaml", text = watch_.project().read(path);
    std::vector<std::size_t> ends;  // the closing quotes
    for (std::size_t from = 0, to; (to = text.find('\n', from)) != std::string::npos; from = to + 1) {
      const std::string line = text.substr(from, to - from);
      if (line.starts_with("  ") && line.ends_with('"') && std::count(line.begin(), line.end(), '"') == 2 && line.find(": \"") != std::string::npos && line.find('{') == std::string::npos)
        ends.push_back(to - 1);
    }
    const std::size_t at = ends[below(ends.size())];
    std::string changed = text;
    watch_.save(path, changed.insert(at, " " + n_));
    return path + ": \"" + text.substr(text.rfind('\n', at - 1) + 1, at - text.rfind('\n', at - 1) - 1) + "\" gets " + n_;
  }
  // What a kind, a yard or a guide is in one line: on its own page, on lists of its kind and on sheets.
  std::string line() {
    const std::string path = "catalog/words/en.yaml", text = watch_.project().read(path), opening = "line: \"";
    std::vector<std::size_t> starts;
    for (std::size_t at = text.find(opening); at != std::string::npos; at = text.find(opening, at + 1)) starts.push_back(at + opening.size());
    const std::size_t at = starts[below(starts.size())];
    std::string changed = text;
    watch_.save(path, changed.insert(at, n_ + " "));
    return path + ": " + n_ + " before \"" + text.substr(at, text.find('"', at) - at) + "\"";
  }
  std::string page_template() { return add("site-templates/" + std::string(std::vector<const char*>{"cultivar", "type", "yard", "call", "search", "print_room"}[below(6)]) + ".mustache", "<!-- " + n_ + " -->\n"); }
  std::string shared_template() { return add("site-templates/" + std::string(std::vector<const char*>{"foot", "figure", "evidence", "print_tail", "names"}[below(5)]) + ".mustache", "<!-- " + n_ + " -->\n"); }
  std::string style() { return add(below(2) == 0 ? "site-templates/assets/style.css" : "site-templates/assets/print.css", "\np { --edit: " + n_ + " }\n"); }
  std::string script() { return add("site-templates/js/" + std::string(std::vector<const char*>{"say", "search", "reckon", "worker", "screens"}[below(5)]) + ".js", "\nconst edit" + n_ + " = '" + n_ + "';\n"); }
  // Replaces what stands between `start` and `end`.
  std::string set(const std::string& path, const std::string& start, const std::string& end, const std::string& value) {
    const std::string text = watch_.project().read(path);
    const std::size_t from = text.find(start) + start.size(), to = text.find(end, from);
    watch_.save(path, text.substr(0, from) + value + text.substr(to));
    return path + ": " + start + text.substr(from, to - from) + " -> " + value;
  }
  // Some place in the file of a cultivar or a type where `pattern` matches.
  struct Found { std::string path, text; std::smatch match; };
  void find_in_a_kind(const std::regex& pattern, Found& found) {
    do {
      found.path = any_file(below(3) == 0 ? "catalog/types" : "catalog/cultivars", ".yaml");
      found.text = watch_.project().read(found.path);
      const std::vector<std::smatch> all(std::sregex_iterator(found.text.begin(), found.text.end(), pattern), std::sregex_iterator());
      if (!all.empty()) found.match = all[below(all.size())];
    } while (found.match.empty());
  }
  std::string replace(const Found& found, std::size_t group, const std::string& with) {
    std::string changed = found.text;
    watch_.save(found.path, changed.replace(static_cast<std::size_t>(found.match.position(group)), static_cast<std::size_t>(found.match.length(group)), with));
    return found.path + ": " + found.match.str() + " -> " + with;
  }
  // To an end of its range.
  std::string figure() {
    static const std::regex kFigure(R"re((\w+): \{best: ([-\d.]+), low: ([-\d.]+), high: ([-\d.]+))re");
    Found found;
    find_in_a_kind(kFigure, found);
    const std::string key = found.match.str(1);
    const bool low = key == "hardened" || (key != "unhardened" && below(2) == 0);  // what is hardened must stay the hardier
    return replace(found, 2, found.match.str(low ? 3 : 4));
  }
  std::string choice() {
    static const std::regex kChoice(R"re((taste|thorns|sets_fruit|pollen|container): \{is: (\w+))re");
    static const std::map<std::string, std::vector<std::string>> kWords = {{"taste", {"sweet", "sweet_tart", "tart", "sour"}},
                                                                           {"thorns", {"none", "few", "some", "many"}},
                                                                           {"sets_fruit", {"without_pollen", "own_pollen", "partner_needed"}},
                                                                           {"pollen", {"none", "weak", "good"}},
                                                                           {"container", {"poor", "fair", "good"}}};
    Found found;
    find_in_a_kind(kChoice, found);
    const std::vector<std::string>& words = kWords.at(found.match.str(1));
    return replace(found, 2, words[below(words.size())]);
  }
  std::string name() { return swap(any_file("catalog/cultivars", ".yaml"), "\nname: ", "\nname: Edited "); }
  std::string office() { return swap("catalog/offices/demo/office.yaml", "Imaginary Landing", "Imaginary Landing " + n_); }
  std::string record() { return set("catalog/offices/demo/gannet_quay.csv", "\n1990-01-15,", ",", std::to_string(15 + std::stoi(n_) % 25)); }
  std::string yards() { return swap("site-templates/yards.json", "[", "[ "); }
  std::string no_prose() {
    const std::string path = any_file("catalog/prose/en/cultivars", ".md");
    fs::remove(watch_.project().folder() / path);
    return path + ": removed";
  }
  std::string print_room() { return swap("site-templates/print_office.json", "{", "{ "); }
  // One language's words on another's pages.
  std::string spanish_type() { return swap("catalog/words/es.yaml", "also: \"poncirus", "also: \"poncirus, editado " + n_); }

  const Watched& watch_;
  std::mt19937 random_;
  std::vector<std::string (Editor::*)()> order_;
  std::string n_;
};

TEST(Watch, AfterEachEditTheFolderHoldsWhatAFreshBuildMakes) {
  Watched watch("watch_edits");
  ASSERT_TRUE(watch.start());
  ASSERT_TRUE(watch.wait_for_build(1));
  const std::uint32_t seed = number_from("TENWINTERS_SEED", 20261126), edits = number_from("TENWINTERS_EDITS", kEdits);
  Editor editor(watch, seed);
  int changed_the_site = 0;
  Contents before = contents(watch.project().folder() / "out");
  for (std::uint32_t i = 1; i <= edits; ++i) {
    const int builds = watch.written();
    const std::string what = editor.edit(static_cast<int>(i));
    ASSERT_FALSE(HasFatalFailure()) << what;
    ASSERT_TRUE(watch.wait_for_build(builds + 1)) << "edit " << i << " of seed " << seed << ", " << what << "\n" << watch.log();
    const Outcome fresh = watch.project().run("site --out fresh");
    ASSERT_EQ(fresh.status, 0) << what << "\n" << fresh.text;
    const Contents now = contents(watch.project().folder() / "out"), wanted = contents(watch.project().folder() / "fresh");
    ASSERT_EQ(now.size(), wanted.size()) << what;
    for (const auto& [path, text] : wanted) {
      const auto own = now.find(path);
      ASSERT_TRUE(own != now.end() && own->second == text) << "edit " << i << " of seed " << seed << ", " << what << ": " << path << " is not as a fresh build makes it";
    }
    changed_the_site += now != before ? 1 : 0;
    before = now;
  }
  // Only blanks in the two JSON files leave it as it was.
  EXPECT_GT(changed_the_site, static_cast<int>(edits) / 2);
}

}  // namespace
}  // namespace tenwinters
