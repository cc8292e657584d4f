// The calendar's days, by hand on invented winters; and the calendar file's form, line by line.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdio>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <random>
#include <tuple>

#include "../real_catalog.h"
#include "cli_run.h"
#include "lib/ics.h"
#include "lib/texts.h"
#include "small_catalog.h"
#include "tenwinters/calendar.h"
#include "tenwinters/climate.h"

namespace tenwinters {
namespace {

Winter winter(int first, int last) {
  Winter one;
  one.first_freeze_day = first;
  one.last_freeze_day = last;
  return one;
}

Place place_with(std::vector<Winter> winters, double latitude = 30) {
  Place place;
  place.id = "here";
  place.region = Region::gulf;
  place.winters.latitude_deg = latitude;
  place.winters.winters = std::move(winters);
  return place;
}

TEST(Calendar, DaysOfTheYear) {
  EXPECT_EQ(year_day({1, 1}), 0);
  EXPECT_EQ(year_day({12, 31}), 364);
  for (int day = -400; day < 800; ++day) EXPECT_EQ(year_day(month_day(day)), (day % 365 + 365) % 365);
  EXPECT_EQ(month_day(59), (MonthDay{3, 1}));
  EXPECT_EQ(days_of({2, 2, {}}), (DaySpan{{2, 1}, {2, 28}}));
  EXPECT_EQ(days_of({11, 1, {}}), (DaySpan{{11, 1}, {1, 31}}));
}

TEST(Calendar, FreezesByRankWithWintersThatNeverFroze) {
  // Nine winters first freeze on days 140, 145 ... 180 of the winter and last on 230 ... 270; rank of 1 in 10 is 1.
  std::vector<Winter> nine;
  for (int i = 0; i < 9; ++i) nine.push_back(winter(140 + 5 * i, 230 + 5 * i));
  FreezeDays days = freeze_days(place_with(nine).winters);
  EXPECT_EQ(days.winters, 9);
  EXPECT_EQ(days.ready, month_day(181 + 140));
  EXPECT_EQ(days.usual_first, month_day(181 + 160));
  EXPECT_EQ(days.usual_last, month_day(181 + 250));
  EXPECT_EQ(days.over, month_day(181 + 270));
  // Ten more that never froze: half the winters have no first freeze, so there is no usual one.
  for (int i = 0; i < 10; ++i) nine.push_back(winter(-1, -1));
  days = freeze_days(place_with(nine).winters);
  EXPECT_EQ(days.with_freeze, 9);
  EXPECT_EQ(days.ready, month_day(181 + 145));
  EXPECT_EQ(days.usual_first.month, 0);
  EXPECT_EQ(freeze_days(place_with({winter(-1, -1)}).winters).ready.month, 0);
  EXPECT_EQ(freeze_days({}).ready.month, 0);
  // South of the equator the winter is counted from January.
  EXPECT_EQ(freeze_days(place_with({winter(170, 200)}, -30).winters).ready, month_day(170));
}

// The climate's own tables (checked against published freeze dates elsewhere) name the same days.
TEST(Calendar, FreezesAgreeWithTheClimateTables) {
  std::mt19937 random(7);
  for (int round = 0; round < 200; ++round) {
    std::vector<Winter> winters;
    std::vector<WinterLow> lows;
    for (auto n = random() % 45 + 1; n > 0; --n) {
      const bool froze = random() % 5 != 0;
      const int first = 100 + static_cast<int>(random() % 80), last = first + static_cast<int>(random() % 90);
      winters.push_back(froze ? winter(first, last) : winter(-1, -1));
      WinterLow low{};
      low.first_freeze.fill(froze ? first : -1);
      low.last_freeze.fill(froze ? last : -1);
      lows.push_back(low);
    }
    const FreezeDays days = freeze_days(place_with(winters).winters);
    const FreezeDates table = freeze_dates(lows, 0);
    const auto same = [&](const MonthDay& day, const std::optional<int>& told) { EXPECT_EQ(day, told ? month_day(181 + *told) : MonthDay{}); };
    same(days.ready, table.first[0]);
    same(days.usual_first, table.first[2]);
    same(days.usual_last, table.last[2]);
    same(days.over, table.last[0]);
  }
}

TEST(Calendar, EventsOfATree) {
  Catalog catalog = testing::small_catalog();
  catalog.cultivars[0].traits.bloom = {3, 4, {}};
  Seasons seasons;
  seasons.rows = {{CalendarKind::fruit_drop, Region::gulf, {{4, 20}, {5, 31}}, {}, {}, {}},
                  {CalendarKind::feed, Region::gulf, {{2, 10}, {2, 18}}, {}, {"kind"}, {}},
                  {CalendarKind::feed, Region::arizona, {{1, 1}, {2, 28}}, {}, {}, {}},
                  {CalendarKind::prune_frozen, Region::gulf, {{5, 1}, {6, 30}}, {}, {}, {}}};
  std::vector<Winter> winters(9, winter(150, 240));
  const CalendarTree tree{catalog.cultivars[0].id, "cover", 11, 1};
  const auto kinds = [&](const Place& place, const CalendarTree& one) {
    std::map<CalendarKind, CalendarEvent> out;
    for (const CalendarEvent& event : calendar(catalog, seasons, place, std::span(&one, 1))) out[event.kind] = event;
    return out;
  };
  auto all = kinds(place_with(winters), tree);
  EXPECT_EQ(all[CalendarKind::bloom].days, (DaySpan{{3, 1}, {4, 30}}));
  EXPECT_EQ(all[CalendarKind::ripe].days, (DaySpan{{11, 1}, {1, 31}}));
  EXPECT_EQ(all[CalendarKind::fruit_drop].days, (DaySpan{{4, 20}, {5, 31}}));
  EXPECT_EQ(all[CalendarKind::cold_work].days, (DaySpan{month_day(181 + 150), month_day(181 + 240)}));
  EXPECT_EQ(all[CalendarKind::cold_work].protection, "cover");
  EXPECT_EQ(all.count(CalendarKind::feed), 0u) << "the row leaves this type out";
  EXPECT_EQ(all[CalendarKind::prune_frozen].cultivar, "") << "told once for the yard";
  EXPECT_EQ(all.count(CalendarKind::freeze_ready), 1u);
  // No freezes on record: no freeze dates, no work, no frozen wood.
  all = kinds(place_with({winter(-1, -1)}), tree);
  for (const CalendarKind kind : {CalendarKind::freeze_ready, CalendarKind::cold_work, CalendarKind::prune_frozen}) EXPECT_EQ(all.count(kind), 0u);
  // Another region borrows nothing.
  Place west = place_with(winters);
  west.region = Region::california;
  EXPECT_EQ(kinds(west, tree).count(CalendarKind::fruit_drop), 0u);
  // Bloom the year round and fruit that never ripens are no events; the drop is of a spring bloom.
  catalog.cultivars[0].traits.bloom = {1, 12, {}};
  all = kinds(place_with(winters), {tree.cultivar, "none", 0, 0});
  for (const CalendarKind kind : {CalendarKind::bloom, CalendarKind::ripe, CalendarKind::fruit_drop, CalendarKind::cold_work}) EXPECT_EQ(all.count(kind), 0u);
  catalog.cultivars[0].traits.bloom = {6, 8, {}};
  EXPECT_EQ(kinds(place_with(winters), tree).count(CalendarKind::fruit_drop), 0u);
  EXPECT_TRUE(calendar(catalog, seasons, place_with({}), {}).empty());
}

// The catalogue's months are those of the north: south of the equator March is September.
TEST(Calendar, SouthOfTheEquatorATreeIsHalfAYearLater) {
  Catalog catalog = testing::small_catalog();
  Seasons seasons;
  seasons.rows = {{CalendarKind::fruit_drop, Region::gulf, {{10, 20}, {11, 30}}, {}, {}, {}}};
  const auto drops = [&](const Window& bloom, double latitude) {
    catalog.cultivars[0].traits.bloom = bloom;
    const CalendarTree tree{catalog.cultivars[0].id, "none", 5, 6};
    const std::vector<CalendarEvent> events = calendar(catalog, seasons, place_with({}, latitude), std::span(&tree, 1));
    return std::count_if(events.begin(), events.end(), [](const CalendarEvent& event) { return event.kind == CalendarKind::fruit_drop; });
  };
  for (const double latitude : {-30.0, 30.0}) {
    EXPECT_EQ(drops({3, 4, {}}, latitude), 1);
    EXPECT_EQ(drops({9, 10, {}}, latitude), 0);
    // From February to May at the outside.
    EXPECT_EQ(drops({2, 5, {}}, latitude), 1);
    EXPECT_EQ(drops({2, 6, {}}, latitude), 0);
    EXPECT_EQ(drops({1, 3, {}}, latitude), 0);
  }
  catalog.cultivars[0].traits.bloom = {3, 4, {}};
  catalog.cultivars[0].traits.ripening = {{Region::gulf, {11, 1, {}}}};
  const std::vector<std::string> ids{catalog.cultivars[0].id};
  for (const auto& [latitude, bloom, ripe] : {std::tuple{30.0, 3, 11}, {-30.0, 9, 5}}) {
    const Place place = place_with({}, latitude);
    const std::vector<CalendarTree> trees = calendar_trees(catalog, place, Advice{}, ids);
    ASSERT_EQ(trees.size(), 1u);
    EXPECT_EQ(trees[0].ripe_from_month, ripe);
    const std::vector<CalendarEvent> events = calendar(catalog, seasons, place, trees);
    const auto event = std::find_if(events.begin(), events.end(), [](const CalendarEvent& one) { return one.kind == CalendarKind::bloom; });
    ASSERT_NE(event, events.end());
    EXPECT_EQ(event->days.from.month, bloom);
    EXPECT_EQ(event->days.to.month, bloom + 1);
  }
}

TEST(Calendar, WhatHoldsForSomeTreesIsToldOfEachOfThem) {
  Catalog catalog = testing::small_catalog();
  catalog.cultivars[1].type = "other";
  Seasons seasons;
  seasons.rows = {{CalendarKind::feed, Region::gulf, {{2, 10}, {2, 18}}, {"kind"}, {}, {}}};
  const auto fed = [&](const std::vector<std::size_t>& which) {
    std::vector<CalendarTree> trees;
    for (const std::size_t i : which) trees.push_back({catalog.cultivars[i].id, "none", 0, 0});
    std::vector<std::string> out;
    for (const CalendarEvent& event : calendar(catalog, seasons, place_with({}), trees))
      if (event.kind == CalendarKind::feed) out.push_back(event.cultivar);
    return out;
  };
  EXPECT_EQ(fed({0, 1, 2}), (std::vector<std::string>{"brave", "tender"}));
  EXPECT_EQ(fed({0, 2}), (std::vector<std::string>{""})) << "told once for the yard";
  EXPECT_EQ(fed({1}), std::vector<std::string>{});
}

TEST(Calendar, ATreeThatTheAdviceLeavesOutHasTheMonthsOfItsRegion) {
  Catalog catalog = testing::small_catalog();
  Office office = testing::small_office();
  office.on_sale = {"brave"};
  Cultivar& mild = catalog.cultivars[1];
  mild.traits.ripening = {{Region::florida, {9, 10, {}}}, {Region::gulf, {11, 1, {}}}};
  catalog.cultivars[2].traits.ripening.clear();
  const Advice advice = testing::small_advice(catalog, office, {});
  ASSERT_EQ(advice.candidates.size(), 1u);
  const std::vector<std::string> ids{"mild", "no_such_tree", "tender", "brave"};
  const std::vector<CalendarTree> trees = calendar_trees(catalog, office.places[0], advice, ids);
  ASSERT_EQ(trees.size(), 3u);
  EXPECT_EQ(trees[0].cultivar, "mild");
  EXPECT_EQ(trees[0].protection, "");
  EXPECT_EQ(trees[0].ripe_from_month, 11);
  EXPECT_EQ(trees[0].ripe_to_month, 1);
  EXPECT_EQ(trees[1].cultivar, "tender");
  EXPECT_EQ(trees[1].ripe_from_month, 0) << "no month is on record";
  EXPECT_EQ(trees[2].cultivar, "brave");
  EXPECT_EQ(trees[2].protection, advice.candidates[0].protection);
  EXPECT_EQ(trees[2].ripe_from_month, advice.candidates[0].prospect.ripe_from_month);
}

TEST(Ics, LinesAreFoldedAndCharactersKeptWhole) {
  for (const std::string& word : {std::string("a"), std::string("ñ"), std::string("€"), std::string("\U0001F34A")}) {
    for (std::size_t shift = 0; shift < 8; ++shift) {
      std::string line = "SUMMARY:" + std::string(shift, 'x');
      for (int i = 0; i < 120; ++i) line += word;
      const std::string folded = ics_line(line);
      std::string unfolded, physical;
      for (std::size_t from = 0; from < folded.size();) {
        const std::size_t end = folded.find("\r\n", from);
        ASSERT_NE(end, std::string::npos);
        physical = folded.substr(from, end - from);
        EXPECT_LE(physical.size(), 75u);
        EXPECT_NE(static_cast<unsigned char>(physical[from == 0 ? 0 : 1]) & 0xC0, 0x80) << "a character is cut in two";
        EXPECT_TRUE(from == 0 || physical[0] == ' ');
        unfolded += from > 0 ? physical.substr(1) : physical;
        from = end + 2;
      }
      EXPECT_EQ(unfolded, line);
    }
  }
  EXPECT_EQ(ics_line(std::string(75, 'a')), std::string(75, 'a') + "\r\n");
  EXPECT_EQ(ics_escaped("a;b,c\\d\ne\r\nf\x01g\th"), "a\\;b\\,c\\\\d\\ne\\nfg h");
}

TEST(Ics, WholeDaysWithTheEndLeftOut) {
  IcsCalendar file{"-//Tenwinters//Calendar//EN", "en", "Here, there", "20280101T000000Z", {}};
  file.events = {{"a@x", {2028, 2, 29}, {2028, 2, 29}, false, "Leap", "", {}, 0}, {"b@x", {2027, 11, 1}, {2027, 12, 31}, true, "Ripe", "One; two", {"Citrus"}, 3}};
  EXPECT_EQ(ics_text(file),
            "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Tenwinters//Calendar//EN\r\nCALSCALE:GREGORIAN\r\nNAME;LANGUAGE=en:Here\\, there\r\n"
            "BEGIN:VEVENT\r\nUID:a@x\r\nDTSTAMP:20280101T000000Z\r\nDTSTART;VALUE=DATE:20280229\r\nDTEND;VALUE=DATE:20280301\r\n"
            "SUMMARY;LANGUAGE=en:Leap\r\nCLASS:PUBLIC\r\nTRANSP:TRANSPARENT\r\nEND:VEVENT\r\n"
            "BEGIN:VEVENT\r\nUID:b@x\r\nDTSTAMP:20280101T000000Z\r\nDTSTART;VALUE=DATE:20271101\r\nDTEND;VALUE=DATE:20280101\r\nRRULE:FREQ=YEARLY\r\n"
            "SUMMARY;LANGUAGE=en:Ripe\r\nDESCRIPTION;LANGUAGE=en:One\\; two\r\nCATEGORIES;LANGUAGE=en:Citrus\r\nCLASS:PUBLIC\r\nTRANSP:TRANSPARENT\r\n"
            "BEGIN:VALARM\r\nACTION:DISPLAY\r\nTRIGGER:-P3D\r\nDESCRIPTION;LANGUAGE=en:Ripe\r\nEND:VALARM\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n");
}

// The C library rounds the same numbers to the same digits, exact halves aside, which go up here.
TEST(FixedText, RoundsAsTheCLibraryDoes) {
  std::mt19937_64 random(1);
  for (int i = 0; i < 200000; ++i) {
    const double size = i % 3 == 0   ? static_cast<double>(random() % 100000000) / 1000
                        : i % 3 == 1 ? static_cast<double>(random() % 1000000) / 100
                                     : static_cast<double>(random()) / 1e15;
    for (int digits = 0; digits <= 2; ++digits) {
      const double eighths = size * 8;
      if (eighths == static_cast<double>(static_cast<long long>(eighths))) continue;  // may be an exact half
      char text[64];
      std::snprintf(text, sizeof text, "%.*f", digits, size);
      ASSERT_EQ(fixed_text(size, digits), text);
    }
  }
  EXPECT_EQ(fixed_text(0.125, 2), "0.13");
  EXPECT_EQ(fixed_text(0.5, 0), "1");
  EXPECT_EQ(fixed_text(2.5, 0), "3");
  EXPECT_EQ(fixed_text(0.25, 1), "0.3");
  EXPECT_EQ(fixed_text(0, 2), "0.00");
}

const std::string kCalendar = std::string(TENWINTERS_BINARY_DIR) + "/tenwinters --today 2026-12-01 calendar ";
testing::Outcome run(const std::string& arguments) { return testing::run_shell(TENWINTERS_SOURCE_DIR, kCalendar + arguments); }
bool holds(const testing::Outcome& out, const std::string& text) { return out.text.find(text) != std::string::npos; }

TEST(CalendarCli, TextJsonAndFile) {
  const testing::Outcome text = run("--tree owari --answer winter_work=few_nights");
  EXPECT_EQ(text.status, 0) << text.text;
  EXPECT_TRUE(holds(text, "Owari: in bloom") && holds(text, "March 1 to April 30") && holds(text, "(These days: our estimate.)")) << text.text;
  const testing::Outcome spanish = testing::run_shell(TENWINTERS_SOURCE_DIR, std::string(TENWINTERS_BINARY_DIR) + "/tenwinters --lang es calendar --tree owari");
  EXPECT_TRUE(holds(spanish, "Owari: en flor") && holds(spanish, "del 1 de marzo al 30 de abril")) << spanish.text;
  const auto json = nlohmann::json::parse(run("--tree owari --json").text, nullptr, false);
  ASSERT_FALSE(json.is_discarded());
  EXPECT_GT(json["events"].size(), 5u);
  for (const auto& event : json["events"]) EXPECT_EQ(event["text"].get<std::string>().find('['), std::string::npos) << event["text"];
  const testing::Outcome file = run("--tree owari --ics -");
  EXPECT_TRUE(holds(file, "BEGIN:VCALENDAR\r\n") && holds(file, "RRULE:FREQ=YEARLY") && holds(file, "DTSTART;VALUE=DATE:20260301")) << file.text;
  EXPECT_EQ(file.text, run("--tree owari --tree owari --ics -").text) << "the same trees, the same bytes";
  const testing::Outcome once = run("--tree owari --ics - --once --year 2031 --alarm 2");
  EXPECT_FALSE(holds(once, "RRULE"));
  EXPECT_TRUE(holds(once, "DTSTART;VALUE=DATE:20310301") && holds(once, "TRIGGER:-P2D") && holds(once, "bloom-owari-gannet_quay-demo-2031@tenwinters")) << once.text;
}

TEST(CalendarCli, WrongInput) {
  const testing::Outcome name = run("--tree owarri");
  EXPECT_EQ(name.status, 2);
  EXPECT_TRUE(holds(name, "no cultivar \"owarri\"") && holds(name, "did you mean \"owari\"")) << name.text;
  EXPECT_EQ(run("").status, 2);
  EXPECT_EQ(run("--tree owari --year 12345").status, 2);
  EXPECT_EQ(run("--tree owari --alarm 99").status, 2);
  EXPECT_EQ(run("--tree owari --place nowhere").status, 2);
  const testing::Outcome unwritable = run("--tree owari --ics /nowhere/at/all.ics");
  EXPECT_EQ(unwritable.status, 1);
  EXPECT_TRUE(holds(unwritable, "cannot write")) << unwritable.text;
}

}  // namespace
}  // namespace tenwinters
