// Files of others, links, folders that may not be written to, two runs at once. See README.md.
#include <fcntl.h>
#include <gtest/gtest.h>
#include <sys/file.h>
#include <sys/stat.h>

#include "faults/folders.h"

namespace tenwinters {
namespace {

using namespace testing;

std::string written(const fs::path& folder, const std::string& set) { return write_output(folder.string(), files_of(set)).value_or(""); }

TEST(Folder, FilesOfOthersAreNeverTouched) {
  const Scratch scratch("others");
  scratch.write("README.md", "theirs");
  scratch.write("same.html", "same");  // as ours would be: it stays theirs
  ASSERT_EQ(written(scratch.path(), "a"), "");
  ASSERT_EQ(write_output(scratch.path().string(), {{"new.html", "n"}}).value_or(""), "");
  EXPECT_EQ(contents(scratch.path()), (Contents{{"README.md", "theirs"}, {"same.html", "same"}, {"new.html", "n"}}));
}

TEST(Folder, AFileOfOthersInTheWayStopsTheRunBeforeAnythingIsDone) {
  for (const char* path : {"index.html", "en/index.html", "en", "stops/one.html", "turns/x"}) {
    const Scratch scratch("way");
    scratch.write(path, "theirs");
    const Contents before = contents(scratch.path());
    const std::string said = written(scratch.path(), "a");
    EXPECT_NE(said.find("stands in the way and was not written by tenwinters; move it away or choose another folder"), std::string::npos) << path << ": " << said;
    EXPECT_EQ(contents(scratch.path()), before);
  }
}

// What a link leads to lies elsewhere and is somebody's.
TEST(Folder, NothingIsWrittenThroughALink) {
  const Scratch scratch("link"), elsewhere("elsewhere");
  elsewhere.write("index.html", "theirs");
  for (const auto& [link, to] : std::vector<std::pair<std::string, fs::path>>{
           {"en", elsewhere.path()}, {"index.html", elsewhere.path() / "index.html"}, {"same.html", elsewhere.path() / "nothing"}, {"assets", "."}}) {
    fs::remove_all(scratch.path());
    fs::create_directories(scratch.path());
    fs::create_symlink(to, scratch.path() / link);
    EXPECT_NE(written(scratch.path(), "a"), "") << link;
    EXPECT_EQ(contents(scratch.path()), (Contents{{link, "-> " + to.string()}}));
    EXPECT_EQ(contents(elsewhere.path()), (Contents{{"index.html", "theirs"}}));
  }
}

// A page of ours that somebody has made a link since is theirs from then on.
TEST(Folder, APageThatBecameALinkIsNotFollowed) {
  const Scratch scratch("became"), elsewhere("behind");
  elsewhere.write("page", "theirs");
  ASSERT_EQ(written(scratch.path(), "a"), "");
  fs::remove(scratch.path() / "index.html");
  fs::create_symlink(elsewhere.path() / "page", scratch.path() / "index.html");
  EXPECT_NE(written(scratch.path(), "b"), "");
  EXPECT_EQ(contents(elsewhere.path()), (Contents{{"page", "theirs"}}));
  EXPECT_TRUE(fs::is_symlink(scratch.path() / "index.html"));
}

TEST(Folder, AFolderGivenAsALinkIsWrittenTo) {
  const Scratch scratch("given");
  fs::create_directories(scratch.path() / "real");
  fs::create_directory_symlink("real", scratch.path() / "public");
  ASSERT_EQ(written(scratch.path() / "public", "a"), "");
  EXPECT_EQ(contents(scratch.path() / "real"), contents_of(files_of("a")));
}

// Bookkeeping that somebody forged, or that links elsewhere, leads to no loss outside.
TEST(Folder, AForgedListOfFilesReachesNothingOutside) {
  const Scratch scratch("forged");
  scratch.write("out/.tenwinters-manifest", "../victim\n/etc/hostname\nen/../../victim\n.tenwinters-manifest\nlink/victim\n");
  scratch.write("victim", "theirs");
  fs::create_directory_symlink("..", scratch.path() / "out/link");
  (void)written(scratch.path() / "out", "a");
  EXPECT_EQ(file_text(scratch.path() / "victim"), "theirs");
}

TEST(Folder, TheAsideFolderAsALinkIsNotEmptied) {
  const Scratch scratch("aside"), elsewhere("aside_behind");
  elsewhere.write("new/index.html", "theirs");
  fs::create_directory_symlink(elsewhere.path(), scratch.path() / ".tenwinters-aside");
  EXPECT_EQ(written(scratch.path(), "a"), "");
  EXPECT_EQ(contents(elsewhere.path()), (Contents{{"new/index.html", "theirs"}}));
}

TEST(Folder, WhatIsNoFolderIsToldAndLeft) {
  const Scratch scratch("no_folder");
  scratch.write("file", "theirs");
  for (const char* to : {"file", "file/below"}) EXPECT_NE(written(scratch.path() / to, "a"), "");
  EXPECT_EQ(contents(scratch.path()), (Contents{{"file", "theirs"}}));
}

TEST(Folder, PathsThatLeadOutAreRefused) {
  const Scratch scratch("paths");
  for (const char* path : {"../x", "a/../../x", "/x", "", "a/", "a//b", "./x", "a\\b", "a\nb", ".tenwinters-manifest", ".tenwinters-aside/x"})
    EXPECT_TRUE(write_output((scratch.path() / "out").string(), {{path, "x"}})) << path;
  EXPECT_EQ(contents(scratch.path()), Contents{});
}

TEST(Folder, ASecondRunAtOnceIsToldToWait) {
  const Scratch scratch("twice");
  ASSERT_EQ(written(scratch.path(), "a"), "");
  const int held = ::open(scratch.path().c_str(), O_RDONLY | O_DIRECTORY);
  ASSERT_EQ(::flock(held, LOCK_EX), 0);
  const std::string said = written(scratch.path(), "b");
  EXPECT_NE(said.find("another run is writing there (wait until it has ended)"), std::string::npos) << said;
  EXPECT_EQ(contents(scratch.path()), contents_of(files_of("a")));
  ::close(held);
  EXPECT_EQ(written(scratch.path(), "b"), "");
}

// Many at once: some are told to wait, and whatever the order, one set lies there whole.
TEST(Folder, RunsAtOnceLeaveOneWholeSet) {
  const Scratch scratch("race");
  const std::string program = "'" + std::string(TENWINTERS_BINARY_DIR) + "/tests/write_folder' out ";
  std::string race;
  for (int i = 0; i < 20; ++i) race += program + (i % 2 == 0 ? "a" : "b") + " >/dev/null & ";
  run_shell(scratch.path(), race + "wait");
  const Contents now = contents(scratch.path() / "out");
  EXPECT_TRUE(now == contents_of(files_of("a")) || now == contents_of(files_of("b")));
  EXPECT_FALSE(fs::exists(scratch.path() / "out/.tenwinters-aside"));
}

// Root may write anywhere, so the run is somebody else's.
TEST(Folder, AFolderThatMayNotBeWrittenToIsToldAndLeft) {
  const Scratch scratch("barred");
  const fs::path out = scratch.path() / "out";
  ASSERT_EQ(written(out, "a"), "");
  const std::string as_nobody = ::geteuid() == 0 ? "setpriv --reuid 65534 --regid 65534 --clear-groups " : "";
  fs::copy(fs::path(TENWINTERS_BINARY_DIR) / "tests/write_folder", scratch.path() / "write_folder");
  for (const char* barred : {"out", "out/en", "out/en/deep/er"}) {
    run_shell(scratch.path(), "chmod -R a+rwX .; chmod 555 " + std::string(barred) + (::geteuid() == 0 ? "; chown -R 65534:65534 out" : ""));
    const Outcome said = run_shell(scratch.path(), as_nobody + "./write_folder out b");
    EXPECT_EQ(said.status, 1) << barred << said.text;
    EXPECT_NE(said.text.find("choose a folder that you may write to"), std::string::npos) << barred << ": " << said.text;
    run_shell(scratch.path(), "chmod -R a+rwX .");
    EXPECT_EQ(contents(out), contents_of(files_of("a"))) << barred;
  }
  // A page that is read-only is ours all the same, and its folder may be written to.
  run_shell(scratch.path(), "chmod 444 out/index.html");
  EXPECT_EQ(run_shell(scratch.path(), as_nobody + "./write_folder out b").text, "");
  EXPECT_EQ(contents(out), contents_of(files_of("b")));
}

}  // namespace
}  // namespace tenwinters
