// `tenwinters evidence` and `check --evidence`: nothing without a basis, and most of what moves a ranking well founded.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "cli_run.h"

namespace tenwinters {
namespace {

using testing::Outcome;

Outcome run(const std::string& arguments) {
  return testing::run_shell(TENWINTERS_SOURCE_DIR, std::string(TENWINTERS_BINARY_DIR) + "/tenwinters " + arguments);
}

TEST(Evidence, SaysOfEachFigureWhereItComesFrom) {
  const Outcome all = run("evidence --json");
  ASSERT_EQ(all.status, 0) << all.text;
  const auto json = nlohmann::json::parse(all.text, nullptr, false);
  ASSERT_FALSE(json.is_discarded());
  EXPECT_GT(json.at("figures").size(), 2000u);
  for (const auto& figure : json.at("figures")) {
    const std::string basis = figure.at("basis"), of = figure.at("of").get<std::string>() + " " + figure.at("figure").get<std::string>();
    EXPECT_TRUE(basis == "published" || basis == "common-practice" || basis == "memory" || basis == "estimate") << of;
    EXPECT_EQ(figure.at("seen").get<std::string>().size(), 10u) << of;
    EXPECT_TRUE((basis != "published" && basis != "memory") || !figure.at("sources").empty()) << of;
    EXPECT_TRUE(basis != "estimate" || figure.at("note") != "") << of;
    for (const std::string source : figure.at("sources")) EXPECT_TRUE(json.at("sources").contains(source)) << of << ": " << source;
  }
}

TEST(Evidence, OfACultivarItsOwnFiguresAndThoseOfItsType) {
  const Outcome out = run("evidence meiwa");
  ASSERT_EQ(out.status, 0) << out.text;
  EXPECT_TRUE(out.text.starts_with("Meiwa (meiwa), a cultivar of kumquat\n")) << out.text;
  EXPECT_NE(out.text.find("Taken from its type, kumquat:\n"), std::string::npos);
  EXPECT_NE(out.text.find("catalog/cultivars/meiwa.yaml:"), std::string::npos);
  EXPECT_NE(out.text.find("catalog/types/kumquat.yaml:"), std::string::npos);
  EXPECT_NE(out.text.find("\nSources:\n"), std::string::npos);
  const Outcome slip = run("evidence meiwwa");
  EXPECT_EQ(slip.status, 2);
  EXPECT_NE(slip.text.find("did you mean \"meiwa\"?"), std::string::npos) << slip.text;
}

TEST(Evidence, MostFiguresThatMoveRankingsAreWellFounded) {
  const Outcome out = run("check --evidence --json");
  ASSERT_EQ(out.status, 0) << out.text;
  const auto json = nlohmann::json::parse(out.text, nullptr, false);
  ASSERT_FALSE(json.is_discarded());
  EXPECT_GE(json.at("moving_well_founded_percent").get<double>(), 70.0);
  EXPECT_EQ(json.at("yards"), 12);
  // The reading list holds the weak alone, those first that move most.
  double before = 1e9;
  for (const auto& weak : json.at("weakest")) {
    EXPECT_TRUE(weak.at("basis") == "memory" || weak.at("basis") == "estimate") << weak;
    EXPECT_LE(weak.at("places").get<double>(), before);
    before = weak.at("places");
  }
  EXPECT_GT(json.at("weakest").size(), 20u);
}

// The law moves on: an entry whose day of review is past is told, but is no fault.
TEST(Rules, TheCheckerWarnsWhenTheirReviewIsPast) {
  const Outcome before = run("--today 2026-12-01 check"), after = run("--today 2027-12-01 check");
  EXPECT_EQ(before.status, 0) << before.text;
  EXPECT_EQ(before.text.find("was to be reviewed"), std::string::npos) << before.text;
  EXPECT_EQ(after.status, 0) << after.text;
  EXPECT_NE(after.text.find("warning: rules.fed_canker.review_by: the rule was to be reviewed by 2027-02-23; ask the body it names"), std::string::npos) << after.text;
  EXPECT_NE(after.text.find("warning: rules.invented_finger_lime_rule.review_by: the rule was to be reviewed by 2027-11-25"), std::string::npos) << after.text;
  const Outcome slip = run("--today 1.12.2027 check");
  EXPECT_EQ(slip.status, 2);
  EXPECT_NE(slip.text.find("found \"1.12.2027\", expected a date that exists"), std::string::npos) << slip.text;
}

}  // namespace
}  // namespace tenwinters
