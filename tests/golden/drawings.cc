// Drawings compared with files that a person has looked at: tests/golden/drawings/NAME.svg.
// TENWINTERS_UPDATE=1 writes them anew; read the difference before keeping it.
#include <gtest/gtest.h>

#include <algorithm>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <set>
#include <sstream>

#include "draw/draw.h"

namespace tenwinters::draw {
namespace {

namespace fs = std::filesystem;
const fs::path kFolder = fs::path(TENWINTERS_SOURCE_DIR) / "tests" / "golden" / "drawings";

ColdRuler ruler() {
  ColdRuler ruler;
  ruler.caption = {"ruler", "Cold ruler: a & b", "Invented numbers."};
  ruler.places = {{"Coast", "coldest night", {24, 26, 26, 27, 30, 31}}, {"Inland", "coldest night", {8, 17, 18, 18, 20, 22.6}}};
  ruler.rows = {{"leaf", 15, 24}, {"wood", 10, 21}, {"fruit", 26, 26}};
  return ruler;
}

YearStrip strip() {
  YearStrip strip;
  strip.caption = {"year", "Its year", "Invented months."};
  strip.months = {"J", "F", "M", "A", "M", "J", "J", "A", "S", "O", "N", "D"};
  strip.rows = {{"bloom", "", {{2.0 / 12, 4.0 / 12, Fill::leaf}}}, {"ripe", "", {{10.0 / 12, 1.0 / 12, Fill::rind}}}, {"Gannet Quay", "freezes", {{0.88, 0.21, Fill::cold}}}};
  strip.today = 0.9;
  strip.today_label = "today";
  return strip;
}

Ledger ledger() {
  Ledger ledger;
  ledger.caption = {"ten", "Ten years", "Invented years."};
  ledger.parts = {{"too young", 2.5, Fill::drop}, {"good", 5.2, Fill::rind}, {"lost", 1.3, Fill::cold}, {"light", 1.0, Fill::paper}};
  return ledger;
}

PollenTable pollen() {
  using Reach = PollenTable::Reach;
  PollenTable table;
  table.caption = {"pollen", "Pollen table: a & b", "Invented kinds."};
  table.kinds = {"Bay fruit", "Cliff fruit", "Dune fruit"};
  table.cells = {{{}, {true, Reach::all, Reach::none}, {true, Reach::some, Reach::none}},
                 {{true, Reach::none, Reach::all}, {}, {true, Reach::some, Reach::all}},
                 {{true, Reach::none, Reach::none}, {true, Reach::none, Reach::some}, {}}};
  table.fruit_key = "brings fruit";
  table.seeds_key = "brings seeds";
  table.nothing_key = "changes nothing";
  table.blank_key = "no pollen";
  return table;
}

PlotPlan plot() {
  PlotPlan plan;
  plan.caption = {"plot", "A plot", "Invented trees."};
  plan.wide_cm = 900;
  plan.long_cm = 1200;
  plan.kept_free = {90, 0, 0, 305};
  plan.north = "north";
  plan.width_label = "9 m";
  plan.length_label = "12 m";
  plan.trees = {{"A", 520, 300, 420, false, false}, {"B", 700, 800, 300, false, true}, {"C", 450, 950, 150, true, false}};
  plan.pairs = {{0, 1}};
  return plan;
}

std::map<std::string, std::string> drawings() {
  return {{"cold_ruler_wide", cold_ruler(ruler(), Form::wide)},   {"cold_ruler_slim", cold_ruler(ruler(), Form::slim)},
          {"year_strip_wide", year_strip(strip(), Form::wide)},   {"year_strip_slim", year_strip(strip(), Form::slim)},
          {"ledger_wide", ten_year_ledger(ledger(), Form::wide)}, {"ledger_slim", ten_year_ledger(ledger(), Form::slim)},
          {"pollen_wide", pollen_table(pollen(), Form::wide)},    {"pollen_slim", pollen_table(pollen(), Form::slim)},
          {"plot_plan_wide", plot_plan(plot(), Form::wide)},       {"plot_plan_slim", plot_plan(plot(), Form::slim)},
          {"why_bar", why_bar(7, 14, 40)}};
}

TEST(Golden, DrawingsAreAsLookedAt) {
  const bool update = std::getenv("TENWINTERS_UPDATE") != nullptr;
  std::set<std::string> expected;
  for (const auto& [name, svg] : drawings()) {
    const fs::path path = kFolder / (name + ".svg");
    expected.insert(path.filename().string());
    if (update) {
      fs::create_directories(kFolder);
      std::ofstream(path, std::ios::binary) << svg << '\n';
    }
    std::ifstream file(path, std::ios::binary);
    std::stringstream text;
    text << file.rdbuf();
    EXPECT_EQ(text.str(), svg + "\n") << path;
  }
  for (const fs::directory_entry& entry : fs::directory_iterator(kFolder))
    EXPECT_EQ(expected.count(entry.path().filename().string()), 1u) << "left over: " << entry.path();
}

TEST(Drawings, AxisHoldsAllAndStaysReadable) {
  for (double low = -30; low < 30; low += 1.7)
    for (double span = 0; span < 90; span += 3.1) {
      const Axis axis = axis_for(low, low + span, 10);
      EXPECT_LE(axis.first, low);
      EXPECT_GE(axis.last, low + span);
      EXPECT_LT(axis.first, axis.last);
      EXPECT_LE((axis.last - axis.first) / axis.step, 10);
    }
}

TEST(Drawings, OneDotAWinter) {
  const std::string svg = cold_ruler(ruler(), Form::wide);
  std::size_t dots = 0;  // each begins its own piece of a path
  for (const std::string mark : {"<path class=\"dot\" d=\"", "<path class=\"ring\" d=\""})
    for (std::size_t at = svg.find(mark); at != std::string::npos; at = svg.find(mark, at + 1)) {
      const std::size_t from = at + mark.size();
      const std::string path = svg.substr(from, svg.find('"', from) - from);
      dots += static_cast<std::size_t>(std::count(path.begin(), path.end(), 'M'));
    }
  EXPECT_EQ(dots, 12u);
}

TEST(Drawings, AnEmptyPollenTableStillDraws) {
  PollenTable none;
  none.caption = {"p", "t", "d"};
  EXPECT_NE(pollen_table(none, Form::slim).find("</svg>"), std::string::npos);
}

TEST(Drawings, AnEmptyRecordStillDraws) {
  EXPECT_NE(cold_ruler({{"r", "t", "d"}, {}, {}}, Form::slim).find("</svg>"), std::string::npos);
  EXPECT_NE(cold_ruler({{"r", "t", "d"}, {{"place", "", {}}}, {}}, Form::wide).find("</svg>"), std::string::npos);
}

}  // namespace
}  // namespace tenwinters::draw
