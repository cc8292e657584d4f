// Hardiness zones, heat units and hardening against published tables and regimes.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <numbers>

#include "records/records.h"
#include "station_files.h"
#include "tenwinters/climate.h"

namespace tenwinters {
namespace {

double c(double f) {
  return (f - 32) * 5 / 9;
}

TEST(PublishedZones, EdgesInFahrenheitAndCelsius) {
  // Half zones of 5 F from -60 F (edges from memory; steps of 10 and 5 F read in University of Georgia
  // Extension, November 2023). The value on an edge belongs to the warmer half.
  struct Row {
    std::string zone;
    double low_f, low_c;
  };
  for (const Row& row : {Row{"7a", 0, -17.8}, Row{"7b", 5, -15.0}, Row{"8a", 10, -12.2}, Row{"8b", 15, -9.4},
                         Row{"9a", 20, -6.7}, Row{"9b", 25, -3.9}, Row{"10a", 30, -1.1}, Row{"10b", 35, 1.7},
                         Row{"11a", 40, 4.4}, Row{"11b", 45, 7.2}, Row{"12a", 50, 10.0}, Row{"12b", 55, 12.8}}) {
    EXPECT_EQ(zone_name(hardiness_zone(c(row.low_f))), row.zone);
    EXPECT_EQ(zone_name(hardiness_zone(c(row.low_f + 4.99))), row.zone);
    EXPECT_NE(zone_name(hardiness_zone(c(row.low_f - 0.01))), row.zone);
    EXPECT_NEAR(c(row.low_f), row.low_c, 0.051);
  }
  EXPECT_EQ(zone_name(hardiness_zone(c(-80))), "1a");
  EXPECT_EQ(zone_name(hardiness_zone(c(90))), "13b");
}

TEST(PublishedZones, CitiesOfThe2023Map) {
  // Zones of the 2023 map (1991-2020): Gainesville FL 9a (a Florida zone page, weak), Fresno CA 9b and Merced
  // CA 9a and 9b (a California list, secondary), West Palm Beach FL 10b (memory). Fresno's record ends in 2010.
  struct Row {
    std::string file;
    std::vector<std::string> zones;
  };
  for (const Row& row :
       {Row{"Gainesville_weather_1960-2024.csv", {"9a"}}, Row{"neighbour-weather_8_FRESNO.C.csv", {"9b"}},
        Row{"GHCN_USC00045532_USW00023257.csv", {"9a", "9b"}}, Row{"GHCN_USW00012844.csv", {"10b"}}}) {
    const auto text = station_file(row.file);
    if (!text) continue;
    ClimateOptions options;
    options.first_winter = 1991;
    options.last_winter = 2020;
    const std::string zone = zone_name(summarize(read_record(*text, row.file).days, options).zone);
    EXPECT_NE(std::find(row.zones.begin(), row.zones.end(), zone), row.zones.end()) << row.file << ' ' << zone;
  }
}

TEST(PublishedHeat, SingleTriangleAndSingleSine) {
  // Zalom, Goodell, Wilson, Barnett & Bentley, Degree-days, UC leaflet 21373, 1983, table 7 (as stored in R
  // package degday): 55 and 90 F, horizontal cut-off.
  struct Row {
    double min, max, triangle, sine;
  };
  for (const Row& row :
       {Row{96, 110, 35.0, 35.0}, Row{91, 105, 35.0, 35.0}, Row{45, 54, 0, 0}, Row{38, 50, 0, 0},
        Row{60, 80, 15.0, 15.0}, Row{75, 88, 26.5, 26.5}, Row{50, 82, 11.39, 11.85}, Row{45, 70, 4.5, 5.31},
        Row{60, 100, 23.75, 22.82}, Row{75, 95, 29.38, 28.91}, Row{50, 101, 19.56, 18.95}, Row{48, 95, 16.76, 16.96}}) {
    EXPECT_NEAR(degree_days_triangle(row.min, row.max, 55, 90), row.triangle, 0.0051) << row.min << ' ' << row.max;
    EXPECT_NEAR(degree_days_sine(row.min, row.max, 55, 90), row.sine, 0.0051) << row.min << ' ' << row.max;
  }
}

TEST(PublishedHeat, TwoMeansOfAnEquation) {
  // McMaster & Wilhelm, Growing degree-days: one equation, two interpretations, Agric. For. Meteorol.
  // 87:291-300, 1997, table 1 (as stored in R package degday); base 0 C.
  struct Row {
    double max, min, floored, lifted;
  };
  for (const Row& row :
       {Row{20, 10, 15.0, 15.0}, Row{10, 1, 5.5, 5.5}, Row{8, -2, 3.0, 4.0}, Row{6, 0, 3.0, 3.0}, Row{10, 5, 7.5, 7.5},
        Row{5, -5, 0.0, 2.5}, Row{-2, -7, 0, 0}, Row{-5, -10, 0, 0}, Row{10, -2, 4.0, 5.0}, Row{15, 2, 8.5, 8.5}}) {
    EXPECT_DOUBLE_EQ(degree_days_mean(row.min, row.max, 0), row.floored);
    EXPECT_DOUBLE_EQ(degree_days_lifted(row.min, row.max, 0), row.lifted);
  }
}

TEST(PublishedHeat, YearsOfRealStations) {
  // R package degday on the station files, run by us: base 55 F, cut-off 95 F for sine and triangle. It
  // rounds every day to hundredths.
  struct Row {
    std::string file;
    int year, days;
    double mean, sine, triangle;
  };
  for (const Row& row : {Row{"neighbour-weather_8_FRESNO.C.csv", 1995, 365, 3985.73, 4233.62, 4157.48},
                         Row{"neighbour-weather_8_FRESNO.C.csv", 2009, 355, 4284.02, 4484.96, 4431.63},
                         Row{"GHCN_USW00012844.csv", 1995, 365, 7452.04, 7519.73, 7497.52}}) {
    const auto text = station_file(row.file);
    if (!text) continue;
    double mean = 0, sine = 0, triangle = 0;
    int days = 0;
    for (const Day& day : read_record(*text, row.file).days) {
      if (day.year != row.year || std::isnan(day.min_c) || std::isnan(day.max_c)) continue;
      const double min = day.min_c * 9 / 5 + 32, max = day.max_c * 9 / 5 + 32;
      mean += degree_days_mean(min, max, 55);
      sine += degree_days_sine(min, max, 55, 95);
      triangle += degree_days_triangle(min, max, 55, 95);
      ++days;
    }
    EXPECT_EQ(days, row.days);
    EXPECT_NEAR(mean, row.mean, 0.1) << row.file << row.year;
    EXPECT_NEAR(sine, row.sine, 0.1) << row.file << row.year;
    EXPECT_NEAR(triangle, row.triangle, 0.1) << row.file << row.year;
  }
}

// Days that swing like a sine between a low and a high, as growth chambers are set to do.
Hardening regime(Hardening state, double low, double high, int days) {
  for (int hour = 0; hour < 24 * days; ++hour) {
    const double air = (low + high) / 2 + (high - low) / 2 * std::sin(2 * std::numbers::pi * (hour - 9) / 24.0);
    state = harden({}, state, air, 1);
  }
  return state;
}

TEST(PublishedHardening, TwoCoolWeeksGiveAboutHalf) {
  // Arborgate (read): two weeks at 40 to 60 F let trees bear 2.8 to 3.3 C more; University of Florida,
  // Oswalt (derived): growing to hardened spans 4.4 to 6.1 C. So between 0.45 and 0.75 of the way.
  const double h = regime({}, c(40), c(60), 14).h;
  std::printf("  two weeks at 40 to 60 F: %.2f\n", h);
  EXPECT_GE(h, 0.45);
  EXPECT_LE(h, 0.75);
}

TEST(PublishedHardening, TheClassicRegimeHardensFully) {
  // Yelenosky 1985 (memory): a gentler step of two weeks, then four to six weeks of days near 15.6 and
  // nights near 4.4 C.
  const double h = regime(regime({}, 10, 20, 14), 4.4, 15.6, 35).h;
  std::printf("  classic regime: %.2f\n", h);
  EXPECT_GE(h, 0.8);
}

TEST(PublishedHardening, TheTwoStepRegimeOfSatsumas) {
  // Nesbitt et al. 2002 (abstract read): 14 days at 20/10 C, then 14 to 21 at 15/4 C, raised survival at -8 C by
  // about 80 percent. The first step alone does little, the second most of it.
  const Hardening first = regime({}, 10, 20, 14);
  const double h = regime(first, 4, 15, 17).h;
  std::printf("  20/10 C: %.2f, then 15/4 C: %.2f\n", first.h, h);
  EXPECT_LT(first.h, 0.25);
  EXPECT_GT(h, 0.6);
}

TEST(PublishedHardening, WarmDaysTakeItFasterThanCoolDaysGaveIt) {
  // University of Florida, Oswalt 2021 (read): reversible in warm spells; loss is quicker than gain, and the
  // earlier level is generally not regained.
  const Hardening hard = regime({}, 4.4, 15.6, 30);
  const Hardening warmed = regime(hard, 12, 24, 7);
  EXPECT_LT(warmed.h, 0.75 * hard.h);
  const Hardening again = regime(warmed, 4.4, 15.6, 30);
  EXPECT_LT(again.h, hard.h);
  EXPECT_GT(again.h, warmed.h);
  // Degree for degree: a day as far above 15.6 as another is below 12.8 takes more than that gives from half.
  const Hardening half{0.5, 0};
  EXPECT_GT(half.h - harden({}, half, 15.6 + 5, 24).h, harden({}, half, 12.8 - 5, 24).h - half.h);
}

TEST(PublishedHardening, APlungeFindsTreesSoft) {
  // Three days from mild weather to hard frost harden hardly at all (trade practice has the same).
  Hardening state = regime({}, 14, 24, 60);
  for (const double low : {8.0, 0.0, -6.0}) state = regime(state, low, low + 8, 1);
  std::printf("  three days' plunge: %.2f\n", state.h);
  EXPECT_LT(state.h, 0.2);
}

TEST(PublishedHardening, FollowsTheCoolHourCount) {
  // Ebel et al. 2005 (read): CHI500, the hours at or below 10 C in the last 500, runs from 0, unhardened, to
  // about 400, near the most hardened trees of the study.
  EXPECT_LT(regime({}, 15, 27, 21).h, 0.05);  // no hour at or below 10 C
  EXPECT_GT(regime({}, 0, 12, 21).h, 0.75);   // nearly 400 of 500
  HourlySeries hours;
  for (int i = 0; i < 600; ++i) hours.air_c.push_back(i % 4 == 0 ? 12.0F : 8.0F);
  EXPECT_EQ(cool_hours_500(hours, 600), 375);
  EXPECT_EQ(cool_hours_500(hours, 0), 0);
  EXPECT_EQ(cool_hours_500(hours, 100), 75);
}

TEST(PublishedHardening, StaysWithinItsRange) {
  for (const double air : {-40.0, -5.0, 4.4, 10.0, 14.0, 20.0, 45.0})
    for (const double h : {0.0, 0.3, 1.0}) {
      const Hardening next = harden({}, {h, 0.5}, air, 24);
      EXPECT_GE(next.h, 0);
      EXPECT_LE(next.h, 1);
    }
}

}  // namespace
}  // namespace tenwinters
