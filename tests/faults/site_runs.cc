// Real runs of `tenwinters site`: killed at random moments, and on a disk that is full. See README.md.
#include <gtest/gtest.h>

#include <chrono>
#include <cstdlib>
#include <random>

#include "faults/folders.h"

namespace tenwinters {
namespace {

using namespace testing;

constexpr int kKills = 12;

// A project with a site in `out`, and what a second edition would hold in its place.
class SiteRuns : public ::testing::Test {
 protected:
  void SetUp() override {
    fs::copy(fs::path(TENWINTERS_SOURCE_DIR) / "site-templates", project_.folder() / "site-templates", fs::copy_options::recursive);
    edition(1);
    ASSERT_EQ(site().status, 0);
    first_ = contents(out());
    edition(2);
    ASSERT_EQ(project_.run("site --out second").status, 0);
    second_ = contents(project_.folder() / "second");
    std::ofstream(out() / "theirs.txt") << "theirs";
    ASSERT_NE(first_, second_);
  }
  // The editions differ on every page, as the office's name stands on each.
  void edition(int number) {
    std::string office = project_.read("catalog/offices/demo/office.yaml");
    const std::size_t at = office.find("\ncontact:");
    ASSERT_NE(at, std::string::npos);
    if (original_.empty()) original_ = office;
    office = original_;
    project_.write("catalog/offices/demo/office.yaml",
                   office.substr(0, at) + "\ncontact:\n- {en: \"Edition " + std::to_string(number) + "\", es: \"Edición " + std::to_string(number) + "\"}" +
                       office.substr(office.find("\nplaces:")));
  }
  Outcome site(const std::string& before = "") {
    return run_shell(project_.folder(), before + "'" + std::string(TENWINTERS_BINARY_DIR) + "/tenwinters' --today 2026-12-01 site --out out");
  }
  fs::path out() const { return project_.folder() / "out"; }

  ProjectCopy project_{"site_runs"};
  std::string original_;
  Contents first_, second_;
};

TEST_F(SiteRuns, KilledAtRandomMomentsTheSiteStaysWhole) {
  const char* wanted = std::getenv("TENWINTERS_KILLS");
  const int kills = wanted ? std::atoi(wanted) : kKills;
  const auto began = std::chrono::steady_clock::now();
  ASSERT_EQ(site().status, 0);
  const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
  const std::random_device::result_type seed = 20261126;
  std::mt19937 random(seed);
  int cut = 0, mixed = 0, finished = 0;
  for (int i = 0; i < kills; ++i) {
    edition(i % 2 + 1);
    const double after = std::uniform_real_distribution<double>(0, 1.1 * seconds)(random);
    const int status = site("timeout -s KILL " + std::to_string(after) + " ").status;
    ++(status == 0 ? finished : cut);
    Contents now = contents(out());
    EXPECT_EQ(now["theirs.txt"], "theirs");
    now.erase("theirs.txt");
    std::size_t of_first = 0, of_second = 0;
    for (const auto& [path, text] : now) {
      const bool one = first_.contains(path) && first_.at(path) == text, two = second_.contains(path) && second_.at(path) == text;
      EXPECT_TRUE(one || two) << path << " is of no edition, after " << after << " s";
      if (one != two) ++(one ? of_first : of_second);
    }
    for (const auto& [path, text] : first_) {
      if (second_.contains(path)) {
        EXPECT_TRUE(now.contains(path)) << path << " is missing, after " << after << " s";
      }
    }
    if (of_first > 0 && of_second > 0) ++mixed;
  }
  std::cout << "  of " << kills << " runs " << cut << " were killed and " << finished << " ended first; " << mixed
            << " left pages of two editions side by side, each whole\n";
  EXPECT_GT(cut, 0);
  edition(2);
  ASSERT_EQ(site().status, 0);
  Contents now = contents(out());
  now.erase("theirs.txt");
  EXPECT_EQ(now, second_);
  EXPECT_FALSE(fs::exists(out() / ".tenwinters-aside"));
}

TEST_F(SiteRuns, OnAFullDiskTheOldSiteStays) {
  const Outcome can = run_shell(project_.folder(), "mkdir -p disk && unshare -m mount -t tmpfs -o size=1m tmpfs disk");
  if (can.status != 0) GTEST_SKIP() << "SKIPPED: only root may mount the small disk that this needs";
  edition(1);
  // Room for the first edition and a part of the second.
  const Outcome said = run_shell(project_.folder(), std::string(R"(unshare -m sh -c '
    size=$(du -sk second | cut -f1)
    mount -t tmpfs -o size=$((size * 5 / 4))k tmpfs disk && run=)") + TENWINTERS_BINARY_DIR + R"(/tenwinters
    $run --today 2026-12-01 site --out disk || exit 9
    cp -r disk kept
    sed -i "s/Edition 1/Edition 2/; s/Edición 1/Edición 2/" catalog/offices/demo/office.yaml
    $run --today 2026-12-01 site --out disk; echo "status $?"
    diff -r disk kept && echo "as it was"')");
  EXPECT_NE(said.text.find("No space left on device (make room there, or choose another folder); the output of the last run is still there as it was"),
            std::string::npos) << said.text;
  EXPECT_NE(said.text.find("status 1\nas it was"), std::string::npos) << said.text;
}

}  // namespace
}  // namespace tenwinters
