// tenwinters night: what one cold night does to a list of trees, and what to do before it.
#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <nlohmann/json.hpp>

#include "cli/commands.h"
#include "cli/night_input.h"
#include "tenwinters/units.h"

namespace tenwinters::cli {
namespace {

using Json = nlohmann::ordered_json;

double rounded(double share) { return std::round(share * 10000) / 10000; }

Json interval_json(const Interval& interval) {
  return {{"injury", rounded(interval.best)}, {"low", rounded(interval.low)}, {"high", rounded(interval.high)}};
}

Json step_json(const NightStep& step) {
  Json saves = Json::object();
  for (std::size_t k = 0; k < kTissueCount; ++k)
    saves[std::string(names_of<Tissue>()[k])] = rounded(step.saves[k]);
  return {{"id", step.id}, {"ready_hours_before_freezing", step.ready_hours}, {"saves", saves}, {"cautions", step.cautions}};
}

Json tree_json(const NightTree& tree, const NightResult& result) {
  Json tissues = Json::object();
  for (std::size_t k = 0; k < kTissueCount; ++k)
    tissues[std::string(names_of<Tissue>()[k])] = interval_json(result.injury[k]);
  Json steps = Json::array();
  for (const NightStep& step : result.steps) steps.push_back(step_json(step));
  Json json = {{"id", result.id}, {"rootstock", tree.rootstock != nullptr ? Json(tree.rootstock->id) : Json(nullptr)},
               {"age_years", tree.age}, {"health", name_of(tree.health)}};
  if (tree.container_l > 0) {
    json["container_l"] = rounded(tree.container_l);
    json["roots"] = rounded(result.roots);
  }
  json["tissues"] = tissues;
  json["fruit_on"] = result.fruit_on;
  json["bloom_on"] = result.bloom_on;
  json["outcome"] = name_of(result.outcome);
  json["steps"] = steps;
  return json;
}

class Printer {
 public:
  Printer(const Session& session, const Loaded& loaded) : words_(loaded.language(session.language)), loaded_(loaded) {}

  // The sentences that say where hardening and hours came from.
  [[nodiscard]] std::string said(const NightWeather& weather) const {
    std::string all;
    for (const NightSaid& one : weather.said) {
      Fills fills = one.fills;
      if (!one.unit.key.empty()) fills.emplace_back("unit", say_phrase(words_, one.unit));
      all += (all.empty() ? "" : " ") + say("night.said." + one.key, fills);
    }
    return all;
  }

  void print(const NightWeather& weather, const std::vector<NightTree>& trees, const NightReport& report) const {
    fmt::print("{}\n{}\n", wrap(say("night.cold", {{"low", temperature(report.lowest_tenths)},
                                                   {"n", std::to_string(report.freezing_hours)}}), 0),
               wrap(said(weather), 0));
    for (std::size_t i = 0; i < trees.size(); ++i) print_tree(trees[i], report.trees[i]);
    print_cautions(report);
  }

 private:
  using Fills = std::vector<std::pair<std::string, std::string>>;

  std::string say(const std::string& key, const Fills& fills = {}) const { return say_phrase(words_, {key, fills}); }
  std::string temperature(int tenths) const {
    return say_arg(words_, loaded_.catalog, loaded_.office, {"low", ArgKind::celsius, tenths / 10.0, ""}, loaded_.units);
  }
  std::string percent(double share) const {
    std::string text =
        say_arg(words_, loaded_.catalog, loaded_.office, {"n", ArgKind::percent, share * 100, ""}, loaded_.units);
    if (const std::size_t space = text.find(' '); space != std::string::npos) text.replace(space, 1, "\u00a0");  // holds the line
    return text;
  }

  std::string title(const NightTree& tree) const {
    if (const Cultivar* cultivar = find_cultivar(loaded_.catalog, tree.id)) {
      const std::string type = words_.say("types." + cultivar->type + ".name");
      return cultivar->name == type ? type : cultivar->name + ", " + type;
    }
    return words_.say("types." + tree.id + ".name");
  }

  void print_tree(const NightTree& tree, const NightResult& result) const {
    std::string head = title(tree);
    if (tree.rootstock != nullptr) head = say("terminal.on_stock", {{"tree", head}, {"stock", tree.rootstock->name}});
    fmt::print("\n{}\n{}\n", wrap(head, 0), wrap(say("night.outcome." + std::string(name_of(result.outcome))), 2));
    for (std::size_t k = 0; k < kTissueCount; ++k) {
      if (k == static_cast<std::size_t>(Tissue::fruit) && !result.fruit_on) continue;
      if (k == static_cast<std::size_t>(Tissue::bloom) && !result.bloom_on) continue;
      const Interval& interval = result.injury[k];
      fmt::print("  {}\n", say("night.tissue", {{"tissue", words_.say("night.tissues." + std::string(names_of<Tissue>()[k]))},
                                                {"best", percent(interval.best)},
                                                {"low", percent(interval.low)},
                                                {"high", percent(interval.high)}}));
    }
    if (tree.container_l > 0)
      fmt::print("  {}\n", say("night.roots", {{"n", percent(result.roots)}}));
    if (result.steps.empty()) {
      fmt::print("{}\n", wrap(say(result.outcome == NightOutcome::unhurt ? "night.nothing_needed" : "night.nothing_helps"), 2));
      return;
    }
    fmt::print("{}\n", wrap(say("night.do"), 2));
    int number = 0;
    for (const NightStep& step : result.steps) print_step(++number, step);
  }

  void print_step(int number, const NightStep& step) const {
    const bool pick = step.id == "pick_fruit";
    const std::string name = words_.say(pick ? "night.pick_fruit.name" : "protections." + step.id + ".name");
    const std::string how = words_.say(pick ? "night.pick_fruit.how" : "protections." + step.id + ".how");
    std::string saves;
    for (std::size_t k = 0; k < kTissueCount; ++k) {
      if (step.saves[k] < 0.005) continue;
      saves += (saves.empty() ? "" : ", ") + say("night.saves", {{"tissue", words_.say("night.tissues." + std::string(names_of<Tissue>()[k]))},
                                                                 {"n", percent(step.saves[k])}});
    }
    const std::string prefix = fmt::format("  {}. ", number);
    fmt::print("{}{}\n", prefix,
               wrap(say("night.step", {{"name", name}, {"hours", std::to_string(step.ready_hours)}, {"saves", saves}}), prefix.size())
                   .substr(prefix.size()));
    fmt::print("{}\n", wrap(how, prefix.size()));
  }

  // Every caution of every step that is named, once; and whom to ask.
  void print_cautions(const NightReport& report) const {
    std::vector<std::string> ids;
    for (const NightResult& tree : report.trees)
      for (const NightStep& step : tree.steps)
        for (const std::string& id : step.cautions)
          if (std::find(ids.begin(), ids.end(), id) == ids.end()) ids.push_back(id);
    std::sort(ids.begin(), ids.end());
    if (ids.empty()) return;
    fmt::print("\n{}\n", say("night.cautions"));
    for (const std::string& id : ids)
      fmt::print("- {}\n", wrap(words_.say("cautions." + id + ".sign") + " " + words_.say("cautions." + id + ".text"), 2).substr(2));
  }

  const Language& words_;
  const Loaded& loaded_;
};

int run(const Session& session, const NightOptions& options) {
  Loaded loaded;
  if (const int status = load(session, loaded)) return status;
  const Place* place = find_place(loaded.office, options.place);
  if (place == nullptr) {
    std::vector<std::string_view> ids;
    for (const Place& one : loaded.office.places) ids.push_back(one.id);
    complain("no place \"" + options.place + "\"", std::string(nearest_name(options.place, ids)));
    return kMisuse;
  }
  NightWeather weather;
  if (const int status = read_weather(options, loaded, *place, weather)) return status;
  std::vector<NightTree> trees;
  if (const int status = read_trees(options, loaded, *place, trees)) return status;
  const NightReport report = night(weather.air, trees, loaded.catalog);
  const Printer printer(session, loaded);
  if (!options.json) {
    printer.print(weather, trees, report);
    return kDone;
  }
  Json json = {{"hardening", rounded(report.hardening_permille / 1000.0)},
               {"low_c", report.lowest_tenths / 10.0},
               {"freezing_hours", report.freezing_hours},
               {"windy", weather.air.windy},
               {"said", printer.said(weather)},
               {"trees", Json::array()}};
  for (std::size_t i = 0; i < trees.size(); ++i) json["trees"].push_back(tree_json(trees[i], report.trees[i]));
  fmt::print("{}\n", json.dump(2));
  return kDone;
}

}  // namespace

void add_night_options(const Command& command, NightOptions& options) {
  command.add_option("--low", options.low, "Lowest air temperature, such as 25F or -4C").type_name("TEMP");
  command.add_option("--hours", options.hours, "Hours for which the air stays at --low (default 4)")
      .between(1, 240).type_name("N");
  command.add_option("--before", options.before, "The weather before: mild, gradual (weeks of slow cooling) or sudden (a plunge)")
      .type_name("KIND");
  command.add_option("--hardening", options.hardening, "How hardened the trees are, 0 growing to 1 dormant, in place of --before")
      .between(0.0, 1.0).type_name("0..1");
  command.add_option("--daily", options.daily, "Forecast or record of daily lows and highs, as `climate` reads them").type_name("FILE");
  command.add_option("--hourly", options.hourly, "Forecast or record of hourly temperatures").type_name("FILE");
  command.add_option("--date", options.date, "The night wanted from a file (default: its coldest)").type_name("YYYY-MM-DD");
  command.add_option("--unit", options.unit, "Of a file: f, c or tenths (of a degree C), instead of telling it from the values")
      .one_of({"f", "c", "tenths"}).type_name("UNIT");
  command.add_option("--latitude", options.latitude, "For the hours of daily files (default: the place's)").between(-90.0, 90.0).type_name("DEG");
  command.add_flag("--windy", options.windy, "Wind all night: spots and covers are worth little");
  command.add_option("--month", options.month, "Month, to know what fruit and bloom is on the trees").between(1, 12).type_name("1..12");
  command.add_option("--place", options.place, "A place of the office (default: its first)").type_name("ID");
  command.add_option("--tree", options.trees, "A cultivar or a type; may be given again and again").type_name("ID").take_all();
  command.add_option("--trees", options.trees_file,
                     "CSV with a column `tree` and any of rootstock, age, health, container, crop, spot, protection; or a YAML list").type_name("FILE");
  command.add_option("--rootstock", options.rootstock, "Rootstock (default: one of middling hardiness)").type_name("ID");
  command.add_option("--age", options.age, "Years since planting (default 10)").type_name("YEARS");
  command.add_option("--health", options.health, "good, fair or poor").type_name("WORD");
  command.add_option("--container", options.container, "ground, or the pot's size such as 15gal or 57l").type_name("SIZE");
  command.add_option("--crop", options.crop, "light or heavy crop on the tree").type_name("WORD");
  command.add_option("--spot", options.spot, "open, slope, low_pocket, water_edge, town, south_wall or under_canopy").type_name("WORD");
  command.add_option("--protection", options.protections, "What is in place already; may be given again and again").type_name("ID").take_all();
  command.add_flag("--json", options.json, "As JSON, injuries as shares 0..1");
}

void add_night(const Command& app, Session& session) {
  const Command command = app.add_command("night", "What a cold night does to each tree, and what to do before it");
  const auto options = std::make_shared<NightOptions>();
  add_night_options(command, *options);
  command.footer(
      "Examples:\n"
      "  tenwinters night --low 25F --hours 4 --before gradual --tree satsuma --tree lemon --age 3\n"
      "  tenwinters night --daily forecast.csv --before mild --trees yard.csv --json\n"
      "Exit status: 0 done, 1 a file is at fault, 2 misuse.");
  command.does(session, [&session, options] { return run(session, *options); });
}

}  // namespace tenwinters::cli
