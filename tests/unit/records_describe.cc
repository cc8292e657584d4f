// The words and drawings of a climate: complete in every language and unit, whatever the record holds.
#include <gtest/gtest.h>

#include <cmath>

#include "../real_catalog.h"
#include "records/describe.h"

namespace tenwinters {
namespace {

// An invented record: `years` winters round a low of `base`, each year `step` warmer, with a wave through them.
std::vector<Day> invented(int years, double base, double step, bool southern) {
  std::vector<Day> days;
  const int first = day_number(1980, 7, 1), last = day_number(1980 + years, 6, 30);
  for (int number = first; number <= last; ++number) {
    const CivilDate date = civil_date(number);
    const double season = std::cos(2 * 3.14159265358979 * (day_of_year(date) - (southern ? 200 : 15)) / 365.25);
    const double wave = 2.5 * std::sin(number * 0.37) + 1.5 * std::sin(number * 0.013 * 7);
    const double low = base + 12 - 12 * season + wave + step * (date.year - 1980);
    days.push_back({date.year, date.month, date.day, low, low + 11, number - first + 2});
  }
  return days;
}

const Language& language(const std::string& code) {
  for (const Language& one : testing::real_catalog().languages)
    if (one.code == code) return one;
  ADD_FAILURE() << code;
  return testing::real_catalog().languages.front();
}

std::string joined(const std::vector<std::string>& paragraphs) {
  std::string all;
  for (const std::string& one : paragraphs) all += one + "\n";
  return all;
}

// Every sentence there is comes up in one of these.
std::vector<ClimateSummary> summaries() {
  std::vector<ClimateSummary> all;
  for (const bool southern : {false, true})
    for (const int years : {0, 1, 6, 25, 40})
      for (const double base : {-12.0, -4.0, 0.5, 3.0, 9.0})
        for (const double step : {-0.2, -0.002, 0.002, 0.2}) {
          ClimateOptions options;
          options.southern = southern;
          all.push_back(summarize(years > 0 ? invented(years, base, step, southern) : std::vector<Day>{}, options));
        }
  // Two that smooth winters never bring: a plunge out of mild weather, and a fit that the worst night belies.
  ClimateOptions options;
  ClimateSummary odd = summarize(invented(40, -4, 0.002, false), options);
  odd.coldest.front().hardening = 0.1;
  odd.return_levels.back().level_c = odd.coldest.front().winter.lowest_c + 1;
  all.push_back(std::move(odd));
  return all;
}

TEST(Describe, EveryLanguageHasEveryWord) {
  const std::vector<ClimateSummary> all = summaries();
  for (const Language& one : testing::real_catalog().languages) {
    std::string everything;
    for (const Units units : {Units::us, Units::metric}) {
      const ClimateVoice voice{one, units};
      for (const ClimateSummary& summary : all) {
        const std::string text = joined(describe_climate(summary, voice));
        EXPECT_EQ(text.find_first_of("[]{}"), std::string::npos) << text;
        EXPECT_EQ(text.find("nan"), std::string::npos) << text;
        everything += text;
        for (const OutputFile& file : climate_charts(summary, "S", "a remark", voice)) {
          EXPECT_EQ(file.content.text().find('['), std::string::npos) << file.content.text();
          EXPECT_EQ(file.content.text().find("nan"), std::string::npos) << file.path;
        }
      }
      const std::string header = describe_yearly_lows({-0.7, 3, {-2.8, -4.5, -6.2, -8.3}}, voice);
      EXPECT_EQ(header.find_first_of("[]{}"), std::string::npos) << header;
    }
    // All those sentences did come up.
    for (const char* key : {"nothing", "winters_few", "winters_some", "zone_near_colder", "zone_near_warmer", "coldest_sudden",
                            "coldest_hardened", "level_doubt", "freeze_never", "freeze_always", "freeze_no_date",
                            "trend_warmer", "trend_colder", "no_trend_warmer", "no_trend_colder"}) {
      const std::string words = one.say("climate." + std::string(key));
      const std::size_t filled = words.rfind('}');  // what stands behind the last figure
      const std::string end = filled == std::string::npos ? words : words.substr(filled + 1);
      EXPECT_NE(everything.find(end), std::string::npos) << one.code << ' ' << key;
    }
  }
}

TEST(Describe, FiguresAreTheReadersOwn) {
  ClimateOptions options;
  const ClimateSummary summary = summarize(invented(40, -4, 0.002, false), options);
  const ClimateVoice us{language("en"), Units::us}, metric{language("en"), Units::metric}, spanish{language("es"), Units::metric};
  EXPECT_EQ(us.temperature(-5), "23 °F");
  EXPECT_EQ(metric.temperature(-5.04), "\u22125.0 °C");
  EXPECT_EQ(us.winter_date(153, false), "1 December");
  EXPECT_EQ(spanish.winter_date(153, false), "1 de diciembre");
  EXPECT_EQ(us.winter_date(0, true), "1 January");
  EXPECT_EQ(us.full_date(day_number(1985, 1, 21)), "21 January 1985");
  const std::string text = joined(describe_climate(summary, us));
  EXPECT_NE(text.find("In 30 complete winters, 1991 to 2020"), std::string::npos) << text;
  EXPECT_NE(text.find("That is hardiness zone " + zone_name(summary.zone)), std::string::npos) << text;
  EXPECT_EQ(joined(describe_climate(summary, metric)).find("°F"), std::string::npos);
  EXPECT_NE(joined(describe_climate(summary, spanish)).find("inviernos completos"), std::string::npos);
}

TEST(Describe, DrawingsFollowTheFigures) {
  ClimateOptions options;
  const ClimateSummary summary = summarize(invented(40, -4, 0.002, false), options);
  const auto files = climate_charts(summary, "A & B <station>", "", {language("es"), Units::us});
  ASSERT_EQ(files.size(), 4u);
  const auto count = [](const std::string& text, const std::string& part) {
    std::size_t n = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++n;
    return n;
  };
  EXPECT_EQ(count(files[0].content, "<circle"), summary.winters.complete.size());  // one dot a winter
  EXPECT_EQ(count(files[3].content, "<rect"), 12u);                                // one bar a month
  for (const OutputFile& file : files) {
    EXPECT_NE(file.content.text().find("A &amp; B &lt;station&gt;"), std::string::npos) << file.path;
    EXPECT_EQ(count(file.content, "<svg"), count(file.content, "</svg>"));
    EXPECT_EQ(count(file.content, "<text"), count(file.content, "</text>"));
  }
  EXPECT_NE(files[0].content.text().find("Lectura más baja"), std::string::npos);
  EXPECT_NE(files[3].content.text().find(">grados-día sobre 55 °F</text>"), std::string::npos);  // bars without a unit say nothing
  const auto metric = climate_charts(summary, "S", "", {language("en"), Units::metric});
  EXPECT_NE(metric[3].content.text().find(">degree-days above 12.8 °C</text>"), std::string::npos);
  // A place without frost has no freezes to draw; without winters there is nothing but the heat.
  const ClimateSummary mild = summarize(invented(20, 9, 0, false), options);
  EXPECT_EQ(climate_charts(mild, "S", "", {language("en"), Units::us}).size(), 3u);
  EXPECT_TRUE(climate_charts(summarize({}, options), "S", "", {language("en"), Units::us}).empty());
}

}  // namespace
}  // namespace tenwinters
