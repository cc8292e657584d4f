// The sheets as HTML: what they say is what the engine says, and a slip in a template or the office's file is told.
#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>

#include "../real_catalog.h"
#include "paper.h"
#include "render/qr.h"
#include "tenwinters/night.h"
#include "tenwinters/units.h"

namespace tenwinters {
namespace {

namespace fs = std::filesystem;
using testing::count_of;
using testing::holds;
using testing::Outcome;
using testing::PrintRoom;

const Language& english() {
  for (const Language& language : testing::real_catalog().languages)
    if (language.code == "en") return language;
  return testing::real_catalog().languages.front();
}

std::string plain(std::string html) {
  for (const auto& [from, to] : {std::pair<std::string, std::string>{"&#39;", "'"}, {"&quot;", "\""}, {"&lt;", "<"}, {"&gt;", ">"}, {"&amp;", "&"}})
    for (std::size_t at = html.find(from); at != std::string::npos; at = html.find(from, at + to.size())) html.replace(at, from.size(), to);
  return html;
}

// An office that sells six kinds of tree: the key is worked out the same way and in a tenth of the time.
void sell_little(const PrintRoom& room) {
  std::string office = room.project().read("catalog/offices/demo/office.yaml");
  const std::string all = "on_sale: []";
  office.replace(office.find(all), all.size(), "on_sale: [brown_select, changsha, calamondin, key_lime, meiwa, meyer]");
  room.write("catalog/offices/demo/office.yaml", office);
}

TEST(Sheets, KeyIsThatOfTheCommandWithItsAgreement) {
  const PrintRoom room("sheet_key");
  sell_little(room);
  ASSERT_EQ(room.run("handout key --place burdock_hollow --lang en --paper letter").status, 0);
  const Outcome asked = room.project().run("key --place burdock_hollow --json");
  ASSERT_EQ(asked.status, 0) << asked.text;
  const nlohmann::json key = nlohmann::json::parse(asked.text);
  const std::string html = plain(room.read("key-burdock_hollow-en-letter.html"));

  const auto& nodes = key["nodes"];
  std::vector<int> numbers;
  int steps = 0;
  for (const auto& node : nodes) numbers.push_back(node.contains("question") ? ++steps : 0);
  ASSERT_GT(steps, 0);
  // Every step of the sheet in turn, against the node with its number.
  const std::regex step("<h2>(\\d+)\\. ([^<]*)</h2>\\s*<table>\\s*<tbody>\\s*<tr><th scope=\"row\">([^<]*)</th><td>([^<]*)</td></tr>\\s*"
                        "<tr><th scope=\"row\">([^<]*)</th><td>([^<]*)</td></tr>");
  int seen = 0;
  for (std::sregex_iterator found(html.begin(), html.end(), step), end; found != end; ++found) {
    const std::smatch& line = *found;
    ASSERT_EQ(std::stoi(line[1]), ++seen);
    const auto& node = nodes[static_cast<std::size_t>(std::find(numbers.begin(), numbers.end(), seen) - numbers.begin())];
    const std::string question = node["question"];
    EXPECT_EQ(line[2], english().say("questions." + question + ".ask"));
    for (const auto& answer : node["answers"]) EXPECT_TRUE(holds(line[3], english().say("questions." + question + ".answers." + answer.get<std::string>()))) << line[3];
    const auto leads = [&](const std::string& printed, std::size_t to) {
      if (numbers[to] > 0) {
        EXPECT_EQ(printed, "go to " + std::to_string(numbers[to]));
        return;
      }
      const auto& trees = nodes[to]["trees"];
      EXPECT_EQ(trees.empty(), printed.starts_with("no citrus")) << printed;
      std::size_t at = 0;
      for (const auto& tree : trees) {  // best first
        at = printed.find(find_cultivar(testing::real_catalog().catalog, tree.get<std::string>())->name, at);
        EXPECT_NE(at, std::string::npos) << printed << " lacks " << tree;
      }
    };
    leads(line[4], node["yes"].get<std::size_t>());
    leads(line[6], node["no"].get<std::size_t>());
  }
  EXPECT_EQ(seen, steps) << "every step is on the sheet";
  EXPECT_TRUE(holds(html, "in " + std::to_string(std::lround(key["agrees_fresh"].get<double>())) + " of 100; where something can be planted, in " +
                              std::to_string(std::lround(key["planted_fresh"].get<double>())) + " of 100"));
}

// The lows of the cold-night sheet against the engine asked for one night at a time.
TEST(Sheets, LowsOfTheColdNightSheetAreTheFirstThatHarm) {
  const PrintRoom room("sheet_night");
  ASSERT_EQ(room.run("handout night --place gannet_quay --lang en --paper letter").status, 0);
  const std::string html = plain(room.read("cold-night-gannet_quay-en-letter.html"));
  const Catalog& catalog = testing::real_catalog().catalog;
  const auto outcome = [&](const Traits& traits, int age, Before before, int fahrenheit) {
    NightAir air;
    air.hardening_permille = hardening_after(before);
    air.tenths_c.assign(4, static_cast<std::int16_t>(to_tenths(to_celsius(Fahrenheit{static_cast<double>(fahrenheit)}).degrees)));
    NightTree tree;
    tree.traits = &traits;
    tree.age = age;
    return night(air, {&tree, 1}, catalog).trees.front();
  };
  int rows = 0;
  for (const CitrusType& type : catalog.types) {
    const std::string head = "<tr><th scope=\"row\">" + english().say("types." + type.id + ".plural") + "</th>";
    const std::size_t at = html.find(head);
    if (at == std::string::npos) continue;
    ++rows;
    std::vector<std::string> cells;
    const std::string row = html.substr(at, html.find("</tr>", at) - at);
    const std::regex cell("<td>([^<]*)</td>");
    for (std::sregex_iterator found(row.begin(), row.end(), cell), end; found != end; ++found) cells.push_back((*found)[1]);
    ASSERT_EQ(cells.size(), 6u);
    struct Column { int age; Before before; NightOutcome harm; };
    const Column columns[] = {{10, Before::mild, NightOutcome::fruit_lost}, {2, Before::mild, NightOutcome::leaf_burn}, {2, Before::gradual, NightOutcome::leaf_burn},
                              {2, Before::mild, NightOutcome::cut_back},    {2, Before::gradual, NightOutcome::cut_back}, {10, Before::gradual, NightOutcome::cut_back}};
    for (std::size_t c = 0; c < cells.size(); ++c) {
      const auto harmed = [&](int degrees) {
        const NightResult result = outcome(type.traits, columns[c].age, columns[c].before, degrees);
        return c == 0 ? result.injury[static_cast<std::size_t>(Tissue::fruit)].best >= 0.5 : result.outcome >= columns[c].harm;
      };
      if (cells[c] == "\u2013") {
        EXPECT_FALSE(harmed(8)) << type.id << " column " << c;
        continue;
      }
      const int printed = std::stoi(cells[c]);
      EXPECT_TRUE(harmed(printed)) << type.id << " column " << c;
      EXPECT_FALSE(harmed(printed + 1)) << type.id << " column " << c;
    }
  }
  EXPECT_GE(rows, 10);
}

TEST(Sheets, EachKindOfSheetInBothLanguagesHasItsFrame) {
  const PrintRoom room("sheet_frame");
  ASSERT_EQ(room.run("handout county night planting types --type satsuma --answer sun=full --name Ana").status, 0);
  for (const char* stem : {"which-citrus", "cold-night-gannet_quay", "planting-burdock_hollow", "kind-satsuma", "your-yard"})
    for (const std::string language : {"en", "es"})
      for (const std::string paper : {"letter", "a4"}) {
        const std::string html = room.read(std::string(stem) + "-" + language + "-" + paper + ".html");
        EXPECT_TRUE(holds(html, "<html lang=\"" + language + "\">"));
        EXPECT_TRUE(holds(html, "<body class=\"" + paper + "\">"));
        EXPECT_EQ(count_of(html, "<h1>"), 1);
        EXPECT_EQ(count_of(html, "class=\"qr\""), 1) << stem;
        EXPECT_TRUE(holds(html, "555-0142")) << "the office's block";
        EXPECT_TRUE(holds(html, "2026-12-01")) << "the date";
        EXPECT_TRUE(holds(html, "class=\"cautions")) << stem;
        EXPECT_TRUE(holds(html, language == "en" ? "are invented" : "inventados"));
      }
}

TEST(Sheets, WhoeverDigsOrCoversIsWarnedInFull) {
  const PrintRoom room("sheet_cautions");
  ASSERT_EQ(room.run("handout night planting --place gannet_quay --paper letter").status, 0);
  for (const Language& language : testing::real_catalog().languages) {
    const std::string night = plain(room.read("cold-night-gannet_quay-" + language.code + "-letter.html"));
    for (const char* id : {"carbon_monoxide", "open_flame_and_fuel", "electric_freeze_protection"}) EXPECT_TRUE(holds(night, language.say("cautions." + std::string(id) + ".text"))) << id;
    for (const char* id : {"ladders", "icing", "heavy_pots"}) EXPECT_TRUE(holds(night, language.say("cautions." + std::string(id) + ".sign"))) << id;
    const std::string planting = plain(room.read("planting-gannet_quay-" + language.code + "-letter.html"));
    for (const char* id : {"dig_811", "pesticide_label", "moving_plants"}) EXPECT_TRUE(holds(planting, language.say("cautions." + std::string(id) + ".text"))) << id;
    for (const char* id : {"septic", "ladders", "thorns"}) EXPECT_TRUE(holds(planting, language.say("cautions." + std::string(id) + ".sign"))) << id;
  }
}

TEST(Sheets, WhereNothingDoesTheLeastChangeIsThatOfExplain) {
  const PrintRoom room("sheet_no");
  const std::string yard = " --place burdock_hollow --answer sun=full --answer planting=pot_large --answer taste=sour --answer pets=has_pets ";
  ASSERT_EQ(room.run("handout --lang en --paper letter" + yard).status, 0);
  const std::string html = plain(room.read("your-yard-en-letter.html"));
  const auto ranked = nlohmann::json::parse(room.project().run("rank --json" + yard).text);
  const auto& advice = ranked.contains("advice") ? ranked["advice"] : ranked;
  const auto& first = advice["candidates"][0];
  ASSERT_EQ(first["shelf"], "not_here") << "take a yard in which nothing does";
  const auto least = nlohmann::json::parse(room.project().run("explain " + first["cultivar"].get<std::string>() + " --json" + yard).text);
  ASSERT_FALSE(least["ways"].empty());
  for (const auto& change : least["ways"][0]["changes"]) {
    const std::string question = "questions." + change["question"].get<std::string>();
    EXPECT_TRUE(holds(html, english().say(question + ".ask") + " Make it: " + english().say(question + ".answers." + change["answer"].get<std::string>())));
  }
  EXPECT_TRUE(holds(html, english().say("cautions.pets.sign"))) << "the household's animals";
}

TEST(Sheets, SlipsInWhatIsAskedAreTold) {
  const PrintRoom room("sheet_slips");
  struct Case { const char *arguments, *says; };
  for (const Case& bad : {Case{"handout nigth", "did you mean \"night\"?"}, Case{"handout types --type satsoma", "did you mean \"satsuma\"?"},
                          Case{"handout night --place gannet_key", "did you mean \"gannet_quay\"?"}, Case{"handout --answer sun=ful", "did you mean \"full\"?"},
                          Case{"handout --paper legal", "letter"}}) {
    const Outcome made = room.run(bad.arguments);
    EXPECT_EQ(made.status, 2) << bad.arguments;
    EXPECT_TRUE(holds(made.text, bad.says)) << made.text;
  }
}

TEST(Sheets, TemplatesAndTheOfficesFileAreChecked) {
  const PrintRoom room("sheet_templates");
  const fs::path source = fs::path(TENWINTERS_SOURCE_DIR) / "site-templates", copy = room.project().folder() / "site-templates";
  fs::copy(source, copy, fs::copy_options::recursive);
  const auto edited = [&](const std::string& file, const std::string& from, const std::string& to) {
    std::string text = testing::file_text(source / file);
    const std::size_t at = text.find(from);
    EXPECT_NE(at, std::string::npos);
    text.replace(at, from.size(), to);
    std::ofstream(copy / file, std::ios::binary) << text;
    Outcome made = room.project().run("handout --lang en --paper letter --out out");
    std::ofstream(copy / file, std::ios::binary) << testing::file_text(source / file);
    return made;
  };
  // The line of the tag in its own file.
  const Outcome missing = edited("print_county.mustache", "{{ui.handout.first_title}}", "{{ui.handout.frist_title}}");
  EXPECT_EQ(missing.status, 1);
  EXPECT_TRUE(std::regex_search(missing.text, std::regex("site-templates/print_county\\.mustache:10(:0)?: nothing is called \"ui\\.handout\\.frist_title\""))) << missing.text;
  EXPECT_FALSE(room.has("which-citrus-en-letter.html"));
  const Outcome name = edited("print_office.json", "\"leaf\"", "\"laef\"");
  EXPECT_TRUE(holds(name.text, "print_office.json") && holds(name.text, "did you mean \"leaf\"?")) << name.text;
  const Outcome value = edited("print_office.json", "#2c5a39", "green;}");
  EXPECT_EQ(value.status, 1);
  EXPECT_TRUE(holds(value.text, "colours.leaf") && holds(value.text, "expected a colour")) << value.text;
  const Outcome font = edited("print_office.json", "Arial, sans-serif\"", "Arial} body{\"");
  EXPECT_TRUE(holds(font.text, "fonts.sans")) << font.text;
  // What an office may change in the one file reaches the sheet.
  const Outcome own = edited("print_office.json", "\"block\": {}", "\"block\": {\"en\": [\"Mondays nine to noon\"]}");
  EXPECT_EQ(own.status, 0) << own.text;
  const std::string html = room.read("which-citrus-en-letter.html");
  EXPECT_TRUE(holds(html, "Mondays nine to noon"));
  EXPECT_FALSE(holds(html, "555-0142"));
}

TEST(Qr, IsSquareWithAQuietZoneAndRefusesWhatNoCodeHolds) {
  const std::string code = draw::qr("https://quillback.example/citrus/en/index.html", "to the page");
  // 46 bytes at M take version 4 (62 bytes), 33 modules a side, and 4 quiet ones all round: ISO/IEC 18004, table 7.
  EXPECT_TRUE(holds(code, "viewBox=\"0 0 41 41\"")) << code.substr(0, 200);
  EXPECT_TRUE(holds(code, "M4 4h7v1h-7z")) << "the upper left mark begins behind the quiet zone";
  EXPECT_EQ(draw::qr("", "x"), "");
  EXPECT_EQ(draw::qr(std::string(3000, 'x'), "x"), "");
}

}  // namespace
}  // namespace tenwinters
