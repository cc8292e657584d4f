// Pages of advice: figures as people say them, and no sentence without its figure.
#include <gtest/gtest.h>

#include <algorithm>

#include "../real_catalog.h"
#include "render/guide_view.h"

namespace tenwinters {
namespace {

const Language& language(std::string_view code) {
  for (const Language& one : testing::real_catalog().languages)
    if (one.code == code) return one;
  return testing::real_catalog().languages.front();
}

Voice voice(std::string_view code, Units units) {
  const testing::RealCatalog& real = testing::real_catalog();
  return {real.catalog, real.office, language(code), units};
}

TEST(Guides, FiguresAreInTheReadersUnits) {
  const Voice us = voice("en", Units::us), metric = voice("en", Units::metric), spanish = voice("es", Units::us);
  EXPECT_EQ(guide_value(us, GuideUnit::count, 100000), "100,000");
  EXPECT_EQ(guide_value(us, GuideUnit::count, 999), "999");
  EXPECT_EQ(guide_value(us, GuideUnit::count, 6.5), "6.5");
  EXPECT_EQ(guide_value(us, GuideUnit::percent, 0.1), "0.1 %");
  EXPECT_EQ(guide_value(us, GuideUnit::millimetres, 38), "1.5 in");  // 38.1 mm
  EXPECT_EQ(guide_value(us, GuideUnit::millimetres, 20), "0.75 in");
  EXPECT_EQ(guide_value(metric, GuideUnit::millimetres, 38), "38 mm");
  EXPECT_EQ(guide_value(us, GuideUnit::metres, 0.9), "3 ft");
  EXPECT_EQ(guide_value(us, GuideUnit::metres, 520), "1,710 ft");   // 1706
  EXPECT_EQ(guide_value(metric, GuideUnit::metres, 0.9), "0.9 m");
  EXPECT_EQ(guide_value(us, GuideUnit::litres, 76), "20 gal");
  EXPECT_EQ(guide_value(us, GuideUnit::celsius, 10), "50 °F");
  EXPECT_EQ(guide_value(spanish, GuideUnit::months, 1), "1 mes");
  EXPECT_EQ(guide_range(us, {"x", GuideUnit::months, {6, 5, 6, {}}}), "5 to 6 months");
  EXPECT_EQ(guide_range(us, {"x", GuideUnit::millimetres, {25, 25, 26, {}}}), "1 in");  // both ends look alike
  EXPECT_EQ(guide_range(spanish, {"x", GuideUnit::hours, {7, 6, 8, {}}}), "6 a 8 horas");
}

TEST(Guides, EverySentenceHasItsFigures) {
  const Guidance& guidance = testing::real_catalog().guidance;
  ASSERT_EQ(guidance.calls.size(), 10u);
  ASSERT_EQ(guidance.guides.size(), 2u);
  for (const char* code : {"en", "es"})
    for (const Units units : {Units::us, Units::metric}) {
      const Voice reader = voice(code, units);
      const auto whole = [&](const std::string& key, const Advised& advised) {
        EXPECT_EQ(advice_text(reader, key, advised).find_first_of("[]{}"), std::string::npos) << code << ' ' << advice_text(reader, key, advised);
      };
      for (const Call& call : guidance.calls)
        for (const char* part : {"ask", "short", "why", "do", "ring"}) whole("calls." + call.id + "." + part, call);
      for (const Guide& guide : guidance.guides)
        for (const Advised& section : guide.sections)
          for (const char* part : {"title", "text"}) whole("guides." + guide.id + ".sections." + section.id + "." + part, section);
    }
}

// A figure that stands in no sentence and feeds no table would be evidence for nothing.
TEST(Guides, EveryFactIsUsed) {
  const auto used = [&](const Advised& advised, const std::string& stem, std::initializer_list<const char*> parts) {
    for (const GuideFact& fact : advised.facts) {
      bool found = false;
      for (const Shown shown : advised.shows)
        for (const std::string_view needed : facts_needed(shown)) found = found || needed == fact.id;
      for (const char* part : parts) {
        const std::string text = language("en").say(stem + part);
        for (const char* end : {"", "_low", "_high", "_range"}) found = found || text.find("{" + fact.id + end + "}") != std::string::npos;
      }
      EXPECT_TRUE(found) << stem << ' ' << fact.id;
    }
  };
  const Guidance& guidance = testing::real_catalog().guidance;
  for (const Call& call : guidance.calls) used(call, "calls." + call.id + ".", {"ask", "short", "why", "do", "ring"});
  for (const Guide& guide : guidance.guides)
    for (const Advised& section : guide.sections) used(section, "guides." + guide.id + ".sections." + section.id + ".", {"title", "text"});
}

TEST(Guides, BlocksHaveAllPlacesAndTheirRows) {
  const Voice reader = voice("en", Units::us);
  const std::size_t places = reader.office.places.size();
  for (const Call& call : testing::real_catalog().guidance.calls) {
    Model blocks = view_local(reader, call, "", "../");
    ASSERT_EQ(blocks.items().size(), call.shows.size()) << call.id;
    for (const Model& item : blocks.items()) {
      Model block = item;
      EXPECT_FALSE(block["tables"].items().empty()) << call.id;
      for (const Model& one : block["tables"].items()) {
        Model table = one;
        EXPECT_FALSE(table["rows"].items().empty()) << call.id;
        for (const Model& line : table["rows"].items()) {
          Model row = line;
          EXPECT_EQ(row["cells"].items().size() + 1, table["head"].items().size()) << call.id;
        }
      }
    }
  }
  Advised freezes;
  freezes.shows = {Shown::freezes};
  Model blocks = view_local(reader, freezes, "", "");
  Model block = blocks.items().front();
  EXPECT_EQ(block["tables"].items().size(), places);
}

TEST(Guides, APlaceWithoutWintersSaysSo) {
  const testing::RealCatalog& real = testing::real_catalog();
  Office office = real.office;
  office.places.front().winters.winters.clear();
  const Voice reader{real.catalog, office, language("en"), Units::us};
  for (const Shown shown : {Shown::freezes, Shown::fruit_drop, Shown::pruning, Shown::ripening, Shown::fruit_cold}) {
    const Guidance& guidance = real.guidance;
    const auto call = std::find_if(guidance.calls.begin(), guidance.calls.end(), [&](const Call& c) { return c.shows == std::vector<Shown>{shown}; });
    ASSERT_NE(call, guidance.calls.end()) << name_of(shown);
    Model blocks = view_local(reader, *call, "", "");
    Model block = blocks.items().front();
    EXPECT_EQ(block["missing"].items().size(), 1u) << call->id;
    EXPECT_EQ(block["tables"].items().size(), office.places.size() - 1) << call->id;
  }
}

}  // namespace
}  // namespace tenwinters
