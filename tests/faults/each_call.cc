// Every call to the system that changes the disk, cut off or refused in turn. See README.md.
#include <gtest/gtest.h>

#include <cerrno>

#include "faults/folders.h"

namespace tenwinters {
namespace {

using namespace testing;

const Contents& set_a() { static const Contents kSet = contents_of(files_of("a")); return kSet; }
const Contents& set_b() { static const Contents kSet = contents_of(files_of("b")); return kSet; }
// In folders of ours too.
const Contents kForeign = {{"README.md", "theirs"}, {"en/notes.txt", "theirs"}, {"gone/x/theirs.html", "theirs"}, {"own/page.html", "theirs"}};

constexpr int kKilled = 128 + 9, kMostCalls = 2000;

Outcome write_folder(const fs::path& folder, const std::string& set, int at = 0, const std::string& how = "") {
  const std::string bin = std::string(TENWINTERS_BINARY_DIR) + "/tests/";
  const std::string trip = at == 0 ? "" : "TENWINTERS_TRIP_AT=" + std::to_string(at) + " TENWINTERS_TRIP=" + how + " LD_PRELOAD='" + bin + "libtrip.so' ";
  return run_shell(folder.parent_path(), trip + "'" + bin + "write_folder' '" + folder.string() + "' " + set + "; exit $?");
}

void begin(const fs::path& folder) {
  fs::remove_all(folder);
  for (const auto& [path, text] : kForeign) {
    fs::create_directories((folder / path).parent_path());
    std::ofstream(folder / path) << text;
  }
  ASSERT_EQ(write_folder(folder, "a").status, 0);
  ASSERT_EQ(contents(folder), joined(set_a(), kForeign));
}

TEST(EachCall, KilledThereEveryFileIsWholeAndTheNextRunMendsIt) {
  const Scratch scratch("killed");
  const fs::path folder = scratch.path() / "out";
  int at = 1, before_the_swap = 0;
  for (;; ++at) {
    SCOPED_TRACE("killed at call " + std::to_string(at));
    ASSERT_LT(at, kMostCalls);
    begin(folder);
    const int status = write_folder(folder, "b", at, "kill").status;
    const Contents now = contents(folder);
    if (status == 0) break;
    ASSERT_EQ(status, kKilled);
    if (now == joined(set_a(), kForeign)) ++before_the_swap;
    for (const auto& [path, text] : kForeign) EXPECT_EQ(now.contains(path) ? now.at(path) : "gone", text) << path;
    for (const auto& [path, text] : now) {
      const bool old = set_a().contains(path) && set_a().at(path) == text, fresh = set_b().contains(path) && set_b().at(path) == text;
      EXPECT_TRUE(old || fresh || kForeign.contains(path)) << path << " is neither old nor new";
    }
    for (const auto& [path, text] : set_a()) {
      if (set_b().contains(path)) {
        EXPECT_TRUE(now.contains(path)) << path << " is missing";
      }
    }
    // Forwards or back, the next run leaves its own files, those of others, and nothing else.
    const std::string next = at % 2 == 0 ? "a" : "b";
    EXPECT_EQ(write_folder(folder, next).text, "");
    EXPECT_EQ(contents(folder), joined(next == "a" ? set_a() : set_b(), kForeign));
    EXPECT_FALSE(fs::exists(folder / ".tenwinters-aside"));
    EXPECT_EQ(write_folder(folder, next == "a" ? "b" : "a").text, "");
    EXPECT_EQ(contents(folder), joined(next == "a" ? set_b() : set_a(), kForeign));
  }
  std::cout << "  killed at " << at - 1 << " calls, " << before_the_swap << " of them before anything was moved in\n";
  EXPECT_GT(at, 50);
  EXPECT_GT(before_the_swap, 10);
  EXPECT_LT(before_the_swap, at - 10);
}

TEST(EachCall, RefusedThereTheFolderIsAsItWas) {
  const Scratch scratch("refused");
  const fs::path folder = scratch.path() / "out";
  for (const int error : {ENOSPC, EACCES}) {
    int at = 1, failures = 0;
    for (;; ++at) {
      SCOPED_TRACE("error " + std::to_string(error) + " at call " + std::to_string(at));
      ASSERT_LT(at, kMostCalls);
      begin(folder);
      const Outcome said = write_folder(folder, "b", at, std::to_string(error));
      const Contents now = contents(folder);
      if (said.status == 0) {
        EXPECT_EQ(now, joined(set_b(), kForeign));
        // The last calls only clear away; once there are none left to refuse, all is done.
        if (!fs::exists(folder / ".tenwinters-aside") && at > 100) break;
        continue;
      }
      ++failures;
      EXPECT_EQ(said.status, 1);
      EXPECT_EQ(now, joined(set_a(), kForeign)) << said.text;
      EXPECT_NE(said.text.find("the output of the last run is still there as it was"), std::string::npos) << said.text;
      if (error == ENOSPC) {
        EXPECT_NE(said.text.find("make room there"), std::string::npos) << said.text;
      }
      if (error == EACCES) {
        EXPECT_NE(said.text.find("choose a folder that you may write to"), std::string::npos) << said.text;
      }
    }
    std::cout << "  " << failures << " of " << at << " calls refused stopped the run\n";
    EXPECT_GT(failures, 20);
  }
}

}  // namespace
}  // namespace tenwinters
