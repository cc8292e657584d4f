// Figures on the generated pages are rounded from what the picker is sent, so that the two never differ.
#include <gtest/gtest.h>

#include "../real_catalog.h"
#include "render/advice_view.h"
#include "render/fact_view.h"

namespace tenwinters {
namespace {

TEST(Figures, NightsAreToldAsThePickerTellsThem) {
  const testing::RealCatalog& real = testing::real_catalog();
  for (const Language& language : real.languages) {
    const Voice voice{real.catalog, real.office, language, Units::us};
    // The picker gets 0.05, and calls it rare; 0.0449 reaches it as 0.04.
    EXPECT_EQ(nights_text(voice, 0.0499), nights_text(voice, 0.05));
    EXPECT_NE(nights_text(voice, 0.0499), nights_text(voice, 0.0449));
    EXPECT_EQ(nights_text(voice, 0.0449), nights_text(voice, 0));
    EXPECT_EQ(nights_text(voice, 0.4999), nights_text(voice, 0.5));
    EXPECT_NE(nights_text(voice, 0.4949), nights_text(voice, 0.5));
    EXPECT_EQ(voice.chance(0.99949), voice.chance(0.999));
  }
}

TEST(Figures, WordsAreChosenByTheirNumber) {
  const testing::RealCatalog& real = testing::real_catalog();
  for (const Language& language : real.languages) {
    const Voice voice{real.catalog, real.office, language, Units::us};
    EXPECT_EQ(voice.count("ui.nights", 1), voice.say("ui.nights", {{"n", "1"}}));
    EXPECT_EQ(voice.count("ui.nights", 7), voice.say("ui.nights", {{"n", "7"}}));
    EXPECT_NE(voice.count("ui.nights", 1), voice.count("ui.nights", 7));
    EXPECT_EQ(voice.count("ui.nights", 7), voice.say("ui.nights.other", {{"n", "7"}}));
  }
}

// The catalogue's months are those of the north; an office's trees bloom by its own spring.
TEST(Figures, TheYearOfATreeIsThatOfItsSideOfTheEquator) {
  const testing::RealCatalog& real = testing::real_catalog();
  Office south = real.office, nowhere = real.office;
  for (Place& place : south.places) place.winters.latitude_deg *= -1;
  nowhere.places.clear();
  Traits traits;
  traits.bloom = {3, 4, {}};
  traits.ripening = {{Region::other, {10, 1, {}}}};
  const Voice northern{real.catalog, real.office, real.languages.front(), Units::us}, southern{real.catalog, south, real.languages.front(), Units::us},
      bare{real.catalog, nowhere, real.languages.front(), Units::us};
  const auto told = [&](const Voice& voice, std::size_t row) { return view_year_strip(voice, "year", "Invented", traits).find("rows")->items()[row].find("cells")->items()[0].text(); };
  EXPECT_EQ(told(northern, 0), northern.months(3, 4));
  EXPECT_EQ(told(northern, 1), northern.months(10, 1));
  EXPECT_EQ(told(southern, 0), northern.months(9, 10));
  EXPECT_EQ(told(southern, 1), northern.months(4, 7));
  EXPECT_EQ(told(bare, 0), northern.months(3, 4));
}

// Where the sources say nothing of its region, a page takes the months that the replay and the calendar take: those of
// the region with the nearest climate.
TEST(Figures, FruitIsRipeWhenItIsWhereTheClimateIsNearest) {
  const testing::RealCatalog& real = testing::real_catalog();
  Office texan = real.office;
  texan.places.front().region = Region::texas;
  Traits traits;
  traits.bloom = {3, 4, {}};
  traits.ripening = {{Region::florida, {9, 10, {}}}, {Region::gulf, {11, 12, {}}}};
  const Voice voice{real.catalog, texan, real.languages.front(), Units::us};
  EXPECT_EQ(view_year_strip(voice, "year", "Invented", traits).find("rows")->items()[1].find("cells")->items()[0].text(), voice.months(11, 12));
}

}  // namespace
}  // namespace tenwinters
