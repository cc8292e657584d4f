// What a hostile catalogue may not do; see README.md. The browser's part is tests/browser/hostile.mjs.
#include "hostile_catalog.h"

#include <gtest/gtest.h>

#include <fstream>
#include <nlohmann/json.hpp>

#include "lib/csv.h"
#include "lib/utf8.h"
#include "unit/cli_run.h"

namespace tenwinters {
namespace {

namespace fs = std::filesystem;
using testing::HostileCatalog;
using testing::Outcome;

constexpr std::size_t kFewestKept = 3000;

const fs::path& folder() {
  static const fs::path kFolder = fs::path(TENWINTERS_BINARY_DIR) / "hostile";
  return kFolder;
}

Outcome run(const std::string& arguments) {
  return testing::run_shell(folder(), std::string(TENWINTERS_BINARY_DIR) + "/tenwinters --catalog catalog --today " + testing::kToday + " " + arguments);
}

// Prose is Markdown, with its own ways of becoming more than text.
constexpr std::string_view kProse = R"prose(

[press](javascript:alarm()) [press](JaVaScRiPt:alarm()) [press](&#106;avascript:alarm()) [press](vbscript:alarm()) [press](data:text/html;base64,PHNjcmlwdD5hbGFybSgpPC9zY3JpcHQ+)
[press][trap] ![picture](https://evil.invalid/x.png "\"onload=alarm()") ![picture](x.png)

[trap]: javascript:alarm() "onmouseover=alarm()"

Code may hold HTML: `<script>alarm()</script>` and `` ` <img src=x onerror=alarm()>``.

{{ui.home_title}} {{{title}}} {{#places}} =HYPERLINK("https://evil.invalid")

\<script>alarm()\</script> &lt;script&gt;alarm()&lt;/script&gt;
)prose";

class Hostile : public ::testing::Test {
 public:
  static void SetUpTestSuite() {
    made_ = testing::make_hostile(fs::path(TENWINTERS_SOURCE_DIR) / "catalog", 0);
    fs::remove_all(folder());
    for (const auto& [path, text] : made_.files) {
      const fs::path to = folder() / "catalog" / path;
      fs::create_directories(to.parent_path());
      std::ofstream(to, std::ios::binary) << text << (path.ends_with(".md") ? kProse : "");
    }
    fs::copy(fs::path(TENWINTERS_SOURCE_DIR) / "site-templates", folder() / "site-templates", fs::copy_options::recursive);
  }
  static HostileCatalog made_;
};
HostileCatalog Hostile::made_;

TEST_F(Hostile, TheLoaderLetsTextsPassAndNothingElse) {
  for (const std::string& fault : made_.unexplained) ADD_FAILURE() << fault;
  std::cout << "  " << made_.tried << " values tried, " << made_.kept << " of them texts that may be anything\n";
  EXPECT_GE(made_.kept, kFewestKept);
  EXPECT_LT(made_.kept, made_.tried);
}

// Ids become file names, links and keys of scripts: whatever is tried, all are still what they were.
TEST_F(Hostile, NoIdAddressOrFileNameIsEverHostile) {
  const fs::path source = fs::path(TENWINTERS_SOURCE_DIR) / "catalog";
  const DiskReader disk;
  const Catalog before = load_catalog(disk, source.string(), testing::kToday).catalog;
  for (const std::size_t shift : {std::size_t{6}, std::size_t{11}}) {
    MemoryReader files;
    const HostileCatalog made = testing::make_hostile(source, shift);
    for (const auto& [path, text] : made.files) files.files["catalog/" + path] = text;
    const Catalog after = load_catalog(files, "catalog", testing::kToday).catalog;
    const auto ids = [](const auto& things) {
      std::vector<std::string> out;
      for (const auto& thing : things) out.push_back(thing.id);
      return out;
    };
    EXPECT_EQ(ids(before.cultivars), ids(after.cultivars));
    EXPECT_EQ(ids(before.types), ids(after.types));
    EXPECT_EQ(ids(before.rootstocks), ids(after.rootstocks));
    EXPECT_EQ(ids(before.questions), ids(after.questions));
    EXPECT_EQ(ids(before.cautions), ids(after.cautions));
    EXPECT_EQ(ids(before.sources), ids(after.sources));
    for (std::size_t i = 0; i < after.sources.size(); ++i) EXPECT_EQ(before.sources[i].url, after.sources[i].url);
    const Office was = load_office(disk, (source / "offices/demo/office.yaml").string(), before, testing::kToday).office;
    const LoadedOffice office = load_office(files, "catalog/offices/demo/office.yaml", after, testing::kToday);
    EXPECT_EQ(ids(was.places), ids(office.office.places));
    EXPECT_EQ(ids(was.rules), ids(office.office.rules));
    EXPECT_EQ(was.address, office.office.address);
    EXPECT_EQ(was.languages, office.office.languages);
    for (const std::string& record : office.record_paths) EXPECT_EQ(record.find(".."), std::string::npos) << record;
  }
}

// A file whose name is a trick is told, not followed.
TEST_F(Hostile, AFileWithANameThatIsNoIdIsRefused) {
  for (const char* name : {"<script>", "a'b", "a b", "\xE2\x80\xAEx", "-x", "=x"}) {
    MemoryReader files;
    for (const auto& [path, text] : made_.files) files.files["catalog/" + path] = text;
    files.files[std::string("catalog/cultivars/") + name + ".yaml"] = files.files["catalog/cultivars/owari.yaml"];
    const std::vector<Diagnostic> faults = load_catalog(files, "catalog", testing::kToday).faults;
    EXPECT_TRUE(std::any_of(faults.begin(), faults.end(), [&](const Diagnostic& fault) {
      return !fault.warning && fault.file.find(name) != std::string::npos;
    })) << name;
  }
}

// The terminal is told nothing but text: a control character could repaint what stands on it.
TEST_F(Hostile, TheTerminalGetsPlainText) {
  for (const char* command : {"check", "rank --why", "rank --json", "explain owari", "evidence owari", "key", "climate catalog/offices/demo/gannet_quay.csv",
                              "night 2>&1", "yard", "ask </dev/null", "--lang es rank --all", "explain $'\\033]0;x\\007\\033[2J'",
                              "$'\\033[2J'", "rank --place $'\\033[2J'", "rank --answer $'\\033[2J=\\033[2J'", "--lang $'\\033[2J' rank",
                              "site --out /dev/null/$'\\033[2J'", "climate $'\\033[2J'", "import $'\\033[2J'", "--catalog $'\\033[2J' check",
                              "--office $'\\033[2J' check", "night --file $'\\033[2J'", "fmt $'\\033[2J'", "new type $'\\033[2J'",
                              "new cultivar $'\\033[2J' --type mandarin", "yard $'\\033[2J'"}) {
    const Outcome said = testing::run_shell(folder(), "bash -c \"" + [&] {
      std::string escaped;
      for (const char c : std::string(TENWINTERS_BINARY_DIR) + "/tenwinters --today " + testing::kToday + " " + command) {
        if (c == '"' || c == '\\' || c == '$' || c == '`') escaped += '\\';
        escaped += c;
      }
      return escaped;
    }() + "\"");
    EXPECT_NE(said.text, "") << command;
    for (std::size_t at = 0; at < said.text.size();) {
      const CodePoint point = code_point_at(said.text, at);
      ASSERT_TRUE(point.valid && !is_hidden(point.value)) << command << ": " << shown(said.text.substr(at > 60 ? at - 60 : 0, 120));
      at += point.bytes;
    }
  }
}

TEST_F(Hostile, JsonHoldsWhatTheCatalogueSays) {
  const Outcome said = run("rank --json 2>/dev/null");
  ASSERT_EQ(said.status, 0);
  EXPECT_TRUE(nlohmann::json::accept(said.text));
}

// In the table no cell begins as a formula does, and it comes back as it was.
TEST_F(Hostile, TheTableHoldsNoFormula) {
  ASSERT_EQ(run("export --csv table.csv").status, 0);
  const std::string table = testing::file_text(folder() / "table.csv");
  std::size_t formulas = 0, cells = 0;
  bool quoted = false, start = true;
  for (std::size_t i = 0; i < table.size(); ++i) {
    const char c = table[i];
    if (start && !quoted) {
      const std::size_t first = c == '"' ? i + 1 : i;
      ++cells;
      const char begins = table[first], next = table[first + 1];
      if (begins == '\'') ++formulas;
      const bool number = (begins == '-' || begins == '+') && next >= '0' && next <= '9';
      EXPECT_TRUE(number || std::string_view("=+-@\t\r").find(begins) == std::string_view::npos) << table.substr(first, 60);
    }
    if (c == '"') quoted = !quoted;
    start = !quoted && (c == ',' || c == '\n') && i + 1 < table.size();
  }
  EXPECT_GT(formulas, 1000u);
  EXPECT_GT(cells, 50000u);
  const Outcome back = run("import table.csv");
  EXPECT_EQ(back.status, 0);
  EXPECT_EQ(back.text, "The table and the catalogue say the same.\n");
}

TEST(Csv, WhatWouldBeAFormulaComesBackAsItWas) {
  for (const std::string text : {"=1+1", "+a", "-b", "@c", "'=d", "''=e", "'f", "-3.5", "+4", "-", "'-3", "-1-1", "\tg", "\rh", "=\"i\",\n", "", "'"}) {
    const auto rows = read_csv(csv_line({"x", text})).rows;
    ASSERT_EQ(rows.size(), 1u) << text;
    EXPECT_EQ(rows[0].at(1), text);
  }
  EXPECT_EQ(csv_line({"-3.5", "=1", "-1-1", "+4"}), "-3.5,'=1,'-1-1,+4\n");
}

// A table may name no file outside the catalogue.
TEST_F(Hostile, ATableChangesNoForeignFile) {
  std::ofstream(folder() / "victim.yaml") << "id: victim\n";
  for (const char* path : {"../victim.yaml", "cultivars/../../victim.yaml", "/etc/victim.yaml", "cultivars/..\\victim.yaml", "cultivars/a/../../../victim.yaml"}) {
    std::ofstream(folder() / "attack.csv", std::ios::trunc)
        << "file,path,value,low,high,unit,sources,basis,seen,note\n" << path << ",id,other,,,,,,,\n";
    EXPECT_EQ(run("import attack.csv --write").status, 1) << path;
  }
  EXPECT_EQ(testing::file_text(folder() / "victim.yaml"), "id: victim\n");
}

// What is made of a hostile name lies in the catalogue, by an id.
TEST_F(Hostile, NewMakesNoFileOutsideTheCatalogue) {
  const auto files = [] {
    std::set<std::string> paths;
    for (const auto& entry : fs::recursive_directory_iterator(folder())) paths.insert(entry.path().lexically_relative(folder()).generic_string());
    return paths;
  };
  const std::set<std::string> before = files();
  const std::string kLetters = "abcdefghijklmnopqrstuvwxyz0123456789_";
  for (const char* name : {"../../outside", "/tmp/outside", "..", "<script>", "a\nb: c", "x: {y", "\"q\" 'r"}) {
    (void)testing::run_shell(folder(), std::string(TENWINTERS_BINARY_DIR) + "/tenwinters --catalog catalog new cultivar --type mandarin -- \"$(cat <<'END'\n" + name + "\nEND\n)\"");
    for (const std::string& path : files()) {
      if (before.contains(path)) continue;
      EXPECT_TRUE(path.starts_with("catalog/cultivars/") && path.ends_with(".yaml")) << path;
      EXPECT_EQ(fs::path(path).stem().string().find_first_not_of(kLetters), std::string::npos) << path;
      std::string why;
      Document document;
      EXPECT_EQ(read_document(path, testing::file_text(folder() / path), document), "");
      fs::remove(folder() / path);
    }
  }
}

// Left in place for the browser.
TEST_F(Hostile, EveryPageIsWritten) {
  for (const char* command : {"site --out site", "handout --out handouts"}) {
    const Outcome said = run(command);
    EXPECT_EQ(said.status, 0) << said.text;
  }
  EXPECT_TRUE(fs::exists(folder() / "site/index.html"));
  for (const auto& entry : fs::recursive_directory_iterator(folder() / "site")) {
    if (entry.path().extension() != ".html" && entry.path().extension() != ".svg") continue;
    const std::string html = testing::file_text(entry.path());
    for (const char* never : {"<script>", "<img", "<iframe", "<svg onload", "href=\"javascript", "href=\"data:text"})
      EXPECT_EQ(html.find(never), std::string::npos) << entry.path() << ": " << never;
  }
}

}  // namespace
}  // namespace tenwinters
