// Winters packed for replay: what is in a spell, what is left out, and that the pack agrees with the record.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <memory>
#include <sstream>

#include "records/records.h"

namespace tenwinters {
namespace {

std::string demo_file(const std::string& place) {
  return std::string(TENWINTERS_SOURCE_DIR) + "/catalog/offices/demo/" + place + ".csv";
}

std::string text_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

// Whole years of the same day, to be changed where a test wants.
std::vector<Day> steady(int first_year, int last_year, double min_c, double max_c) {
  std::vector<Day> days;
  for (int n = day_number(first_year, 1, 1); n <= day_number(last_year, 12, 31); ++n) {
    const CivilDate d = civil_date(n);
    days.push_back({d.year, d.month, d.day, min_c, max_c, 0});
  }
  return days;
}

Day& at(std::vector<Day>& days, int year, int month, int day) {
  return days[static_cast<std::size_t>(day_number(year, month, day) - day_number(days.front().year, 1, 1))];
}

Record record_of(std::vector<Day> days) {
  Record record;
  record.station = "test";
  record.days = std::move(days);
  return record;
}

TEST(DemoRecord, TheGeneratorWritesTheCommittedFiles) {
  for (const std::string place : {"gannet_quay", "burdock_hollow"}) {
    const std::string command = std::string(TENWINTERS_BINARY_DIR) + "/demo_record " + place;
    const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(command.c_str(), "r"), pclose);
    ASSERT_NE(pipe, nullptr);
    std::string written;
    std::array<char, 65536> block{};
    for (std::size_t n; (n = fread(block.data(), 1, block.size(), pipe.get())) > 0;) written.append(block.data(), n);
    EXPECT_GT(written.size(), 200000u);
    EXPECT_TRUE(written == text_of(demo_file(place))) << place;
  }
}

TEST(DemoRecord, FortyWholeWintersOfAPlausibleClimate) {
  struct Expected {
    std::string place;
    double low_f, high_f;
    std::string zone;
  };
  for (const Expected& e : {Expected{"gannet_quay", 24, 25, "9a"}, Expected{"burdock_hollow", 18, 19, "8b"}}) {
    const Record record = read_record(text_of(demo_file(e.place)), e.place + ".csv");
    EXPECT_TRUE(record.faults.empty());
    EXPECT_EQ(record.station, e.place);
    const ClimateSummary s = summarize(record.days, {});
    ASSERT_EQ(s.winters.complete.size(), 40u);
    EXPECT_EQ(s.winters.complete.front().year, 1986);
    EXPECT_TRUE(s.winters.left_out.empty());
    EXPECT_EQ(s.days_missing, 0);
    const double mean_f = s.mean_all_c * 9 / 5 + 32;
    EXPECT_GE(mean_f, e.low_f) << e.place;
    EXPECT_LE(mean_f, e.high_f) << e.place;
    // Some of its deep freezes find hardened trees, some do not.
    const Winters pack = pack_winters(record, 30, true);
    int hard = 0, soft = 0;
    for (const Winter& winter : pack.winters)
      for (const Spell& spell : winter.spells)
        if (*std::min_element(spell.tenths_c.begin(), spell.tenths_c.end()) <= -60)
          (spell.hardening_permille > 600 ? hard : soft) +=
              spell.hardening_permille > 600 || spell.hardening_permille < 400;
    EXPECT_GE(hard, 3) << e.place;
    EXPECT_GE(soft, 3) << e.place;
  }
}

TEST(Pack, AgreesWithTheRecordItCameFrom) {
  for (const std::string place : {"gannet_quay", "burdock_hollow"}) {
    const Record record = read_record(text_of(demo_file(place)), place + ".csv");
    const WinterList list = list_winters(record.days, false);
    const Winters pack = pack_winters(record, 30.6, true);
    EXPECT_TRUE(pack.invented);
    ASSERT_EQ(pack.winters.size(), list.complete.size());
    std::size_t bytes = 0;
    for (std::size_t i = 0; i < pack.winters.size(); ++i) {
      const Winter& winter = pack.winters[i];
      const WinterLow& low = list.complete[i];
      EXPECT_EQ(winter.year, low.year);
      EXPECT_EQ(winter.lowest_tenths_c, std::lround(low.lowest_c * 10));
      EXPECT_EQ(winter.first_freeze_day, low.first_freeze[0]);
      EXPECT_EQ(winter.last_freeze_day, low.last_freeze[0]);
      int coldest = kWarm, previous_end = -1;
      for (const Spell& spell : winter.spells) {
        ASSERT_FALSE(spell.tenths_c.empty());
        EXPECT_NE(spell.tenths_c.front(), kWarm);
        EXPECT_NE(spell.tenths_c.back(), kWarm);
        EXPECT_GE(spell.hardening_permille, 0);
        EXPECT_LE(spell.hardening_permille, 1000);
        EXPECT_GT(spell.day * 24 + spell.start_hour, previous_end + 8);  // eight mild hours lie between
        previous_end = spell.day * 24 + spell.start_hour + static_cast<int>(spell.tenths_c.size()) - 1;
        int lowest = kWarm, mild = 0;
        for (const int tenths : spell.tenths_c) {
          EXPECT_TRUE(tenths == kWarm || tenths <= 50);
          mild = tenths == kWarm ? mild + 1 : 0;
          EXPECT_LT(mild, 8);
          lowest = std::min(lowest, tenths);
        }
        EXPECT_LE(lowest, 10);
        coldest = std::min(coldest, lowest);
        bytes += 60 + spell.tenths_c.size() * 4;
      }
      if (winter.lowest_tenths_c <= 10) {
        EXPECT_EQ(coldest, winter.lowest_tenths_c) << place << ' ' << winter.year;
      }
    }
    EXPECT_LT(bytes, 100000u) << place;  // what a browser is asked to carry
  }
}

TEST(Pack, OneFrostyNightIsOneSpell) {
  std::vector<Day> days = steady(2000, 2003, 10, 20);
  at(days, 2002, 1, 15).min_c = -5;
  const Winters pack = pack_winters(record_of(days), 30, false);
  ASSERT_EQ(pack.winters.size(), 3u);  // winters 2001 to 2003; the ends are incomplete
  EXPECT_EQ(pack.winters[1].year, 2002);
  EXPECT_TRUE(pack.winters[0].spells.empty());
  ASSERT_EQ(pack.winters[1].spells.size(), 1u);
  const Spell& spell = pack.winters[1].spells[0];
  const int night = day_number(2002, 1, 15) - day_number(2001, 7, 1);
  EXPECT_EQ(spell.day, night - 1);  // it gets cold the evening before
  EXPECT_GT(spell.start_hour, 18);
  EXPECT_EQ(*std::min_element(spell.tenths_c.begin(), spell.tenths_c.end()), -50);
  EXPECT_FALSE(spell.windy);  // the day warmed to 20: a still, clear night
  EXPECT_EQ(pack.winters[1].first_freeze_day, night);
  EXPECT_EQ(pack.winters[0].first_freeze_day, -1);
}

TEST(Pack, ADayThatStaysColdJoinsItsNightsAndIsWindy) {
  std::vector<Day> days = steady(2000, 2003, 10, 20);
  for (const int d : {14, 15, 16}) at(days, 2002, 1, d) = {2002, 1, d, -6, 2, 0};
  const Winters pack = pack_winters(record_of(days), 30, false);
  ASSERT_EQ(pack.winters[1].spells.size(), 1u);
  EXPECT_TRUE(pack.winters[1].spells[0].windy);
  EXPECT_GT(pack.winters[1].spells[0].tenths_c.size(), 48u);
}

TEST(Pack, MildDaysPartNights) {
  std::vector<Day> days = steady(2000, 2003, 10, 20);
  for (const int d : {14, 15, 16}) at(days, 2002, 1, d).min_c = -4;
  EXPECT_EQ(pack_winters(record_of(days), 30, false).winters[1].spells.size(), 3u);
}

TEST(Pack, AMissingNightIsNotInvented) {
  std::vector<Day> days = steady(2000, 2003, 10, 20);
  for (const int d : {14, 15, 16}) at(days, 2002, 1, d).min_c = -4;
  at(days, 2002, 1, 15).min_c = at(days, 2002, 1, 15).max_c = std::nan("");
  EXPECT_EQ(pack_winters(record_of(days), 30, false).winters[1].spells.size(), 2u);
}

TEST(Pack, SouthernWintersAreCalendarYears) {
  std::vector<Day> days = steady(2000, 2003, 10, 20);
  at(days, 2002, 7, 15).min_c = -5;
  const Winters pack = pack_winters(record_of(days), -33, false);
  ASSERT_EQ(pack.winters.size(), 4u);
  EXPECT_EQ(pack.winters[2].year, 2002);
  ASSERT_EQ(pack.winters[2].spells.size(), 1u);
  EXPECT_EQ(pack.winters[2].spells[0].day, day_number(2002, 7, 14) - day_number(2002, 1, 1));
}

TEST(Pack, AStationThatNeverFreezesHasNoSpells) {
  const Winters pack = pack_winters(record_of(steady(2000, 2003, 10, 20)), 30, false);
  ASSERT_EQ(pack.winters.size(), 3u);
  for (const Winter& winter : pack.winters) {
    EXPECT_TRUE(winter.spells.empty());
    EXPECT_EQ(winter.first_freeze_day, -1);
    EXPECT_EQ(winter.last_freeze_day, -1);
  }
}

TEST(Pack, HeatBelongsToTheSeasonThatEndsInTheWinter) {
  std::vector<Day> days = steady(2000, 2003, 5, 15);  // 10 on average: no heat
  for (int n = day_number(2001, 7, 1); n <= day_number(2001, 7, 31); ++n) {
    const CivilDate d = civil_date(n);
    at(days, d.year, d.month, d.day) = {d.year, d.month, d.day, 20, 32, 0};
  }
  const Winters pack = pack_winters(record_of(days), 30, false);
  EXPECT_EQ(pack.winters[1].year, 2002);
  EXPECT_EQ(pack.winters[1].heat_units[6], static_cast<int>(std::lround(31 * (26 - 12.8))));
  EXPECT_EQ(pack.winters[0].heat_units[6], 0);
  EXPECT_EQ(pack.winters[2].heat_units[6], 0);
}

TEST(Pack, IncompleteWintersAreLeftOutByName) {
  std::vector<Day> days = steady(2000, 2004, 10, 20);
  for (int n = day_number(2002, 11, 20); n <= day_number(2002, 12, 10); ++n) {
    const CivilDate d = civil_date(n);
    at(days, d.year, d.month, d.day).min_c = std::nan("");
  }
  const Winters pack = pack_winters(record_of(days), 30, false);
  EXPECT_EQ(pack.left_out, (std::vector<int>{2000, 2003, 2005}));
  EXPECT_EQ(pack.winters.size(), 3u);
}

}  // namespace
}  // namespace tenwinters
