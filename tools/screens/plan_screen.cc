// A whole yard: up to three plans, each with its plot drawn to scale.
#include <algorithm>

#include "draw/draw.h"
#include "screens/request.h"
#include "tenwinters/plan.h"

namespace tenwinters::screens {
namespace {

constexpr std::string_view kSides[] = {"north", "east", "south", "west"};
constexpr int kPlotLeastCm = 50, kPageTreesMost = 8;
// Steps of the search before a page stops waiting for the proof: about two seconds in a browser.
constexpr std::int64_t kPageNodes = 400'000;

void add_setbacks(Request& request, std::string_view key, int centimetres, Plot& plot) {
  for (const std::string& side : request.texts(key, std::size(kSides))) {
    const auto at = std::find(std::begin(kSides), std::end(kSides), side);
    int* edges[] = {&plot.north_cm, &plot.east_cm, &plot.south_cm, &plot.west_cm};
    if (at == std::end(kSides)) request.refuse(key, side);
    else *edges[at - std::begin(kSides)] = std::max(*edges[at - std::begin(kSides)], centimetres);
  }
}

std::string letter_of(std::size_t stand) { return std::string(1, static_cast<char>('A' + stand)); }
std::string length(const Voice& voice, int centimetres) { return voice.figure(ArgKind::metres, centimetres / 100.0); }

std::string name_of_tree(const Voice& voice, const PlanTree& tree) {
  std::string name = tree_name(voice, tree.id);
  if (find_rootstock(voice.catalog, tree.rootstock) != nullptr)
    name = voice.say("terminal.on_stock", {{"tree", name}, {"stock", voice.rootstock_name(tree.rootstock)}});
  if (tree.container) name += ", " + voice.say("yard_plan.in_pot");
  if (tree.existing) name += " (" + voice.say("yard_plan.existing") + ")";
  return name;
}

void add_plan(View& view, const Voice& voice, const Plot& plot, const Plan& plan, std::size_t number, const std::vector<std::string>& said) {
  const std::string id = "plan-" + std::to_string(number);
  view.open("section", "plan", id);
  view.heading(2, id, voice.say("yard_plan.title", {{"n", std::to_string(number)}, {"value", std::to_string(plan.value)}}));
  draw::PlotPlan drawing;
  drawing.wide_cm = plot.width_cm;
  drawing.long_cm = plot.length_cm;
  drawing.kept_free = {plot.north_cm, plot.east_cm, plot.south_cm, plot.west_cm};
  drawing.north = voice.say("yard_plan.north");
  drawing.width_label = length(voice, plot.width_cm);
  drawing.length_label = length(voice, plot.length_cm);
  Drawn drawn;
  for (std::size_t i = 0; i < plan.stands.size(); ++i) {
    const PlanStand& stand = plan.stands[i];
    drawing.trees.push_back({letter_of(i), stand.x_cm, stand.y_cm, stand.tree.crown_cm, stand.tree.container, stand.tree.existing});
    std::string partner;
    for (const auto& [giver, taker] : plan.partners)
      if (taker == stand.tree.id) partner += (partner.empty() ? "" : ", ") + voice.cultivar_name(giver);
    drawn.rows.push_back({letter_of(i) + "  " + name_of_tree(voice, stand.tree),
                          {std::to_string(stand.tree.points), length(voice, stand.tree.crown_cm), length(voice, stand.tree.height_cm),
                           length(voice, stand.x_cm), length(voice, stand.y_cm), partner.empty() ? voice.say("ui.none") : partner}});
  }
  const auto at = [&](const std::string& tree) {
    return static_cast<std::size_t>(std::find_if(plan.stands.begin(), plan.stands.end(), [&](const PlanStand& s) { return s.tree.id == tree; }) - plan.stands.begin());
  };
  for (const auto& [giver, taker] : plan.partners)
    if (at(giver) < plan.stands.size() && at(taker) < plan.stands.size()) drawing.pairs.emplace_back(at(giver), at(taker));
  drawn.title = voice.say("screens.plan.drawing", {{"n", std::to_string(number)}});
  drawn.note = voice.say("screens.plan.drawing_note");
  for (const char* head : {"points", "crown", "height", "from_west", "from_south", "partner"}) drawn.head.push_back(voice.say("screens.plan.col_" + std::string(head)));
  std::string says;
  for (const Row& row : drawn.rows) says += (says.empty() ? "" : "; ") + row.label;
  drawing.caption = {"plot-" + std::to_string(number), drawn.title, says};
  drawn.wide = draw::plot_plan(drawing, draw::Form::wide);
  drawn.slim = draw::plot_plan(drawing, draw::Form::slim);
  std::vector<std::string> trees;
  for (const Row& row : drawn.rows) trees.push_back(row.label);
  view.list(trees, false, "legend");
  view.drawing(drawn);

  std::string ripe;
  for (int month = 1; month <= 12; ++month)
    if ((plan.months >> (month - 1) & 1) != 0) ripe += (ripe.empty() ? "" : ", ") + voice.say("language.months." + std::to_string(month));
  if (!ripe.empty()) view.text(voice.say("yard_plan.months", {{"months", ripe}}));
  std::vector<std::string> notes;
  for (const std::string& gone : plan.gone) notes.push_back(voice.say("screens.plan.gone", {{"tree", tree_name(voice, gone)}}));
  for (const Reason& note : plan.notes) notes.push_back(voice.reason(note));
  view.list(notes, false, "notes");
  std::vector<std::string> own = plan.cautions;
  std::erase_if(own, [&](const std::string& one) { return std::find(said.begin(), said.end(), one) != said.end(); });
  view.signs(own);
  view.close();
}

}  // namespace

Shown plan_screen(const Asked& asked) {
  const Voice& voice = asked.voice;
  Request& request = asked.request;
  Plot plot;
  plot.width_cm = request.whole("width_cm", 900, kPlotLeastCm, kPlotMostCm);
  plot.length_cm = request.whole("length_cm", 1200, kPlotLeastCm, kPlotMostCm);
  add_setbacks(request, "walls", kWallSetbackCm, plot);
  add_setbacks(request, "lines", kLineSetbackCm, plot);
  const int trees = request.whole("trees_at_most", 3, 1, kPageTreesMost);
  const int carry = request.whole("carry", kNoLimit, kNoLimit, kPageTreesMost);
  std::vector<ExistingTree> existing;
  for (const std::string& id : request.texts("existing", kPageTreesMost)) {
    if (find_cultivar(asked.screens.catalog(), id) == nullptr) request.refuse("existing", id);
    existing.push_back({id, "", false, 0, 0});
  }
  if (request.refused()) return {};

  PlanProblem problem = yard_offer(asked.screens.catalog(), asked.screens.office(), asked.ground.place, asked.answers, existing);
  plot.sun_from_north = problem.plot.sun_from_north;
  problem.plot = plot;
  problem.trees_at_most = trees;
  problem.carried_at_most = carry;
  problem.node_limit = kPageNodes;
  const YardPlan yard = plan_yard(problem);

  View view(voice);
  view.text(record_line(voice, asked.ground.place));
  for (const Limit& limit : problem.spot) view.limit(limit);
  std::vector<std::string> notes;
  for (const Reason& note : problem.notes) notes.push_back(voice.reason(note));
  view.list(notes, false, "notes");
  if (yard.plans.empty()) view.text(voice.say(problem.trees.empty() ? "screens.plan.nothing_spot" : "yard_plan.nothing_room"), "no");
  const std::vector<std::string> common = yard.plans.size() > 1 ? common_cautions(yard.plans) : std::vector<std::string>{};
  if (!common.empty()) view.text(voice.say("screens.plan.cautions_for_all"), "for-all");
  view.signs(common);
  std::vector<std::string> cautions;
  for (std::size_t i = 0; i < yard.plans.size(); ++i) {
    add_plan(view, voice, plot, yard.plans[i], i + 1, common);
    cautions.insert(cautions.end(), yard.plans[i].cautions.begin(), yard.plans[i].cautions.end());
  }
  if (!yard.plans.empty()) {
    view.text(yard.proven ? voice.say("yard_plan.proven") : voice.count("yard_plan.gap", yard.gap));
    const PlanWeights& weights = problem.weights;
    view.text(voice.say("yard_plan.worth", {{"month", std::to_string(weights.month)}, {"stays", std::to_string(weights.stays)}, {"night", std::to_string(weights.tree_night)}}), "aside");
  }
  view.cautions(std::move(cautions));

  Shown shown;
  shown.title = voice.say("screens.plan.shown", {{"place", voice.of(asked.ground.place.name)}});
  shown.status = voice.count("screens.plan.status", static_cast<long>(yard.plans.size()));
  shown.blocks = view.take();
  return shown;
}

}  // namespace tenwinters::screens
