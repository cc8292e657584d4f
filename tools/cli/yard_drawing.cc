#include "cli/yard_drawing.h"

#include <fmt/core.h>

#include <algorithm>
#include <nlohmann/json.hpp>

namespace tenwinters::cli {
namespace {

char letter_of(std::size_t stand) { return static_cast<char>('A' + stand); }

// The plot in letters, north up: a crown is filled with the small letter of its tree, its trunk is the
// capital. A sign is about twice as high as it is wide, and so is the ground it stands for.
struct Drawing {
  std::vector<std::string> rows;
  double wide_m = 0, high_m = 0;  // of one sign
};
Drawing draw(const Plot& plot, const Plan& plan) {
  constexpr int kColumns = 60, kRows = 30;
  Drawing out;
  const double wide = std::max(1.0 * plot.width_cm / kColumns, plot.length_cm / (2.0 * kRows));
  const int columns = std::max(1, static_cast<int>(plot.width_cm / wide + 0.5)), rows = std::max(1, static_cast<int>(plot.length_cm / (2 * wide) + 0.5));
  out.wide_m = wide / 100;
  out.high_m = 2 * out.wide_m;
  for (int row = 0; row < rows; ++row) {
    std::string line;
    for (int column = 0; column < columns; ++column) {
      const double x = (column + 0.5) * plot.width_cm / columns, y = (rows - row - 0.5) * plot.length_cm / rows;
      char sign = ' ';
      for (std::size_t i = 0; i < plan.stands.size(); ++i) {
        const PlanStand& stand = plan.stands[i];
        const double dx = x - stand.x_cm, dy = y - stand.y_cm, radius = stand.tree.crown_cm / 2.0;
        if (dx * dx + dy * dy <= radius * radius) sign = static_cast<char>('a' + i);
      }
      line += sign;
    }
    out.rows.push_back(line);
  }
  for (std::size_t i = 0; i < plan.stands.size(); ++i) {
    const int column = std::clamp(plan.stands[i].x_cm * columns / std::max(plot.width_cm, 1), 0, columns - 1);
    const int row = std::clamp(rows - 1 - plan.stands[i].y_cm * rows / std::max(plot.length_cm, 1), 0, rows - 1);
    out.rows[static_cast<std::size_t>(row)][static_cast<std::size_t>(column)] = letter_of(i);
  }
  return out;
}

class Teller {
 public:
  explicit Teller(const YardReport& report)
      : report_(report), loaded_(report.loaded), voice_(report.loaded.voice(report.session)) {}

  std::string text() {
    line(voice_.of(report_.place.name) + ", " + voice_.of(loaded_.office.name), 0);
    if (loaded_.office.invented || report_.place.winters.invented) line(voice_.say("terminal.invented"), 0);
    for (const Limit& limit : report_.problem.spot)
      if (limit.verdict != Verdict::pass)
        line(voice_.say(limit.verdict == Verdict::fail ? "terminal.no" : "terminal.find_out") + " " + reason(limit.reason), 0);
    for (const Reason& note : report_.problem.notes) line("- " + reason(note), 0);
    if (report_.yard.plans.empty()) line(voice_.say(nothing()), 0);
    for (std::size_t i = 0; i < report_.yard.plans.size(); ++i) plan(i);
    if (!report_.yard.plans.empty()) {
      out_ += "\n";
      if (report_.yard.proven) line(voice_.say("yard_plan.proven"), 0);
      else line(voice_.say("yard_plan.gap", {{"n", std::to_string(report_.yard.gap)}}), 0);
      const PlanWeights& weights = report_.problem.weights;
      line(voice_.say("yard_plan.worth", {{"month", std::to_string(weights.month)},
                                                {"stays", std::to_string(weights.stays)},
                                                {"night", std::to_string(weights.tree_night)}}), 0);
    }
    if (!report_.lp_file.empty()) line(voice_.say("yard_plan.exported", {{"file", report_.lp_file}}), 0);
    return out_;
  }

  std::string json() {
    using Json = nlohmann::ordered_json;
    Json root;
    root["plans"] = Json::array();
    for (const Plan& plan : report_.yard.plans) {
      Json one;
      one["value"] = plan.value;
      one["proven"] = report_.yard.proven;
      one["gap"] = report_.yard.gap;
      one["trees"] = Json::array();
      for (const PlanStand& stand : plan.stands) {
        const PlanTree& tree = stand.tree;
        Json t;
        t["id"] = tree.id;
        t["type"] = tree.type;
        t["rootstock"] = tree.rootstock;
        t["protection"] = tree.protection;
        t["x_m"] = metres(stand.x_cm);
        t["y_m"] = metres(stand.y_cm);
        t["crown_m"] = metres(tree.crown_cm);
        t["height_m"] = metres(tree.height_cm);
        t["points"] = tree.points;
        t["existing"] = tree.existing;
        t["container"] = tree.container;
        t["carried"] = tree.carried;
        t["needs_partner"] = tree.needs_partner;
        t["has_partner"] = stand.has_partner;
        t["seedy"] = stand.seedy;
        t["months"] = months(tree.ripe);
        one["trees"].push_back(std::move(t));
      }
      one["removed"] = plan.gone;
      one["months"] = months(plan.months);
      one["partners"] = Json::array();
      for (const auto& [giver, taker] : plan.partners) one["partners"].push_back(Json::array({giver, taker}));
      one["notes"] = Json::array();
      for (const Reason& note : plan.notes) one["notes"].push_back(reason(note));
      one["cautions"] = plan.cautions;
      root["plans"].push_back(std::move(one));
    }
    const Plot& plot = report_.problem.plot;
    root["plot"] = {{"width_m", metres(plot.width_cm)}, {"length_m", metres(plot.length_cm)}, {"north_m", metres(plot.north_cm)},
                    {"east_m", metres(plot.east_cm)},   {"south_m", metres(plot.south_cm)},   {"west_m", metres(plot.west_cm)}};
    root["place"] = report_.place.id;
    root["invented"] = loaded_.office.invented || report_.place.winters.invented;
    root["limits"] = Json::array();
    for (const Limit& limit : report_.problem.spot)
      if (limit.verdict != Verdict::pass) root["limits"].push_back(reason(limit.reason));
    root["notes"] = Json::array();
    for (const Reason& note : report_.problem.notes) root["notes"].push_back(reason(note));
    if (report_.yard.plans.empty()) root["notes"].push_back(voice_.say(nothing()));
    return root.dump(2) + "\n";
  }

 private:
  // Hundredths survive the trip through a double and back to text.
  static double metres(int centimetres) { return centimetres / 100.0; }
  static std::vector<int> months(Months months) {
    std::vector<int> out;
    for (int m = 1; m <= 12; ++m)
      if ((months >> (m - 1) & 1) != 0) out.push_back(m);
    return out;
  }
  // Why there is no plan.
  [[nodiscard]] const char* nothing() const {
    return report_.problem.trees.empty() ? "yard_plan.nothing_spot" : "yard_plan.nothing_room";
  }

  void line(const std::string& text, std::size_t indent) { out_ += wrap(text, indent) + "\n"; }
  [[nodiscard]] std::string reason(const Reason& said) const {
    return say_reason(voice_.language, voice_.catalog, voice_.office, said, voice_.units);
  }
  [[nodiscard]] std::string length(double metres) const { return voice_.figure(ArgKind::metres, metres); }
  [[nodiscard]] std::string name_of_tree(const PlanTree& tree) const {
    const Cultivar* cultivar = find_cultivar(loaded_.catalog, tree.id);
    const Rootstock* stock = find_rootstock(loaded_.catalog, tree.rootstock);
    std::string name = cultivar->name + ", " + voice_.say("types." + tree.type + ".name");
    if (stock != nullptr) name = voice_.say("terminal.on_stock", {{"tree", name}, {"stock", stock->name}});
    if (tree.container) name += ", " + voice_.say("yard_plan.in_pot");
    if (tree.existing) name += " (" + voice_.say("yard_plan.existing") + ")";
    return name;
  }

  void plan(std::size_t index) {
    const Plan& plan = report_.yard.plans[index];
    out_ += "\n";
    line(voice_.say("yard_plan.title", {{"n", std::to_string(index + 1)}, {"value", std::to_string(plan.value)}}), 0);
    const Drawing drawing = draw(report_.problem.plot, plan);
    const std::string border = "  +" + std::string(drawing.rows.front().size(), '-') + "+\n";
    out_ += fmt::format("  ^ {}\n", voice_.say("yard_plan.north")) + border;
    for (const std::string& row : drawing.rows) out_ += "  |" + row + "|\n";
    out_ += border;
    line(voice_.say("yard_plan.scale", {{"wide", length(drawing.wide_m)}, {"high", length(drawing.high_m)}}), 2);
    for (std::size_t i = 0; i < plan.stands.size(); ++i) {
      const PlanStand& stand = plan.stands[i];
      line(voice_.say("yard_plan.stands", {{"letter", std::string(1, letter_of(i))}, {"tree", name_of_tree(stand.tree)}}) + "; " +
               voice_.say("yard_plan.points", {{"n", std::to_string(stand.tree.points)}}), 2);
      line(voice_.say("yard_plan.place", {{"crown", length(stand.tree.crown_cm / 100.0)},
                                                {"height", length(stand.tree.height_cm / 100.0)},
                                                {"x", length(stand.x_cm / 100.0)},
                                                {"y", length(stand.y_cm / 100.0)}}), 5);
    }
    std::string ripe;
    for (int month : months(plan.months)) ripe += (ripe.empty() ? "" : ", ") + voice_.say("language.months_short." + std::to_string(month));
    if (!ripe.empty()) line(voice_.say("yard_plan.months", {{"months", ripe}}), 2);
    for (const Reason& note : plan.notes) line("- " + reason(note), 2);
    for (const std::string& caution : plan.cautions)
      if (const Caution* c = find_caution(loaded_.catalog, caution); c != nullptr && (index == 0 || c->severity == Severity::high))
        line("! " + voice_.say("cautions." + caution + ".sign"), 2);
  }

  const YardReport& report_;
  const Loaded& loaded_;
  const Voice voice_;
  std::string out_;
};

}  // namespace

std::string yard_to_text(const YardReport& report) { return Teller(report).text(); }
std::string yard_to_json(const YardReport& report) { return Teller(report).json(); }

}  // namespace tenwinters::cli
