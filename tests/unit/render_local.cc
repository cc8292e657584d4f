// Dates and counts that the pages of advice work out from a place's record.
#include "render/local.h"

#include <gtest/gtest.h>

#include "../real_catalog.h"
#include "small_catalog.h"

namespace tenwinters {
namespace {

// Degree-days above 12.8 C by month, all winters alike.
Winters with_heat(const std::array<int, 12>& heat) {
  Winters winters = testing::small_winters();
  for (Winter& winter : winters.winters) winter.heat_units = heat;
  return winters;
}

double day(int month, int day_of_month) {
  constexpr int kBefore[] = {0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334};
  return kBefore[month - 1] + day_of_month - 1;
}

TEST(Local, PackedWintersHoldTheDatesOfTheRecord) {
  const DiskReader disk;
  const std::string folder = std::string(TENWINTERS_SOURCE_DIR) + "/catalog/offices/demo/";
  for (const Place& place : testing::real_catalog().office.places) {
    const std::string path = folder + place.id + ".csv";
    std::string why;
    const std::optional<std::string> text = disk.read(path, 64u << 20u, why);
    ASSERT_TRUE(text) << why;
    const WinterList listed = list_winters(read_record(*text, path).days, false);
    const std::vector<WinterLow> lows = lows_of(place.winters);
    ASSERT_EQ(lows.size(), listed.complete.size());
    for (std::size_t i = 0; i < lows.size(); ++i) {
      EXPECT_EQ(lows[i].year, listed.complete[i].year);
      EXPECT_EQ(lows[i].first_freeze, listed.complete[i].first_freeze) << place.id << ' ' << lows[i].year;
      EXPECT_EQ(lows[i].last_freeze, listed.complete[i].last_freeze) << place.id << ' ' << lows[i].year;
    }
  }
}

TEST(Local, WarmthIsGatheredDayByDay) {
  const Winters even = with_heat({31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31});  // one a day
  EXPECT_NEAR(*day_with_heat(even, 90, 100), 190, 1e-9);
  EXPECT_NEAR(*day_with_heat(even, 300, 100), 400, 1e-9);  // over the new year
  EXPECT_FALSE(day_with_heat(even, 90, 800));
  EXPECT_FALSE(day_with_heat(with_heat({}), 90, 1));
  EXPECT_FALSE(day_with_heat({}, 90, 1));
  EXPECT_NEAR(middle_of({3, 4, {}}), day(3, 31) + 0.5, 1e-9);
  EXPECT_NEAR(middle_of({12, 1, {}}), 0, 1e-9);
}

TEST(Local, EarlyDropFallsInThePublishedWeeks) {
  const Guidance& guidance = testing::real_catalog().guidance;
  const auto call = std::find_if(guidance.calls.begin(), guidance.calls.end(), [](const Call& c) { return c.id == "small_fruit_falls"; });
  ASSERT_NE(call, guidance.calls.end());
  const double from = find_fact(*call, "drop_from")->fact.best, to = find_fact(*call, "drop_to")->fact.best;
  struct Row { const char* source; std::array<int, 12> heat; double mid_bloom, begins, ends; };
  // Warmth: monthly means above 12.8 C of Gainesville FL (GHCN-Daily, 1991-2024), Fresno CA (NWS, 1981-2010) and Phoenix AZ
  // (TMY3). Middle of bloom: advisories for central Florida 8 February to 9 April; declared bloom in Kern and Tulare
  // counties 17 March to 30 April; Arizona late February through March (Greenfield).
  for (const Row& row : {
           Row{"Southeast AgNet 2021: Florida, late April to May", {66, 91, 156, 229, 348, 418, 458, 456, 396, 284, 143, 91}, day(3, 10), day(4, 21), day(5, 31)},
           Row{"Mercury News 2013: California, late May through July", {3, 13, 55, 124, 261, 369, 482, 456, 351, 190, 34, 2}, day(4, 8), day(5, 21), day(7, 31)},
           Row{"Maricopa Master Gardeners 2003: Arizona, April", {44, 110, 148, 312, 436, 627, 705, 643, 529, 382, 164, 25}, day(3, 11), day(4, 1), day(4, 30)}}) {
    const Winters winters = with_heat(row.heat);
    // The beginning is told to two weeks or so, the end is not: California's runs long, Arizona's is short.
    EXPECT_NEAR(*day_with_heat(winters, row.mid_bloom, from), row.begins, 16) << row.source;
    EXPECT_NEAR(*day_with_heat(winters, row.mid_bloom, to), row.ends, 45) << row.source;
    EXPECT_GT(*day_with_heat(winters, row.mid_bloom, to), row.begins) << row.source;
  }
}

TEST(Local, ColdIsCountedByWinterAndByMonth) {
  const Winters winters = testing::small_winters();  // lows of -1, -1.2, -1.5 ... on 10 January
  EXPECT_EQ(cold_count(winters, -1).winters, 20);
  EXPECT_EQ(cold_count(winters, -3).winters, 12);
  EXPECT_EQ(cold_count(winters, -9).winters, 0);
  EXPECT_EQ(cold_count(winters, -9).earliest_day, -1);
  EXPECT_EQ(cold_count(winters, -1).earliest_day, 193);
  EXPECT_EQ(winters_cold_in(winters, -1, 1), 20);
  EXPECT_EQ(winters_cold_in(winters, -1, 2), 0);
  Winters south = winters;
  south.latitude_deg = -30;  // day 193 since 1 January is in July
  EXPECT_EQ(winters_cold_in(south, -1, 7), 20);
}

TEST(Local, WarmEnoughWintersAreThoseTheReplayRipens) {
  // Bloom March to April, ripe October to December: warmth counts from April to December, nine months of it.
  const Winters winters = with_heat({200, 200, 200, 200, 200, 200, 200, 200, 200, 200, 200, 200});
  EXPECT_EQ(winters_with_heat(winters, {3, 4, {}}, {10, 12, {}}, 1800), 20);
  EXPECT_EQ(winters_with_heat(winters, {3, 4, {}}, {10, 12, {}}, 1801), 0);
}

}  // namespace
}  // namespace tenwinters
