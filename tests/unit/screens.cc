// What the screens show for a request: by the engine's own answers, in both languages, and for wrong requests.
#include <gtest/gtest.h>

#include <memory>
#include <nlohmann/json.hpp>
#include <random>
#include <regex>

#include "../real_catalog.h"
#include "../real_place.h"
#include "cli_run.h"
#include "screens/screens.h"
#include "tenwinters/change.h"
#include "tenwinters/night.h"
#include "tenwinters/plan.h"

namespace tenwinters {
namespace {

using Json = nlohmann::json;

Seasons real_seasons() {
  const DiskReader disk;
  return load_catalog(disk, std::string(TENWINTERS_SOURCE_DIR) + "/catalog").seasons;
}

screens::Screens& in(const std::string& code) {
  static std::map<std::string, std::unique_ptr<screens::Screens>> all;
  std::unique_ptr<screens::Screens>& one = all[code];
  if (!one) {
    const testing::RealCatalog& real = testing::real_catalog();
    for (const Language& language : real.languages)
      if (language.code == code) one = std::make_unique<screens::Screens>(real.catalog, real.office, real_seasons(), language);
  }
  return *one;
}

Json ask(const std::string& request, const std::string& code = "en") { return Json::parse(in(code).answer(request), nullptr, false); }

const std::string kRequests[] = {
    R"({"screen":"calendar","trees":["owari","meyer","meiwa"],"year":2027,"today":1126,"answers":{"sun":"full","winter_work":"few_nights"}})",
    R"({"screen":"calendar","place":"burdock_hollow","trees":["minneola"],"year":2028,"yearly":false,"alarm_days":3,"units":"metric"})",
    R"({"screen":"night","low_c":-6.5,"hours":6,"before":"gradual","month":12,"trees":[{"id":"owari","age":3,"protections":["cover"]},{"id":"lemon","container_l":57,"heavy_crop":true}]})",
    R"({"screen":"night","low_c":-2,"hours":2,"windy":true,"trees":[{"id":"satsuma","rootstock":"carrizo","health":"poor","spot":"low_pocket"}]})",
    R"({"screen":"compare","trees":["owari","meyer","meiwa","minneola"],"answers":{"sun":"full","planting":"ground"}})",
    R"({"screen":"compare","place":"burdock_hollow","trees":["owari","changsha"],"units":"metric"})",
    R"({"screen":"plan","width_cm":914,"length_cm":1219,"trees_at_most":3,"answers":{"sun":"full","planting":"ground"}})",
    R"({"screen":"plan","width_cm":900,"length_cm":900,"trees_at_most":2,"existing":["owari"],"walls":["north"],"lines":["east"],"carry":1})",
    R"({"screen":"plan","width_cm":900,"length_cm":900,"answers":{"sun":"little"}})",
};

TEST(Screens, EveryWordIsSaidInEachLanguage) {
  for (const std::string code : {"en", "es"})
    for (const std::string& request : kRequests) {
      const std::string text = in(code).answer(request);
      ASSERT_FALSE(Json::parse(text, nullptr, false).is_discarded()) << request;
      EXPECT_EQ(text.find("\"error\""), std::string::npos) << request << text.substr(0, 200);
      EXPECT_FALSE(std::regex_search(text, std::regex(R"(\[[a-z_]+(\.[a-z_0-9-]+)+\])"))) << request;
      EXPECT_FALSE(std::regex_search(text, std::regex(R"([^"]\{[a-z_]+\})"))) << request;
      EXPECT_FALSE(std::regex_search(text, std::regex(R"(\b(nan|inf)\b)"))) << request;
    }
}

// The words and seasons that the browser gets say the same.
TEST(Screens, TheSameFromJson) {
  const testing::RealCatalog& real = testing::real_catalog();
  const std::optional<Seasons> seasons = screens::seasons_from_json(screens::seasons_to_json(real_seasons()));
  const std::optional<Language> words = screens::words_from_json(screens::words_to_json(in("es").language()));
  ASSERT_TRUE(seasons && words);
  screens::Screens again(real.catalog, real.office, *seasons, *words);
  for (const std::string& request : kRequests) EXPECT_EQ(again.answer(request), in("es").answer(request));
  for (const char* wrong : {"", "{}", "[1]", R"([["feed"]])", R"([["feed","gulf",230,101,[],[],"published",""]])", R"([["fed","gulf",201,301,[],[],"published",""]])"})
    EXPECT_FALSE(screens::seasons_from_json(wrong)) << wrong;
  for (const char* wrong : {"", "[]", "{}", R"({"language.code":1})"}) EXPECT_FALSE(screens::words_from_json(wrong)) << wrong;
}

TEST(Screens, WrongRequestsAreToldNotTrapped) {
  const std::pair<const char*, const char*> cases[] = {
      {"", "request"}, {"[]", "request"}, {"{}", "screen"}, {R"({"screen":"moon"})", "screen"}, {R"({"screen":"calendar","place":"atlantis"})", "place"},
      {R"({"screen":"calendar","units":"furlongs"})", "units"}, {R"({"screen":"calendar","answers":{"sun":"green"}})", "answers"},
      {R"({"screen":"calendar","trees":["oak"]})", "trees"}, {R"({"screen":"calendar","trees":"owari"})", "trees"}, {R"({"screen":"calendar","trees":["owari"],"year":0})", "year"},
      {R"({"screen":"calendar","trees":["owari"],"year":2027.5})", "year"}, {R"({"screen":"calendar","trees":["owari"],"alarm_days":-1})", "alarm_days"},
      {R"({"screen":"calendar","trees":["owari"],"today":1300})", "today"}, {R"({"screen":"compare","trees":["owari"]})", "trees"}, {R"({"screen":"compare","trees":["owari","meyer","meiwa","minneola","page"]})", "trees"},
      {R"({"screen":"night","low_c":"cold"})", "low_c"}, {R"({"screen":"night","low_c":-99})", "low_c"}, {R"({"screen":"night","hours":1000000000000})", "hours"},
      {R"({"screen":"night","before":"balmy"})", "before"}, {R"({"screen":"night","trees":[1]})", "trees"}, {R"({"screen":"night","trees":[{"id":"oak"}]})", "trees"},
      {R"({"screen":"night","trees":[{"id":"owari","age":0}]})", "age"}, {R"({"screen":"night","trees":[{"id":"owari","rootstock":"oak"}]})", "rootstock"},
      {R"({"screen":"night","trees":[{"id":"owari","protections":["prayer"]}]})", "protections"}, {R"({"screen":"plan","width_cm":1})", "width_cm"},
      {R"({"screen":"plan","walls":["up"]})", "walls"}, {R"({"screen":"plan","existing":["oak"]})", "existing"}, {R"({"screen":"plan","trees_at_most":9})", "trees_at_most"}};
  for (const auto& [request, what] : cases) {
    const Json told = ask(request);
    ASSERT_TRUE(told.contains("error")) << request;
    EXPECT_EQ(told["error"].get<std::string>(), what) << request;
  }
  std::mt19937 random(3);
  for (int i = 0; i < 400; ++i) {
    std::string text = kRequests[random() % std::size(kRequests)];
    for (auto n = random() % 3 + 1; n > 0; --n) {
      const std::size_t at = random() % text.size();
      if (random() % 2 == 0) text[at] = static_cast<char>(random() % 127 + 1);
      else text.erase(at, random() % 20 + 1);
      if (text.empty()) text = "x";
    }
    if (text.find("plan") != std::string::npos) continue;  // sound ones take long
    EXPECT_FALSE(Json::parse(in("en").answer(text), nullptr, false).is_discarded()) << text;
  }
}

// The terminal's file and the screen's are one.
TEST(Screens, CalendarFileIsTheTerminals) {
  const testing::Outcome file = testing::run_shell(TENWINTERS_SOURCE_DIR, std::string(TENWINTERS_BINARY_DIR) +
      "/tenwinters --lang es calendar --tree owari --tree meyer --place burdock_hollow --answer winter_work=few_nights --year 2027 --alarm 7 --ics -");
  ASSERT_EQ(file.status, 0) << file.text;
  const Json shown = ask(R"({"screen":"calendar","place":"burdock_hollow","trees":["owari","meyer"],"answers":{"winter_work":"few_nights"},"year":2027,"alarm_days":7})", "es");
  EXPECT_EQ(shown["ics"].get<std::string>(), file.text);
}

std::vector<Json> blocks(const Json& shown, const std::string& is) {
  std::vector<Json> out;
  for (const Json& block : shown["blocks"])
    if (block["is"].get<std::string>() == is) out.push_back(block);
  return out;
}

TEST(Screens, NightSaysWhatTheEngineSays) {
  const Json shown = ask(R"({"screen":"night","low_c":-6.5,"hours":6,"before":"gradual","month":12,"trees":[{"id":"owari","age":3}]})");
  const testing::RealCatalog& real = testing::real_catalog();
  NightAir air = steady_night(-6.5, 6);
  air.hardening_permille = hardening_after(Before::gradual);
  air.month = 12;
  NightTree tree;
  tree.id = "owari";
  tree.traits = &find_cultivar(real.catalog, "owari")->traits;
  tree.age = 3;
  tree.region = real.office.places[0].region;
  const NightReport report = night(air, std::span(&tree, 1), real.catalog);
  const std::vector<Json> tables = blocks(shown, "table");
  ASSERT_EQ(tables.size(), 1u);
  EXPECT_EQ(tables[0]["rows"][0][1].get<std::string>(), std::to_string(std::lround(report.trees[0].injury[0].best * 100)) + "\u00a0%");
  std::size_t steps = 0;
  for (const Json& block : blocks(shown, "open")) steps += block["element"].get<std::string>() == "li" ? 1u : 0u;
  EXPECT_EQ(steps, report.trees[0].steps.size());
  EXPECT_GT(steps, 0u);
  // Every caution of a step is printed in full below.
  const std::vector<Json> printed = blocks(shown, "cautions");
  for (const NightStep& step : report.trees[0].steps)
    for (const std::string& caution : step.cautions) {
      bool told = false;
      for (const Json& row : printed.at(0)["rows"]) told = told || row[0].get<std::string>() == caution;
      EXPECT_TRUE(told) << caution;
    }
}

TEST(Screens, CompareStandsInTheEnginesOrderAndTellsTheTurn) {
  const std::string answers = R"("answers":{"sun":"full","planting":"ground"})";
  const Json shown = ask(R"({"screen":"compare","trees":["meyer","owari","meiwa"],)" + answers + "}");
  testing::RealPlace place(0);
  const Advice advice = place.advise({{"sun", "full"}, {"planting", "ground"}});
  std::vector<std::string> expected, found;
  for (const Candidate& candidate : advice.candidates)
    if (candidate.cultivar == "meyer" || candidate.cultivar == "owari" || candidate.cultivar == "meiwa") expected.push_back("tree-" + candidate.cultivar);
  for (const Json& block : blocks(shown, "open"))
    if (block["element"].get<std::string>() == "article") found.push_back(block["label"].get<std::string>());
  EXPECT_EQ(found, expected);
  for (const Json& why : blocks(shown, "why")) {
    int sum = 0;
    for (const Json& row : why["rows"]) sum += std::stoi(row[1].get<std::string>());
    EXPECT_NE(why["title"].get<std::string>().find(" " + std::to_string(sum) + " "), std::string::npos) << "the why bar adds up to the score shown";
  }
  EXPECT_EQ(blocks(shown, "drawing").size(), 2u);
}

TEST(Screens, PlanIsTheEnginesPlan) {
  const testing::RealCatalog& real = testing::real_catalog();
  const Json shown = ask(kRequests[6]);
  PlanProblem problem = yard_offer(real.catalog, real.office, real.office.places[0], {{"sun", "full"}, {"planting", "ground"}}, {});
  problem.plot.width_cm = 914;
  problem.plot.length_cm = 1219;
  problem.trees_at_most = 3;
  const YardPlan yard = plan_yard(problem);
  const std::vector<Json> drawings = blocks(shown, "drawing");
  ASSERT_EQ(drawings.size(), yard.plans.size());
  for (std::size_t i = 0; i < drawings.size(); ++i) {
    EXPECT_EQ(drawings[i]["rows"].size(), yard.plans[i].stands.size());
    const auto svg = drawings[i]["wide"].get<std::string>();
    std::size_t crowns = 0;
    for (std::size_t at = svg.find("class=\"crown\""); at != std::string::npos; at = svg.find("class=\"crown\"", at + 1)) ++crowns;
    EXPECT_EQ(crowns, yard.plans[i].stands.size());
  }
}

}  // namespace
}  // namespace tenwinters
