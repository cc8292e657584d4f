// `tenwinters climate` as a person or a program meets it: exit status, messages, text and JSON.
#include <gtest/gtest.h>
#include <sys/wait.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <string>

namespace tenwinters {
namespace {

struct Outcome {
  int status = -1;
  std::string text;  // standard output, then standard error when asked for
};

Outcome run(const std::string& arguments) {
  const std::string command = "cd " + std::string(TENWINTERS_SOURCE_DIR) + "/tests/published/data/records && " +
                              TENWINTERS_BINARY_DIR + "/tenwinters climate " + arguments;
  FILE* pipe = popen(command.c_str(), "r");
  Outcome outcome;
  std::array<char, 4096> block{};
  for (std::size_t n; (n = fread(block.data(), 1, block.size(), pipe)) > 0;) outcome.text.append(block.data(), n);
  outcome.status = WEXITSTATUS(pclose(pipe));
  return outcome;
}

const std::string kDemo = "../../../../catalog/offices/demo/burdock_hollow.csv";

TEST(ClimateCommand, JsonHoldsTheSummary) {
  const Outcome out = run(kDemo + " --latitude 30.6 --json");
  EXPECT_EQ(out.status, 0);
  const auto json = nlohmann::json::parse(out.text, nullptr, false);
  ASSERT_FALSE(json.is_discarded());
  // 30 winters of the invented record, 1996 to 2025: 17.8 to 18.2 F.
  EXPECT_NEAR(json.at("mean_annual_extreme_min_c").get<double>() * 9 / 5 + 32, 18, 0.2);
  EXPECT_EQ(json.at("zone"), "8b");
  EXPECT_EQ(json.at("remark"), "Invented record for a county that does not exist; made by a seeded generator");
  EXPECT_EQ(json.at("over").at("winters"), 30);
  EXPECT_EQ(json.at("record").at("winters"), 40);
  EXPECT_EQ(json.at("record").at("days"), 14610);
  EXPECT_EQ(json.at("record").at("gaps"), 0);
  EXPECT_EQ(json.at("freeze_dates").size(), 3u);
  EXPECT_TRUE(json.at("gev").at("return_level_c").contains("100"));
  EXPECT_EQ(json.at("heat_units").at("month_c_days").size(), 12u);
  EXPECT_EQ(json.at("latitude_said"), "latitude 30.6 as given");
}

TEST(ClimateCommand, TextSaysTheUnitAndTheZone) {
  const Outcome out = run(kDemo);
  EXPECT_EQ(out.status, 0);
  EXPECT_NE(out.text.find("degrees Fahrenheit, as the header says;\n  the values agree"), std::string::npos)
      << out.text;
  EXPECT_NE(out.text.find("That is hardiness zone 8b"), std::string::npos) << out.text;
  EXPECT_NE(out.text.find("latitude not given"), std::string::npos) << out.text;
  for (std::size_t start = 0; start < out.text.size();) {
    const std::size_t end = out.text.find('\n', start);
    EXPECT_LE(end - start, 84u) << out.text.substr(start, end - start);  // a degree sign is two bytes
    start = end + 1;
  }
}

TEST(ClimateCommand, SpeaksSpanishAndMetric) {
  const Outcome out = run(kDemo + " --lang es --units metric");
  EXPECT_EQ(out.status, 0);
  EXPECT_EQ(out.text.find('['), std::string::npos) << out.text;
  EXPECT_EQ(out.text.find("°F"), std::string::npos) << out.text;
  EXPECT_NE(out.text.find("zona de rusticidad 8b"), std::string::npos) << out.text;
  for (const char* english : {"winter", "degrees", "minimum", "latitude "})
    EXPECT_EQ(out.text.find(english), std::string::npos) << english << '\n' << out.text;
  const auto json = nlohmann::json::parse(run(kDemo + " --lang es --json").text, nullptr, false);
  EXPECT_EQ(json.at("said").size(), 4u);
  EXPECT_NE(json.at("said")[0].get<std::string>().find("inviernos completos"), std::string::npos);
}

TEST(ClimateCommand, SouthTurnsTheSeasons) {
  const auto north = nlohmann::json::parse(run(kDemo + " --json").text, nullptr, false);
  const auto south = nlohmann::json::parse(run(kDemo + " --south --json").text, nullptr, false);
  EXPECT_EQ(north.at("hemisphere"), "north");
  EXPECT_EQ(south.at("hemisphere"), "south");
  EXPECT_EQ(south.at("record").at("winters"), 39);  // calendar years; halves of the first and the last are missing
  EXPECT_EQ(nlohmann::json::parse(run(kDemo + " --latitude -30 --json").text, nullptr, false).at("hemisphere"),
            "south");
}

TEST(ClimateCommand, AFaultyFileIsStatusOneWithLineAndColumn) {
  const Outcome out = run("broken.csv 2>&1");
  EXPECT_EQ(out.status, 1);
  EXPECT_NE(out.text.find("broken.csv:3:12: expected a temperature, found \"14.x\"\n  3 | 1998-07-31,14.x,32\n"),
            std::string::npos)
      << out.text;
  EXPECT_EQ(run("not_a_record.csv 2>/dev/null").status, 1);
}

TEST(ClimateCommand, MisuseIsStatusTwo) {
  EXPECT_EQ(run("2>/dev/null").status, 2);
  EXPECT_EQ(run("no_such_file.csv 2>/dev/null").status, 2);
  EXPECT_EQ(run("traps.csv --unit kelvin 2>/dev/null").status, 2);
  EXPECT_EQ(run("traps.csv --latitude 95 2>/dev/null").status, 2);
  EXPECT_EQ(run("traps.csv --no-such-option 2>/dev/null").status, 2);
  EXPECT_EQ(run("traps.csv --from 2020 --to 1991 2>/dev/null").status, 2);
  EXPECT_EQ(run("traps.csv --lang xx 2>/dev/null").status, 2);
}

TEST(ClimateCommand, AShortRecordSaysThatItSaysNothing) {
  const Outcome out = run("traps.csv --json 2>/dev/null");
  EXPECT_EQ(out.status, 0);
  const auto json = nlohmann::json::parse(out.text, nullptr, false);
  EXPECT_TRUE(json.at("mean_annual_extreme_min_c").is_null());
  EXPECT_TRUE(json.at("zone").is_null());
  EXPECT_TRUE(json.at("gev").is_null());
  EXPECT_EQ(json.at("warnings").size(), 5u);
}

TEST(ClimateCommand, DrawingsStandAlone) {
  const std::filesystem::path folder = std::filesystem::path(TENWINTERS_BINARY_DIR) / "climate-drawings";
  std::filesystem::remove_all(folder);
  EXPECT_EQ(run(kDemo + " --svg " + folder.string() + " >/dev/null").status, 0);
  for (const std::string name : {"winters.svg", "freezes.svg", "return_levels.svg", "heat.svg"}) {
    std::ifstream file(folder / name);
    const std::string svg((std::istreambuf_iterator<char>(file)), {});
    EXPECT_NE(svg.find("role=\"img\""), std::string::npos) << name;
    EXPECT_NE(svg.find("<title id="), std::string::npos) << name;
    EXPECT_NE(svg.find("<desc id="), std::string::npos) << name;
    EXPECT_EQ(svg.find("href"), std::string::npos) << name;
    EXPECT_EQ(svg.find("<script"), std::string::npos) << name;
    EXPECT_EQ(svg.find("nan"), std::string::npos) << name;
    EXPECT_NE(svg.find("Invented record for a county that does not exist"), std::string::npos) << name;
  }
  std::filesystem::remove_all(folder);
}

}  // namespace
}  // namespace tenwinters
