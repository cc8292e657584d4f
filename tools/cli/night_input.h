// What `tenwinters night` is asked: the cold that is coming, and the trees that stand in it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/command.h"
#include "cli/session.h"
#include "tenwinters/night.h"

namespace tenwinters::cli {

struct NightOptions {
  std::string low;                       // "25F", "-4C"
  int hours = 4;
  std::string before;                    // mild, gradual, sudden; "" = not said
  double hardening = -1;                 // 0..1; -1 = not said
  std::string daily, hourly, date;       // files; ISO date of the night wanted
  std::string unit;                      // of the files: f, c, tenths; "" = not said
  std::optional<double> latitude;        // not said: the place's
  bool windy = false;
  int month = 0;
  std::string place;

  std::vector<std::string> trees;        // ids
  std::string trees_file;
  std::string rootstock, age = "10", health = "good", container, spot = "open", crop = "light";
  std::vector<std::string> protections;
  bool json = false;
};
void add_night_options(const Command& command, NightOptions& options);

// A sentence of words `night.said.KEY` with its {marks} filled; {unit} by the phrase of the file that was read.
struct NightSaid {
  std::string key;
  std::vector<std::pair<std::string, std::string>> fills;
  Phrase unit{};
};

struct NightWeather {
  NightAir air;
  std::vector<NightSaid> said;           // where hardening and hours came from, to be said aloud
};
// 0 or the exit status, complaints printed.
[[nodiscard]] int read_weather(const NightOptions& options, const Loaded& loaded, const Place& place, NightWeather& weather);

// A list of trees owns nothing: the catalogue must outlive it.
[[nodiscard]] int read_trees(const NightOptions& options, const Loaded& loaded, const Place& place,
                             std::vector<NightTree>& trees);

// "25F", "25 f", "-4C", "-4.5 °C"; without a letter in `units`. Nothing if it is no temperature of this world.
[[nodiscard]] std::optional<double> parse_temperature_c(std::string_view text, Units units);
// Litres from "57", "57l", "15gal", "ground" (0). Without a letter in `units`.
[[nodiscard]] std::optional<double> parse_container_l(std::string_view text, Units units);

}  // namespace tenwinters::cli
