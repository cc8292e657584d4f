// Every form a station file comes in, and every trap we have met in one: small hand-written files in
// tests/published/data/records, with what must be read from them written out here.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <fstream>
#include <sstream>

#include "../real_catalog.h"
#include "records/records.h"
#include "records/scan.h"

namespace tenwinters {
namespace {

// A phrase in English.
std::string said(const Phrase& phrase) {
  for (const Language& language : testing::real_catalog().languages)
    if (language.code == "en") return say_phrase(language, phrase);
  return "";
}

std::string text_of(const std::string& name) {
  std::ifstream file(std::string(TENWINTERS_SOURCE_DIR) + "/tests/published/data/records/" + name, std::ios::binary);
  EXPECT_TRUE(file) << name;
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

Record read(const std::string& name, RecordUnit unit = RecordUnit::infer) {
  return read_record(text_of(name), name, unit);
}

const Day* find(const Record& record, int year, int month, int day) {
  for (const Day& d : record.days)
    if (d.year == year && d.month == month && d.day == day) return &d;
  return nullptr;
}

// Minimum and maximum of a day; NaN stands for a reading that is not there.
void expect_day(const Record& record, int year, int month, int day, double min_c, double max_c) {
  const Day* found = find(record, year, month, day);
  ASSERT_NE(found, nullptr) << year << '-' << month << '-' << day;
  const auto same = [](double a, double b) { return (std::isnan(a) && std::isnan(b)) || std::abs(a - b) < 1e-9; };
  EXPECT_TRUE(same(found->min_c, min_c)) << year << '-' << month << '-' << day << " min " << found->min_c;
  EXPECT_TRUE(same(found->max_c, max_c)) << year << '-' << month << '-' << day << " max " << found->max_c;
}

std::string told(const std::vector<Diagnostic>& faults) {
  std::string text;
  for (const Diagnostic& d : faults)
    text += std::to_string(d.line) + ":" + std::to_string(d.column) + (d.warning ? " warning: " : " fault: ") +
            d.message + "\n";
  return text;
}

constexpr double kNone = std::numeric_limits<double>::quiet_NaN();

TEST(Formats, FixedColumns) {
  const Record record = read("fixed_columns.dly");
  EXPECT_EQ(record.station, "XX000000001");
  EXPECT_EQ(record.unit, RecordUnit::tenths_celsius);
  expect_day(record, 1985, 1, 19, 6.1, 17.8);
  expect_day(record, 1985, 1, 21, -12.2, -1.7);
  expect_day(record, 1985, 1, 23, kNone, 13.3);  // the minimum carries a quality flag
  expect_day(record, 1985, 2, 28, 15.0, 25.0);
  EXPECT_EQ(record.dropped.flagged, 1);
  EXPECT_EQ(record.dropped.impossible, 1);  // a value for 30 February
  EXPECT_EQ(told(record.faults), "4:254 warning: there is no day 30 of month 2 in 1985; left out\n");
}

TEST(Formats, FixedColumnsAreTenthsWhateverTheyLookLike) {
  // Three mild days alone could be Fahrenheit; the format is always tenths of C.
  std::string line = "XX000000001198501";
  const auto add = [](std::string start, const std::string& element, int value) {
    start += element;
    for (int day = 1; day <= 31; ++day) start += day <= 3 ? "  " + std::to_string(value + day) + "  0" : "-9999   ";
    return start + "\n";
  };
  const Record record = read_record(add(line, "TMAX", 110) + add(line, "TMIN", 100), "x.dly");
  expect_day(record, 1985, 1, 1, 10.1, 11.1);
  EXPECT_EQ(said(record.unit_said), "tenths of a degree Celsius, as the format says");
}

TEST(Formats, OneReadingALine) {
  for (const std::string name : {"by_element.csv", "by_element_bare.csv"}) {
    const Record record = read(name);
    EXPECT_EQ(record.station, "XX000000001") << name;
    ASSERT_EQ(record.days.size(), 3u) << name;
    expect_day(record, 1985, 1, 20, -6.1, 14.4);
    expect_day(record, 1985, 1, 21, -12.2, -1.7);
    expect_day(record, 1985, 1, 22, kNone, 8.3);
    EXPECT_EQ(record.dropped.flagged, 1) << name;
    EXPECT_EQ(told(record.faults), "") << name;
  }
}

TEST(Formats, DailySummariesWithFlags) {
  const Record record = read("summaries_f.csv");
  EXPECT_EQ(record.station, "XX000000001");
  EXPECT_EQ(record.unit, RecordUnit::fahrenheit);
  ASSERT_TRUE(record.latitude_deg.has_value());
  EXPECT_DOUBLE_EQ(*record.latitude_deg, 29.9);
  expect_day(record, 1985, 1, 21, (10 - 32) * 5.0 / 9, (29 - 32) * 5.0 / 9);
  expect_day(record, 1985, 1, 22, kNone, (47 - 32) * 5.0 / 9);
  expect_day(record, 1985, 7, 20, (75 - 32) * 5.0 / 9, (92 - 32) * 5.0 / 9);  // a measurement flag is no quality flag
  EXPECT_EQ(record.dropped.flagged, 1);
}

TEST(Formats, ValuesOverruleAHeaderThatIsWrong) {
  const Record record = read("headed_fahrenheit_is_tenths.csv");
  EXPECT_EQ(record.unit, RecordUnit::tenths_celsius);
  EXPECT_EQ(said(record.unit_said),
            "tenths of a degree Celsius, from the values (highs up to about 333, lows down to about -83), although the "
            "header says degrees Fahrenheit");
  expect_day(record, 1985, 1, 21, -12.2, -1.7);
}

TEST(Formats, ThreeColumnsOfDate) {
  const Record record = read("three_columns_of_date.csv");
  EXPECT_EQ(record.station, "Invented Ranch");
  EXPECT_EQ(record.unit, RecordUnit::celsius);
  expect_day(record, 1951, 1, 2, -2.2, 14.4);
  expect_day(record, 1951, 1, 3, 1.7, kNone);
}

TEST(Formats, SemicolonsDecimalCommasAndDottedDates) {
  const Record record = read("semicolons_and_commas.csv");
  EXPECT_EQ(told(record.faults), "");
  expect_day(record, 1985, 1, 31, -1.5, 12.5);
  expect_day(record, 1985, 2, 1, 0.5, 14.0);
  ASSERT_FALSE(record.notes.empty());
  EXPECT_EQ(said(record.notes[0]), "dates read as day/month/year");
}

TEST(Formats, SlashedDatesAreSettledByTheFile) {
  const Record settled = read("slashes_month_first.csv");
  expect_day(settled, 1985, 1, 31, (28 - 32) * 5.0 / 9, (61 - 32) * 5.0 / 9);
  EXPECT_EQ(said(settled.notes[0]), "dates read as month/day/year");
  const Record open = read("slashes_unsettled.csv");
  EXPECT_NE(find(open, 1985, 3, 2), nullptr);
  EXPECT_EQ(said(open.notes[0]), "dates read as month/day/year (nothing in the file settles it)");
}

TEST(Formats, DayOfYearAfterAPreamble) {
  const Record record = read("day_of_year.csv");
  ASSERT_EQ(record.days.size(), 3u);
  expect_day(record, 1984, 2, 29, 11.0, 21.0);
  expect_day(record, 1984, 12, 31, 4.0, 18.0);
  EXPECT_EQ(told(record.faults), "7:1 warning: there is no day 366 in the year 1985; the line is left out\n");
}

TEST(Formats, BareTablesFindTheirColumns) {
  const Record rain = read("bare_with_rain.txt");
  expect_day(rain, 1936, 1, 1, 18.7, 23.7);
  expect_day(rain, 1936, 1, 3, 19.7, kNone);  // -99.9
  expect_day(rain, 1936, 1, 4, kNone, 25.6);
  EXPECT_EQ(said(rain.notes[0]), "no header: column 5 taken as the maximum and column 6 as the minimum, from the values");
  const Record low_first = read("bare_low_first.txt");
  expect_day(low_first, 1936, 1, 4, 20.6, 25.6);
}

TEST(Formats, EveryTrapIsReportedWithItsLine) {
  const Record record = read("traps.csv");
  EXPECT_EQ(told(record.faults),
            "5:1 warning: 1998-08-01 is here again, first on line 4, with other values; the first is kept\n"
            "8:12 warning: a daily minimum of 56 is impossible in degrees Celsius; left out\n"
            "9:1 warning: 1998-08-05: the minimum (20 C) is above the maximum (12 C); both left out\n"
            "10:15 warning: a daily maximum of 70 is impossible in degrees Celsius; left out\n"
            "12:1 warning: there is no day 29 of month 2 in 1999; the line is left out\n");
  EXPECT_EQ(record.dropped.duplicates, 1);
  EXPECT_EQ(record.dropped.impossible, 3);
  EXPECT_EQ(record.dropped.min_above_max, 1);
  expect_day(record, 1998, 8, 1, 13.9, 35);
  expect_day(record, 1998, 8, 2, kNone, 34);
  expect_day(record, 1998, 8, 3, kNone, 33);
  expect_day(record, 1998, 8, 4, kNone, 34);
  expect_day(record, 1998, 8, 5, kNone, kNone);
  expect_day(record, 1998, 8, 6, 16, kNone);
  expect_day(record, 1998, 8, 7, 15, kNone);  // out of order in the file
  expect_day(record, 2000, 2, 29, 4, 19);
  EXPECT_FALSE(failed(record.faults));
}

TEST(Formats, BrokenLinesAreFaults) {
  const Record record = read("broken.csv");
  EXPECT_EQ(told(record.faults),
            "3:12 fault: expected a temperature, found \"14.x\"\n"
            "4:11 fault: expected at least 3 columns, found 1\n"
            "5:1 fault: expected a date, found \"yesterday\"\n");
  EXPECT_TRUE(failed(record.faults));
  EXPECT_EQ(record.faults[0].source_line, "1998-07-31,14.x,32");
}

TEST(Formats, SeveralStationsTheLargestIsUsed) {
  const Record record = read("two_stations.csv");
  EXPECT_EQ(record.station, "X2");
  EXPECT_EQ(record.days.size(), 3u);
  EXPECT_EQ(said(record.notes[0]), "the file holds 2 stations; used \"X2\", which has the most readings");
}

TEST(Formats, HourlyTables) {
  for (const std::string name : {"hourly.csv", "hourly_clock.csv"}) {
    EXPECT_TRUE(looks_hourly(text_of(name))) << name;
    const HourlyRecord record = read_hourly(text_of(name), name);
    EXPECT_EQ(told(record.faults), "") << name;
    ASSERT_EQ(record.hours.size(), 4u) << name;
    EXPECT_EQ(record.hours[2].hour, 23) << name;
    EXPECT_NEAR(record.hours[2].air_c, -10.0, 1e-9) << name;
    EXPECT_NEAR(record.hours[3].air_c, -12.2, 0.03) << name;
  }
  EXPECT_FALSE(looks_hourly(text_of("traps.csv")));
}

TEST(Formats, HourlyWeatherFiles) {
  std::string text =
      "LOCATION,Invented Field,Nowhere,Nowhere,made up,000000,30.5,-90.5,-6.0,12.0\n"
      "DESIGN CONDITIONS,1,made up,,Heating,1,3.6,Cooling,8,7.9,Extremes,8.1,7.2,6.3,30.4,-0.7,35,3,0.8,-2.8,35.6,-4.5,"
      "36.1,-6.2,36.5,-8.3,37.1\n";
  for (int line = 3; line <= 8; ++line) text += "HEADER\n";
  for (int hour = 1; hour <= 24; ++hour)
    text += "1996,1,9," + std::to_string(hour) + ",0,flags," + std::to_string(hour == 6 ? -1.7 : 4.5) + ",2,80\n";
  const Record record = read_record(text, "x.epw");
  EXPECT_EQ(told(record.faults), "");
  EXPECT_EQ(record.station, "Invented Field");
  EXPECT_EQ(record.latitude_deg, 30.5);
  ASSERT_EQ(record.days.size(), 1u);
  expect_day(record, 1996, 1, 9, -1.7, 4.5);
  EXPECT_EQ(said(record.unit_said), "degrees Celsius, as the format says");
  ASSERT_TRUE(record.yearly_lows.has_value());
  EXPECT_EQ(record.yearly_lows->mean_c, -0.7);
  EXPECT_EQ(record.yearly_lows->deviation_c, 3);
  EXPECT_EQ(record.yearly_lows->level_c, (std::array<double, 4>{-2.8, -4.5, -6.2, -8.3}));
  // A header that does not say, or ends too soon, or holds a word: nothing is made up.
  for (const char* from : {"Extremes", ",37.1", ",36.5,-8.3,37.1", "-6.2"}) {
    std::string other = text;
    other.replace(other.find(from), std::strlen(from), from[0] == '-' ? "n/a" : "");
    EXPECT_EQ(read_record(other, "x.epw").yearly_lows.has_value(), std::string(from) == ",37.1") << from;
  }
  // Months that were joined from different years are said to be.
  text += "1988,2,1,1,0,flags,9.0,2,80\n";
  const Record joined = read_record(text, "x.epw");
  ASSERT_EQ(joined.notes.size(), 3u);
  EXPECT_EQ(said(joined.notes[1]), "its months come from different years and were joined: it holds no winter as it was");
  EXPECT_EQ(said(joined.notes[2]), "1 day with fewer than 20 hours left out");
}

TEST(Formats, WhatIsNoRecordSaysWhatIsWanted) {
  const std::string wanted =
      "expected a header that names a date (or year, month, day), a minimum and a maximum, or lines of numbers that "
      "begin "
      "with a date";
  EXPECT_EQ(told(read("not_a_record.csv").faults), "1:1 fault: " + wanted + "; found \"name\", \"size\", \"colour\"\n");
  EXPECT_EQ(told(read_record("", "x").faults), "0:0 fault: the file is empty\n");
  EXPECT_EQ(told(read_record("# only this\n\n", "x").faults),
            "0:0 fault: the file has no lines of data; " + wanted + "\n");
  EXPECT_EQ(told(read_record(std::string("\x1f\x8b\x08\0", 4), "x").faults),
            "0:0 fault: the file is compressed (gzip); unpack it first\n");
  EXPECT_EQ(told(read_record(std::string("a,b\n\0", 5), "x").faults), "0:0 fault: the file is not text\n");
  EXPECT_EQ(told(read_record("date,tmin,tmax\n", "x").faults),
            "0:0 fault: the file holds no daily minimum or maximum\n");
}

TEST(Formats, AUnitThatCannotBeIsAFault) {
  const Record record = read("headed_fahrenheit_is_tenths.csv", RecordUnit::fahrenheit);
  EXPECT_EQ(
      told(record.faults),
      "0:0 fault: the temperatures cannot be degrees Fahrenheit (highs up to about 333, lows down to about -83); they "
      "look like tenths of a degree Celsius\n");
}

TEST(Formats, AUnitAskedForIsUsed) {
  const Record record = read("slashes_month_first.csv", RecordUnit::fahrenheit);
  EXPECT_EQ(said(record.unit_said), "degrees Fahrenheit, as asked");
}

TEST(Formats, ByteOrderMarkAndCarriageReturns) {
  const Record record = read_record(
      "\xEF\xBB\xBF"
      "date,tmin,tmax\r\n1985-01-21,-12.2,-1.7\r\n",
      "x.csv");
  EXPECT_EQ(told(record.faults), "");
  expect_day(record, 1985, 1, 21, -12.2, -1.7);
}

TEST(Formats, FahrenheitOfTenthsComesBackAsTenths) {
  const Record record =
      read_record("date,tmin,tmax\n1985-01-21,10.04,28.94\n1985-07-21,73.03999999999999,91.94\n", "x.csv");
  expect_day(record, 1985, 1, 21, -12.2, -1.7);
  expect_day(record, 1985, 7, 21, 22.8, 33.3);
}

TEST(Formats, ManyFaultsOfAKindAreCounted) {
  std::string text = "date,tmin,tmax\n";
  for (int day = 1; day <= 28; ++day)
    text += "1985-02-" + std::string(day < 10 ? "0" : "") + std::to_string(day) + ",9,70\n";
  text += "1985-03-01,9,17\n";
  for (int i = 0; i < 40; ++i) text += "1985-04-0" + std::to_string(1 + i % 9) + ",9,17\n";
  const Record record = read_record(text, "x.csv", RecordUnit::celsius);
  EXPECT_TRUE(failed(record.faults));  // most highs are impossible: the unit asked for cannot be right
}

// The quick way through a few digits comes to the very number of the C library's reader, and leaves it the rest.
TEST(Formats, FiguresAreReadToTheLastBit) {
  for (int size = -20000; size <= 20000; size += 7)
    for (const char* form : {"%.0f", "%.1f", "%.2f", "%.4f", "%+.1f", "%.1e"}) {
      std::array<char, 32> text{};
      std::snprintf(text.data(), text.size(), form, size / 97.0);
      const auto number = records::to_number(text.data());
      ASSERT_TRUE(number) << text.data();
      EXPECT_EQ(*number, std::strtod(text.data(), nullptr)) << text.data();
    }
  for (const char* text : {"", "-", "+", ".", "1.2.3", "1,5", "12F", "--3", "0x1F", "1e999"}) EXPECT_FALSE(records::to_number(text)) << text;
}

}  // namespace
}  // namespace tenwinters
