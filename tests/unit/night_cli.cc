// `tenwinters night` as a person or a program meets it: exit status, messages, text and JSON.
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

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
  std::string text;  // standard output, then standard error
};

Outcome run(const std::string& arguments) {
  const std::string command = "cd " + std::string(TENWINTERS_SOURCE_DIR) + " && " + TENWINTERS_BINARY_DIR +
                              "/tenwinters night " + arguments + " 2>&1";
  FILE* pipe = popen(command.c_str(), "r");
  Outcome outcome;
  std::array<char, 4096> block{};
  for (std::size_t n; (n = fread(block.data(), 1, block.size(), pipe)) > 0;) outcome.text.append(block.data(), n);
  outcome.status = WEXITSTATUS(pclose(pipe));
  return outcome;
}

nlohmann::json json_of(const std::string& arguments) {
  const Outcome out = run(arguments + " --json");
  EXPECT_EQ(out.status, 0) << out.text;
  auto json = nlohmann::json::parse(out.text, nullptr, false);
  EXPECT_FALSE(json.is_discarded()) << out.text;
  return json;
}

// A file of this test alone, removed with it.
class Scratch {
 public:
  Scratch(const std::string& name, const std::string& text)
      : path_((std::filesystem::temp_directory_path() / ("tenwinters_" + std::to_string(::getpid()) + "_" + name)).string()) {
    std::ofstream(path_) << text;
  }
  ~Scratch() { std::filesystem::remove(path_); }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  [[nodiscard]] const std::string& path() const { return path_; }

 private:
  std::string path_;
};

TEST(NightCommand, JsonHoldsEveryTissueAsAShare) {
  const auto json = json_of("--low 25F --hours 4 --before mild --tree satsuma --tree eureka --tree key_lime");
  EXPECT_EQ(json.at("hardening"), 0.3);
  ASSERT_EQ(json.at("trees").size(), 3u);
  for (const auto& tree : json.at("trees")) {
    EXPECT_TRUE(tree.at("outcome").is_string());
    EXPECT_TRUE(tree.at("steps").is_array());
    for (const char* tissue : {"leaf", "wood", "trunk", "fruit", "bloom"}) {
      const auto& of = tree.at("tissues").at(tissue);
      EXPECT_GE(of.at("low").get<double>(), 0) << tissue;
      EXPECT_LE(of.at("low").get<double>(), of.at("injury").get<double>()) << tissue;
      EXPECT_LE(of.at("injury").get<double>(), of.at("high").get<double>()) << tissue;
      EXPECT_LE(of.at("high").get<double>(), 1) << tissue;
    }
  }
  EXPECT_EQ(json.at("trees")[2].at("id"), "key_lime");
}

TEST(NightCommand, UnitsMayStandWithTheFigure) {
  EXPECT_EQ(json_of("--low 23F --tree satsuma").at("low_c"), -5);
  EXPECT_EQ(json_of("--low -5C --tree satsuma").at("low_c"), -5);
  EXPECT_EQ(json_of("--low=-5 --units metric --tree satsuma").at("low_c"), -5);
  EXPECT_EQ(json_of("--low 23 --tree satsuma").at("low_c"), -5);
}

TEST(NightCommand, BeforeRunsFromHardyToTender) {
  const auto leaf = [](const std::string& before) {
    return json_of("--low 19F --hours 5 --tree satsuma --before " + before).at("trees")[0].at("tissues").at("leaf").at("injury").get<double>();
  };
  EXPECT_LT(leaf("gradual"), leaf("mild"));
  EXPECT_LT(leaf("mild"), leaf("sudden") + 1e-9);
  EXPECT_GT(leaf("sudden"), 0.9);
}

TEST(NightCommand, ATableOfTrees) {
  const Scratch table("trees.csv",
                      "tree,rootstock,age,health,container,protection\n"
                      "owari,flying_dragon,2,good,ground,bank_trunk+cover\n"
                      "# a comment\n"
                      "meyer,,8,poor,15gal,carry_in\n"
                      "lemon,,,,,\n");
  const auto trees = json_of("--low 22F --before mild --trees " + table.path()).at("trees");
  ASSERT_EQ(trees.size(), 3u);
  EXPECT_EQ(trees[0].at("rootstock"), "flying_dragon");
  EXPECT_EQ(trees[0].at("age_years"), 2);
  EXPECT_EQ(trees[1].at("health"), "poor");
  EXPECT_NEAR(trees[1].at("container_l").get<double>(), 56.8, 0.1);
  EXPECT_LT(trees[1].at("tissues").at("trunk").at("injury").get<double>(), 0.05);  // carried in
  EXPECT_EQ(trees[2].at("age_years"), 10);
}

TEST(NightCommand, AListOfTreesInYaml) {
  const std::string rows =
      "- {tree: owari, rootstock: flying_dragon, age: 2, health: good, container: ground, protection: [bank_trunk, cover]}\n"
      "- tree: meyer\n  age: 8\n  health: poor\n  container: 15gal\n  protection: carry_in\n"
      "- tree: lemon  # as grown as they get\n  health:\n";
  std::string under_a_key = "trees:\n";
  for (std::size_t at = 0; at < rows.size();) {
    const std::size_t end = rows.find('\n', at) + 1;
    under_a_key += "  " + rows.substr(at, end - at);
    at = end;
  }
  const Scratch csv("same.csv", "id;rootstock;age_years;health;container;protections\nowari;flying_dragon;2;;;bank_trunk cover\n"
                                "meyer;;8;poor;15gal;carry_in\nlemon;;;;;\n");
  const auto table = json_of("--low 22F --before mild --trees " + csv.path());
  for (const std::string& text : {rows, under_a_key}) {
    const Scratch list("list.yaml", text);
    EXPECT_EQ(json_of("--low 22F --before mild --trees " + list.path()), table) << text;
  }
  const struct {
    const char* text;
    const char* says;
  } kCases[] = {
      {"- {tree: owari, rotstock: carrizo}\n", ".yaml:1: nothing is called \"rotstock\""},
      {"- tree: owari\n- tree: satsumma\n", ".yaml:2: no cultivar or type \"satsumma\"; did you mean \"satsuma\"?"},
      {"- age: 4\n", ".yaml:1: no tree is named"},
      {"- {tree: owari\n", ".yaml:1:"},
      {"trees: owari\n", "expected a list"},
      {"", "the file is empty"},
  };
  for (const auto& one : kCases) {
    const Scratch bad("bad.yaml", one.text);
    const Outcome out = run("--low 22F --trees " + bad.path());
    EXPECT_EQ(out.status, 1) << one.text << out.text;
    EXPECT_NE(out.text.find(one.says), std::string::npos) << one.text << out.text;
  }
}

TEST(NightCommand, DailyAndHourlyFiles) {
  const Scratch daily("daily.csv",
                      "date,tmin_f,tmax_f\n2024-01-10,45,66\n2024-01-11,40,62\n2024-01-12,35,55\n2024-01-13,28,45\n"
                      "2024-01-14,19,38\n2024-01-15,22,41\n2024-01-16,30,55\n");
  const auto gentle = json_of("--daily " + daily.path() + " --before gradual --tree satsuma");
  const auto sharp = json_of("--daily " + daily.path() + " --before sudden --tree satsuma");
  EXPECT_NEAR(gentle.at("low_c").get<double>(), -7.2, 0.05);
  EXPECT_GT(gentle.at("hardening").get<double>(), sharp.at("hardening").get<double>());
  EXPECT_LT(gentle.at("trees")[0].at("tissues").at("leaf").at("injury").get<double>(),
            sharp.at("trees")[0].at("tissues").at("leaf").at("injury").get<double>());
  EXPECT_FALSE(gentle.at("trees")[0].at("fruit_on").get<bool>());  // January: satsumas are picked

  std::string hours = "datetime,temp_f\n";
  for (int h = 0; h < 24; ++h) hours += "2024-01-10 " + std::string(h < 10 ? "0" : "") + std::to_string(h) + ":00," + std::to_string(50 - h) + "\n";
  const Scratch hourly("hourly.csv", hours);
  const auto falling = json_of("--hourly " + hourly.path() + " --before gradual --tree lemon");
  EXPECT_NEAR(falling.at("low_c").get<double>(), -2.8, 0.05);
  EXPECT_EQ(falling.at("freezing_hours"), 6);
  EXPECT_NE(falling.at("said").get<std::string>().find("falls to freezing at about 18:00"), std::string::npos);
}

// A forecast says no unit and holds a few days: where its values could be either, they are in the reader's.
TEST(NightCommand, AForecastWithoutAUnitIsInTheReadersOwn) {
  const Scratch fahrenheit("forecast_f.csv", "date,tmin,tmax\n2024-01-12,35,55\n2024-01-13,28,45\n2024-01-14,19,38\n2024-01-15,22,41\n");
  const Scratch celsius("forecast_c.csv", "date,tmin,tmax\n2024-01-12,3,13\n2024-01-13,-2,7\n2024-01-14,-7,3\n2024-01-15,-5,5\n");
  const auto of = [](const Scratch& file, const std::string& options) {
    return json_of("--daily " + file.path() + " --before mild --tree lemon " + options);
  };
  EXPECT_NEAR(of(fahrenheit, "").at("low_c").get<double>(), -7.2, 0.05);
  EXPECT_NE(of(fahrenheit, "").at("said").get<std::string>().find("degrees Fahrenheit, as is usual here"), std::string::npos);
  EXPECT_NEAR(of(fahrenheit, "--units metric --unit f").at("low_c").get<double>(), -7.2, 0.05);
  EXPECT_NEAR(of(celsius, "").at("low_c").get<double>(), -7, 0.05);  // no cold spell has such figures in Fahrenheit
  EXPECT_NEAR(of(celsius, "--units metric").at("low_c").get<double>(), -7, 0.05);
  EXPECT_NEAR(of(celsius, "--unit f").at("low_c").get<double>(), -21.7, 0.05);

  std::string hours = "datetime,temp\n";
  for (int h = 0; h < 10; ++h) hours += "2024-01-10 0" + std::to_string(h) + ":00," + std::to_string(31 - h) + "\n";
  const Scratch hourly("forecast_hours.csv", hours);
  EXPECT_NEAR(json_of("--hourly " + hourly.path() + " --before mild --tree lemon").at("low_c").get<double>(), -5.6, 0.05);
  EXPECT_EQ(run("--daily " + celsius.path() + " --tree lemon --unit kelvin").status, 2);
}

TEST(NightCommand, AMildFileIsAsMildAsItSays) {
  const Scratch mild("mild.csv", "date,tmin_c,tmax_c\n2024-01-12,13,25\n2024-01-13,11,22\n2024-01-14,12,24\n");
  const auto json = json_of("--daily " + mild.path() + " --before mild --tree key_lime");
  EXPECT_NEAR(json.at("low_c").get<double>(), 11, 0.05);
  EXPECT_EQ(json.at("freezing_hours"), 0);
  EXPECT_EQ(json.at("trees")[0].at("outcome"), "unhurt");
}

TEST(NightCommand, TheWholeRecordHardensAsThePackDoes) {
  // The spell of December 2023 in the invented inland record.
  const auto json = json_of("--daily catalog/offices/demo/burdock_hollow.csv --date 2023-12-06 --latitude 30.6 --tree satsuma");
  EXPECT_GT(json.at("hardening").get<double>(), 0.4);
  EXPECT_LT(json.at("low_c").get<double>(), -10);
}

TEST(NightCommand, TextSaysWhatToDoAndWhatToMind) {
  const Outcome out = run("--low 22F --hours 6 --before mild --tree lemon --age 3");
  EXPECT_EQ(out.status, 0);
  for (const char* part : {"Down to 22", "What helps, in the order in which to do it", "1. ", "Saves", "Before you begin", "label"})
    EXPECT_NE(out.text.find(part), std::string::npos) << part << "\n" << out.text;
  EXPECT_EQ(out.text.find('['), std::string::npos) << out.text;  // a word without its text
  const Outcome spanish = run("--lang es --low 22F --hours 6 --before mild --tree lemon --age 3 --container 15gal");
  EXPECT_EQ(spanish.status, 0);
  EXPECT_EQ(spanish.text.find('['), std::string::npos) << spanish.text;
  const Scratch daily("es.csv", "date,tmin_f,tmax_f\n2024-01-13,28,45\n2024-01-14,19,38\n");
  const Outcome file = run("--lang es --daily " + daily.path() + " --before mild --tree lemon");
  EXPECT_NE(file.text.find("diarias en grados Fahrenheit, como dice el"), std::string::npos) << file.text;
  EXPECT_EQ(file.text.find("degrees"), std::string::npos) << file.text;
}

TEST(NightCommand, MisuseNamesTheNearest) {
  const struct {
    const char* arguments;
    const char* says;
  } kCases[] = {
      {"--low 25F --tree satsumma", "did you mean \"satsuma\"?"},
      {"--low 25F --tree owari --rootstock cleopatr", "did you mean \"cleopatra\"?"},
      {"--low 25F --tree owari --health god", "did you mean \"good\"?"},
      {"--low 25F --tree owari --protection covr", "did you mean \"cover\"?"},
      {"--low 25F --tree owari --spot slop", "did you mean \"slope\"?"},
      {"--low 25F --tree owari --before gradul", "did you mean \"gradual\"?"},
      {"--low 25F --tree owari --before mild --hardening 0.4", "give one of them"},
      {"--low 25F --tree owari --place gannet_key", "did you mean \"gannet_quay\"?"},
      {"--low 25X --tree owari", "is no temperature"},
      {"--low 25F --tree owari --age old", "not a number of years"},
      {"--low 25F --tree owari --container bucket", "neither \"ground\" nor a size"},
      {"--low 25F --tree owari --protection carry_in", "is for trees in containers"},
      {"--tree owari", "say how cold it gets"},
      {"--low 25F --daily x.csv --tree owari", "give one of them"},
      {"--low 25F", "name the trees"},
  };
  for (const auto& one : kCases) {
    const Outcome out = run(one.arguments);
    EXPECT_EQ(out.status, 2) << one.arguments << "\n" << out.text;
    EXPECT_NE(out.text.find(one.says), std::string::npos) << one.arguments << "\n" << out.text;
  }
  for (const char* arguments : {"--daily no_such_file.csv --tree owari", "--hourly no_such_file.csv --tree owari",
                                "--low 25F --trees no_such_file.csv", "--low 25F --trees no_such_file.yaml"}) {
    const Outcome out = run(arguments);
    EXPECT_EQ(out.status, 2) << arguments << "\n" << out.text;
    EXPECT_NE(out.text.find("cannot read no_such_file"), std::string::npos) << arguments << "\n" << out.text;
  }
}

// As every other command has it: a file that is at fault is a finding, not misuse.
TEST(NightCommand, AFaultyFileIsStatusOne) {
  const Scratch table("bad.csv", "tree,rotstock\nowari,\n");
  const Outcome bad = run("--low 25F --trees " + table.path());
  EXPECT_EQ(bad.status, 1);
  EXPECT_NE(bad.text.find(":1: nothing is called \"rotstock\""), std::string::npos) << bad.text;
  EXPECT_NE(bad.text.find("did you mean \"rootstock\"?"), std::string::npos) << bad.text;
  const struct {
    const char* row;
    const char* says;
  } kCases[] = {
      {"satsumma,,", ":2: no cultivar or type \"satsumma\"; did you mean \"satsuma\"?"},
      {"owari,cleopatr,", ":2: no rootstock \"cleopatr\"; did you mean \"cleopatra\"?"},
      {"owari,,old", ":2: age \"old\" is not a number of years"},
      {",carrizo,", ":2: no tree is named"},
      {"owari,carrizo,3,4", ":2: 4 cells under 3 columns"},
  };
  for (const auto& one : kCases) {
    const Scratch rows("rows.csv", std::string("tree,rootstock,age\n") + one.row + "\n");
    const Outcome out = run("--low 25F --trees " + rows.path());
    EXPECT_EQ(out.status, 1) << out.text;
    EXPECT_NE(out.text.find(one.says), std::string::npos) << out.text;
  }
  const Scratch daily("bad_daily.csv", "date,tmin,tmax\n2024-01-10,4x,66\n");
  EXPECT_EQ(run("--tree owari --daily " + daily.path()).status, 1);
}

}  // namespace
}  // namespace tenwinters
