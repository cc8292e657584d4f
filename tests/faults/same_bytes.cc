// The same catalogue gives the same bytes, wherever, in whatever language and time zone the program runs.
#include <gtest/gtest.h>

#include "faults/folders.h"

namespace tenwinters {
namespace {

using namespace testing;

// Turkish is known for its i, Spanish for its decimal comma. They are made here if the machine has the sources of
// locales; where it has not, the run still has their names in its environment, and that is said.
std::string locales(const fs::path& folder) {
  std::string made;
  for (const char* name : {"tr_TR", "es_ES"})
    if (run_shell(folder, "mkdir -p locales && localedef -i " + std::string(name) + " -f UTF-8 locales/" + name + ".UTF-8").status == 0)
      made += std::string(name) + " ";
  std::cout << "  locales made for this test: " << (made.empty() ? "none (SKIPPED: no localedef or no sources of locales here)" : made) << "\n";
  return "LOCPATH='" + (folder / "locales").string() + "' ";
}

struct Made {
  Contents site, handouts;
  std::string table, ranked;
};

// `from` is the folder the program is started in, below the project's.
Made make(const ProjectCopy& project, const std::string& environment, const std::string& from) {
  fs::copy(fs::path(TENWINTERS_SOURCE_DIR) / "site-templates", project.folder() / "site-templates", fs::copy_options::recursive);
  fs::create_directories(project.folder() / from);
  const std::string run = "env " + environment + " '" + TENWINTERS_BINARY_DIR + "/tenwinters' --today 2026-12-01 ";
  const fs::path folder = project.folder() / from;
  EXPECT_EQ(run_shell(folder, run + "site --out ./out/site").status, 0);
  EXPECT_EQ(run_shell(folder, run + "handout --out ./out/handouts").status, 0);
  EXPECT_EQ(run_shell(folder, run + "export --csv out/table.csv").status, 0);
  const Outcome ranked = run_shell(folder, run + "rank --answer sun=full --why");
  EXPECT_EQ(ranked.status, 0) << ranked.text;
  return {contents(folder / "out/site"), contents(folder / "out/handouts"), file_text(folder / "out/table.csv"), ranked.text};
}

TEST(SameBytes, InAnyFolderLocaleAndTimeZone) {
  const Scratch scratch("locales");
  const std::string locpath = locales(scratch.path());
  const ProjectCopy plain("plain"), turkish("a_much_longer_name_of_a_folder"), spanish("es");
  const Made first = make(plain, "-i LC_ALL=C TZ=UTC", ".");
  ASSERT_GT(first.site.size(), 100u);
  const auto expect_same = [&](const Made& other) {
    EXPECT_EQ(first.table, other.table);
    EXPECT_EQ(first.ranked, other.ranked);
    for (const auto& [mine, theirs] : {std::pair(&first.site, &other.site), std::pair(&first.handouts, &other.handouts)}) {
      ASSERT_EQ(mine->size(), theirs->size());
      for (const auto& [path, text] : *mine) EXPECT_TRUE(theirs->contains(path) && theirs->at(path) == text) << path << " differs";
    }
  };
  expect_same(make(turkish, locpath + "LC_ALL=tr_TR.UTF-8 LANG=tr_TR.UTF-8 TZ=Pacific/Kiritimati COLUMNS=40", "in/a/folder/below"));
  expect_same(make(spanish, locpath + "LC_ALL=es_ES.UTF-8 TZ=America/Los_Angeles HOME=/nonexistent", "."));
}

}  // namespace
}  // namespace tenwinters
