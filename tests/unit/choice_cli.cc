// rank, ask, explain and key as a person or a program meets them: exit status, messages, text and JSON.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <set>
#include <string>

#include "cli_run.h"

namespace tenwinters {
namespace {

testing::Outcome run(const std::string& arguments, const std::string& typed = "") {
  const std::string program = std::string(TENWINTERS_BINARY_DIR) + "/tenwinters " + arguments;
  return testing::run_shell(TENWINTERS_SOURCE_DIR, "printf '" + typed + "' | " + program);
}
nlohmann::json json_of(const std::string& arguments) {
  const testing::Outcome out = run(arguments + " --json");
  EXPECT_EQ(out.status, 0) << out.text;
  auto json = nlohmann::json::parse(out.text, nullptr, false);
  EXPECT_FALSE(json.is_discarded()) << out.text;
  return json;
}
bool holds(const testing::Outcome& outcome, const std::string& text) { return outcome.text.find(text) != std::string::npos; }

TEST(ChoiceCli, RankSaysHowSureItIs) {
  const nlohmann::json ranked = json_of("rank --answer sun=full --answer planting=ground");
  ASSERT_TRUE(ranked.contains("candidates") && ranked.contains("certainty"));
  const nlohmann::json& sure = ranked["certainty"];
  EXPECT_GT(sure["trees"].size(), 3u);
  std::set<std::string> open;
  for (const nlohmann::json& question : sure["questions"]) open.insert(question["question"].get<std::string>());
  EXPECT_EQ(open.count(sure["next_question"].get<std::string>()), 1u);
  EXPECT_EQ(open.count("sun"), 0u);
  const testing::Outcome text = run("rank --answer sun=full --answer planting=ground");
  EXPECT_TRUE(holds(text, "How sure is this?") && holds(text, "Most worth finding out:")) << text.text;
  EXPECT_TRUE(holds(run("--lang es rank --answer sun=full"), "¿Qué tan seguro es esto?"));
}

TEST(ChoiceCli, AskStopsWhenSettled) {
  // Too little sun settles it at once; the first question is the one that tells most.
  const testing::Outcome dark = run("ask --place gannet_quay", "4\\n");
  EXPECT_EQ(dark.status, 0) << dark.text;
  EXPECT_TRUE(holds(dark, "Nothing more needs to be asked.")) << dark.text;
  std::string all;
  for (int i = 0; i < 20; ++i) all += "1\\n";
  const testing::Outcome some = run("ask --place gannet_quay", all), every = run("ask --all --place gannet_quay", all);
  const auto asked = [](const std::string& text) {
    int n = 0;
    for (std::size_t at = text.find("  ?  "); at != std::string::npos; at = text.find("  ?  ", at + 1)) ++n;
    return n;
  };
  EXPECT_LT(asked(some.text), asked(every.text));
  EXPECT_GE(asked(every.text), 15);
}

TEST(ChoiceCli, ExplainTakesNamesAndSaysWhatWouldChange) {
  const testing::Outcome by_name = run("explain 'improved meyer' --place burdock_hollow --answer sun=full --answer planting=ground");
  EXPECT_EQ(by_name.status, 0) << by_name.text;
  EXPECT_TRUE(holds(by_name, "the fewest changes are")) << by_name.text;
  const nlohmann::json least = json_of("explain meyer --place burdock_hollow --answer sun=full --answer planting=ground");
  EXPECT_EQ(least["aim"], "grow");
  ASSERT_FALSE(least["ways"].empty());
  EXPECT_FALSE(least["ways"][0]["changes"].empty());
  const nlohmann::json two = json_of("explain owari --against meiwa --answer sun=full");
  EXPECT_EQ(two["first"]["cultivar"], "owari");
  EXPECT_EQ(two["second"]["cultivar"], "meiwa");
  EXPECT_TRUE(two.contains("turns") && two.contains("cold"));
}

TEST(ChoiceCli, ExplainRefusesWhatItCannotExplain) {
  const testing::Outcome slip = run("explain meyr"), kind = run("explain satsuma"), same = run("explain owari --against OWARI"), none = run("explain");
  for (const testing::Outcome* one : {&slip, &kind, &same, &none}) EXPECT_EQ(one->status, 2) << one->text;
  EXPECT_TRUE(holds(slip, "did you mean \"meyer\"?"));
  EXPECT_TRUE(holds(kind, "is a kind") && holds(kind, "owari"));
  EXPECT_TRUE(holds(same, "expected another cultivar"));
}

TEST(ChoiceCli, KeyOnPaperIsTheKeyInJson) {
  const std::string given = "key --answer sun=full --answer drainage=good --answer planting=ground";
  const nlohmann::json key = json_of(given);
  const testing::Outcome paper = run(given);
  EXPECT_EQ(paper.status, 0);
  int steps = 0;
  for (const nlohmann::json& node : key["nodes"]) steps += node.contains("question") ? 1 : 0;
  EXPECT_GT(steps, 2);
  EXPECT_TRUE(holds(paper, "\n" + std::to_string(steps) + ". "));
  EXPECT_FALSE(holds(paper, "\n" + std::to_string(steps + 1) + ". "));
  for (const char* asked : {"sun", "drainage", "planting"})
    for (const nlohmann::json& node : key["nodes"]) EXPECT_NE(node.value("question", ""), asked);
  const std::string fresh = std::to_string(static_cast<int>(key["agrees_fresh"].get<double>() + 0.5));
  EXPECT_TRUE(holds(paper, "in " + fresh + " of 100")) << paper.text;
}

}  // namespace
}  // namespace tenwinters
