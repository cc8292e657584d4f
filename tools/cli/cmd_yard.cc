// tenwinters yard: which trees for a whole plot, which old ones stay, and where each one stands.
#include <fmt/core.h>

#include <algorithm>
#include <cerrno>
#include <charconv>
#include <cmath>
#include <cstring>
#include <fstream>
#include <memory>
#include <optional>

#include "cli/commands.h"
#include "cli/yard_drawing.h"
#include "cli/yard_options.h"
#include "lib/lp.h"
#include "tenwinters/plan.h"
#include "tenwinters/units.h"

namespace tenwinters::cli {
namespace {

struct Wanted {
  YardOptions yard;
  int trees = 3;
  double width_m = 0, length_m = 0, width_ft = 0, length_ft = 0;
  std::vector<std::string> existing, walls, lines;
  int carry = kNoLimit;
  double tree_nights = kNoLimit;
  std::string lp_file;
};

constexpr std::string_view kSides[] = {"north", "east", "south", "west"};

// The plot's side from whichever unit was given; 0 and a complaint if none or both, or out of bounds.
int side_cm(const char* name, double metres, double feet) {
  if ((metres != 0) == (feet != 0)) {
    complain(fmt::format("give --{0}-m or --{0}-ft, one of the two", name));
    return 0;
  }
  const double value = metres != 0 ? metres : to_metres(Feet{feet}).metres;
  if (!(value >= 0.5) || !(value <= kPlotMostCm / 100.0)) {
    complain(fmt::format("--{}: expected 0.5 to {} m", name, kPlotMostCm / 100));
    return 0;
  }
  return static_cast<int>(std::floor(value * 100 + 1e-6));
}

int add_setbacks(const std::vector<std::string>& sides, const char* option, int centimetres, Plot& plot) {
  for (const std::string& side : sides) {
    const auto at = std::find(std::begin(kSides), std::end(kSides), side);
    if (at == std::end(kSides)) {
      complain(fmt::format("--{} \"{}\": expected north, east, south or west", option, side), std::string(nearest_name(side, kSides)));
      return kMisuse;
    }
    int* edges[] = {&plot.north_cm, &plot.east_cm, &plot.south_cm, &plot.west_cm};
    int& edge = *edges[at - std::begin(kSides)];
    edge = std::max(edge, centimetres);
  }
  return kDone;
}

template <class T>
std::string nearest_id(const std::vector<T>& all, std::string_view id) {
  std::vector<std::string_view> ids;
  for (const T& one : all) ids.push_back(one.id);
  return std::string(nearest_name(id, ids));
}

std::optional<double> decimal(std::string_view text) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  return error == std::errc() && end == text.data() + text.size() ? std::optional(value) : std::nullopt;
}

// ID, ID:ROOTSTOCK, and with @X,Y the place of the trunk from the west and the south edge, in the unit in
// which the plot was given.
std::optional<ExistingTree> read_existing(const std::string& text, const Catalog& catalog, bool feet, const Plot& plot) {
  ExistingTree tree;
  std::string names = text;
  if (const std::size_t at = text.find('@'); at != std::string::npos) {
    names = text.substr(0, at);
    const std::string place = text.substr(at + 1);
    const std::size_t comma = place.find(',');
    const double unit = feet ? 30.48 : 100;  // to centimetres
    const double x = decimal(place.substr(0, comma)).value_or(-1) * unit;
    const double y = comma == std::string::npos ? -1 : decimal(place.substr(comma + 1)).value_or(-1) * unit;
    if (!(x >= 0 && y >= 0 && x <= plot.width_cm && y <= plot.length_cm)) {
      complain("--existing \"" + text + "\": expected its place as @X,Y from the west and the south edge, inside the plot");
      return std::nullopt;
    }
    tree.fixed = true;
    tree.x_cm = static_cast<int>(std::lround(x));
    tree.y_cm = static_cast<int>(std::lround(y));
  }
  const std::size_t colon = names.find(':');
  tree.cultivar = names.substr(0, colon);
  if (colon != std::string::npos) tree.rootstock = names.substr(colon + 1);
  if (find_cultivar(catalog, tree.cultivar) == nullptr) {
    complain("no cultivar \"" + tree.cultivar + "\" in the catalogue", nearest_id(catalog.cultivars, tree.cultivar));
    return std::nullopt;
  }
  if (colon != std::string::npos && find_rootstock(catalog, tree.rootstock) == nullptr) {
    complain("no rootstock \"" + tree.rootstock + "\" in the catalogue", nearest_id(catalog.rootstocks, tree.rootstock));
    return std::nullopt;
  }
  return tree;
}

int plan_it(const Session& session, const Wanted& wanted, Plot plot, const Loaded& loaded, const Place& place, const Answers& answers) {
  std::vector<ExistingTree> existing;
  for (const std::string& text : wanted.existing) {
    std::optional<ExistingTree> tree = read_existing(text, loaded.catalog, wanted.width_ft != 0, plot);
    if (!tree) return kMisuse;
    existing.push_back(std::move(*tree));
  }

  PlanProblem problem = yard_offer(loaded.catalog, loaded.office, place, answers, existing);
  plot.sun_from_north = problem.plot.sun_from_north;
  problem.plot = plot;
  problem.trees_at_most = wanted.trees;
  problem.carried_at_most = wanted.carry;
  if (wanted.tree_nights >= 0) problem.work_tenths_at_most = static_cast<int>(std::floor(wanted.tree_nights * 10 + 1e-6));
  const YardPlan yard = plan_yard(problem);

  if (!wanted.lp_file.empty()) {
    std::ofstream file(wanted.lp_file, std::ios::binary);
    file << plan_to_lp(problem, yard.misfits);
    file.close();
    if (!file) {
      complain("cannot write \"" + wanted.lp_file + "\": " + std::strerror(errno));
      return kFindings;
    }
  }
  const YardReport report{session, loaded, place, problem, yard, wanted.lp_file};
  fmt::print("{}", wanted.yard.json ? yard_to_json(report) : yard_to_text(report));
  return kDone;
}

int run_yard(const Session& session, const Wanted& wanted) {
  Plot plot;
  plot.width_cm = side_cm("width", wanted.width_m, wanted.width_ft);
  if (plot.width_cm == 0) return kMisuse;
  plot.length_cm = side_cm("length", wanted.length_m, wanted.length_ft);
  if (plot.length_cm == 0) return kMisuse;
  if (const int status = add_setbacks(wanted.walls, "wall", kWallSetbackCm, plot)) return status;
  if (const int status = add_setbacks(wanted.lines, "line", kLineSetbackCm, plot)) return status;

  return run_on_yard(session, wanted.yard, [&](const Loaded& loaded, const Place& place, const Answers& answers) {
    return plan_it(session, wanted, plot, loaded, place, answers);
  });
}

}  // namespace

void add_yard(const Command& app, Session& session) {
  const Command command = app.add_command("yard", "Plan a whole yard: which trees, which old ones stay, and where");
  const auto wanted = std::make_shared<Wanted>();
  command.add_option("--trees", wanted->trees, "At most so many trees, those that stay included (default: 3)")
      .between(1, kPlanTreesMost).type_name("N");
  command.add_option("--width-m", wanted->width_m, "Plot from west to east, metres").type_name("W");
  command.add_option("--length-m", wanted->length_m, "Plot from south to north, metres").type_name("L");
  command.add_option("--width-ft", wanted->width_ft, "The same in feet").type_name("W");
  command.add_option("--length-ft", wanted->length_ft, "The same in feet").type_name("L");
  command.add_option("--existing", wanted->existing,
                      "A tree that stands there, and where if known (metres, or feet with --width-ft); may be given again")
      .type_name("ID[:ROOTSTOCK][@X,Y]").take_all();
  command.add_option("--wall", wanted->walls, "A side along a wall: 3 ft (0.9 m) are kept free; may be given again")
      .type_name("SIDE").take_all();
  command.add_option("--line", wanted->lines, "A side along power lines or a septic field: 10 ft (3 m) are kept free; may be given again")
      .type_name("SIDE").take_all();
  command.add_option("--carry", wanted->carry, "At most so many pots to carry in when it freezes")
      .between(0, kPlanTreesMost).type_name("N");
  command.add_option("--tree-nights", wanted->tree_nights, "At most so much winter work: trees times nights")
      .between(0.0, 4000.0).type_name("N");
  command.add_option("--export-lp", wanted->lp_file, "Also write the choice as a linear program for any solver").type_name("FILE");
  add_yard_options(command, wanted->yard, false);
  command.footer(
      "The answer to the question on room is left aside: the plot decides. Questions left out count as \"don't know\".\n"
      "Example:\n"
      "  tenwinters yard --trees 3 --width-ft 30 --length-ft 40 --wall north --existing orlando@6,10 --answer taste=sweet");
  command.does(session, [&session, wanted] { return run_yard(session, *wanted); });
}

}  // namespace tenwinters::cli
