// Tonight's freeze: what it would do to each tree, and what to do before it, in order.
#include <algorithm>
#include <cmath>
#include <memory>

#include "screens/request.h"
#include "tenwinters/night.h"

namespace tenwinters::screens {
namespace {

constexpr int kHoursMost = 72, kAgeMost = 100;
constexpr double kColdest = -40, kWarmest = 5, kLitresMost = 2000;

// The unit holds to its number.
std::string percent(const Voice& voice, double share) {
  std::string text = voice.figure(ArgKind::percent, share * 100);
  if (const std::size_t blank = text.find(' '); blank != std::string::npos) text.replace(blank, 1, "\u00a0");
  return text;
}
std::string span_text(const Voice& voice, const Interval& injury) {
  const std::string low = percent(voice, injury.low), high = percent(voice, injury.high);
  return low == high ? low : voice.say("ui.range", {{"low", low}, {"high", high}});
}
std::string tissue_name(const Voice& voice, std::size_t k) { return voice.say("night.tissues." + std::string(names_of<Tissue>()[k])); }

// One tree as the page sends it; the request remembers what does not fit.
NightTree read_tree(const Asked& asked, const Json& json) {
  Request one(json);
  const Catalog& catalog = asked.screens.catalog();
  NightTree tree;
  tree.id = one.text("id", "");
  if (const Cultivar* cultivar = find_cultivar(catalog, tree.id)) tree.traits = &cultivar->traits;
  else if (const CitrusType* type = find_type(catalog, tree.id)) tree.traits = &type->traits;
  else one.refuse("trees", tree.id);
  if (const std::string stock = one.text("rootstock", ""); !stock.empty()) {
    tree.rootstock = find_rootstock(catalog, stock);
    if (tree.rootstock == nullptr) one.refuse("rootstock", stock);
  }
  tree.age = one.whole("age", tree.age, 1, kAgeMost);
  tree.health = one.word("health", tree.health);
  tree.heavy_crop = one.truth("heavy_crop", false);
  tree.container_l = one.number("container_l", 0, 0, kLitresMost);
  const Spot spot = one.word("spot", Spot::open);
  for (const Microclimate& climate : catalog.microclimates)
    if (climate.spot == spot) tree.warmer_c = climate.warmer_c.best;
  tree.region = asked.ground.place.region;
  for (const std::string& id : one.texts("protections", catalog.protections.size())) {
    const Protection* protection = find_protection(catalog, id);
    if (protection == nullptr) one.refuse("protections", id);
    else if (id != "none" && (!protection->container_only || tree.container_l > 0)) tree.protections.push_back(protection);
  }
  if (one.refused()) asked.request.pass_on(one);
  return tree;
}

bool shown_for(const NightResult& result, std::size_t k) {
  return k == static_cast<std::size_t>(Tissue::fruit) ? result.fruit_on : k == static_cast<std::size_t>(Tissue::bloom) ? result.bloom_on : true;
}

void add_steps(View& view, const Voice& voice, const NightResult& result, std::vector<std::string>& cautions) {
  if (result.steps.empty()) {
    view.text(voice.say(result.outcome == NightOutcome::unhurt ? "night.nothing_needed" : "night.nothing_helps"));
    return;
  }
  view.text(voice.say("night.do"), "event-name");
  view.open("ol", "steps");
  for (const NightStep& step : result.steps) {
    const bool pick = step.id == "pick_fruit";
    std::string saves;
    for (std::size_t k = 0; k < kTissueCount; ++k)
      if (step.saves[k] >= 0.005)
        saves += (saves.empty() ? "" : ", ") + voice.say("night.saves", {{"tissue", voice.say("enums.tissue." + std::string(names_of<Tissue>()[k]))}, {"n", percent(voice, step.saves[k])}});
    view.open("li", "");
    view.text(voice.say("night.step", {{"name", voice.say(pick ? "night.pick_fruit.name" : "protections." + step.id + ".name")},
                                       {"hours", std::to_string(step.ready_hours)}, {"saves", saves}}), "event-name");
    view.text(voice.say(pick ? "night.pick_fruit.how" : "protections." + step.id + ".how"));
    view.signs(step.cautions);
    view.close();
    cautions.insert(cautions.end(), step.cautions.begin(), step.cautions.end());
  }
  view.close();
}

void add_tree(View& view, const Voice& voice, const NightTree& tree, const NightResult& result, std::size_t number, std::vector<std::string>& cautions) {
  const std::string id = "tree-" + std::to_string(number);
  std::string name = tree_name(voice, tree.id);
  if (tree.rootstock != nullptr) name = voice.say("terminal.on_stock", {{"tree", name}, {"stock", tree.rootstock->name}});
  view.open("article", "", id);
  view.heading(3, id, name);
  view.text(voice.say("night.outcome." + std::string(name_of(result.outcome))), result.outcome == NightOutcome::unhurt ? "fine" : "no");
  std::vector<Row> rows;
  for (std::size_t k = 0; k < kTissueCount; ++k)
    if (shown_for(result, k))
      rows.push_back({tissue_name(voice, k), {percent(voice, result.injury[k].best), span_text(voice, result.injury[k])}});
  if (tree.container_l > 0) rows.push_back({voice.say("screens.night.roots"), {percent(voice, result.roots), ""}});
  view.table(voice.say("screens.night.table", {{"tree", name}}), {voice.say("screens.night.killed"), voice.say("screens.night.span")}, rows);
  add_steps(view, voice, result, cautions);
  view.close();
}

}  // namespace

Shown night_screen(const Asked& asked) {
  const Voice& voice = asked.voice;
  Request& request = asked.request;
  const int hours = request.whole("hours", 4, 1, kHoursMost);
  NightAir air = steady_night(request.number("low_c", -4, kColdest, kWarmest), hours);
  const Before before = request.word("before", Before::unsaid);
  air.hardening_permille = hardening_after(before);
  air.windy = request.truth("windy", false);
  air.month = request.whole("month", 0, 0, 12);
  std::vector<NightTree> trees;
  for (const Json* one : request.objects("trees", kNightTreesMost)) trees.push_back(read_tree(asked, *one));
  if (request.refused()) return {};
  const NightReport report = night(air, trees, asked.screens.catalog());

  View view(voice);
  const auto low = static_cast<double>(report.lowest_tenths) / 10;
  view.text(voice.say("night.cold", {{"low", voice.figure(ArgKind::celsius, low)}, {"n", std::to_string(report.freezing_hours)}}));
  const std::string said = before == Before::unsaid ? "screens.night.unsaid" : "night.said." + std::string(name_of(before));
  view.text(voice.say(said, {{"n", std::to_string(air.hardening_permille / 10)}}));
  if (air.windy) view.text(voice.say("screens.night.wind"));
  std::vector<std::string> cautions;
  long hurt = 0;
  for (std::size_t i = 0; i < trees.size(); ++i) {
    add_tree(view, voice, trees[i], report.trees[i], i + 1, cautions);
    hurt += report.trees[i].outcome != NightOutcome::unhurt ? 1 : 0;
  }
  view.text(voice.say("screens.night.no_promise"), "aside");
  view.cautions(std::move(cautions));

  Shown shown;
  shown.title = voice.say("screens.night.shown", {{"low", voice.figure(ArgKind::celsius, low)}});
  shown.status = voice.count("screens.night.status", hurt, {{"all", std::to_string(trees.size())}});
  shown.blocks = view.take();
  return shown;
}

}  // namespace tenwinters::screens
