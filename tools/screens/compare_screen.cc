// Two to four trees side by side, and what decides between them.
#include <algorithm>
#include <tuple>

#include "draw/draw.h"
#include "screens/comparison_words.h"
#include "screens/request.h"
#include "tenwinters/advise.h"
#include "tenwinters/change.h"

namespace tenwinters::screens {
namespace {

constexpr Tissue kRuled[] = {Tissue::leaf, Tissue::wood, Tissue::trunk};

std::string stock_text(const Voice& voice, const Candidate& candidate) {
  const std::string stock = voice.rootstock_name(candidate.rootstock);
  if (candidate.protection.empty() || candidate.protection == "none") return voice.say("ui.on_stock", {{"stock", stock}});
  return voice.say("ui.on_stock_with", {{"stock", stock}, {"care", voice.say("protections." + candidate.protection + ".name")}});
}

void add_column(View& view, const Voice& voice, const Candidate& candidate, const std::vector<std::string>& said) {
  const std::string id = "tree-" + candidate.cultivar;
  view.open("article", std::string(name_of(candidate.shelf)), id);
  view.heading(3, id, tree_name(voice, candidate.cultivar));
  view.text(voice.say("shelves." + std::string(name_of(candidate.shelf))), "verdict");
  if (!candidate.rootstock.empty()) view.text(stock_text(voice, candidate), "best");
  view.figures_of(candidate.prospect);
  for (const Limit& limit : candidate.limits) view.limit(limit);
  std::vector<std::string> own = candidate.cautions;
  std::erase_if(own, [&](const std::string& one) { return std::find(said.begin(), said.end(), one) != said.end(); });
  view.signs(own);
  view.why(candidate);
  if (!candidate.notes.empty()) {
    view.heading(4, "", voice.say("ui.notes_title"));
    std::vector<std::string> notes;
    for (const Reason& note : candidate.notes) notes.push_back(voice.reason(note));
    view.list(notes, false, "notes");
  }
  view.close();
}

void add_ruler(View& view, const Voice& voice, const Place& place, const std::vector<Candidate>& trees) {
  draw::ColdRuler ruler;
  Drawn drawn;
  draw::ColdRuler::Dots dots{voice.of(place.name), voice.say("ui.ruler_below"), {}};
  for (const Winter& winter : place.winters.winters) dots.lows.push_back(voice.degrees(winter.lowest_tenths_c / 10.0));
  ruler.places.push_back(std::move(dots));
  for (const Candidate& tree : trees)
    for (const Tissue tissue : kRuled) {
      const TissueCold& cold = find_cultivar(voice.catalog, tree.cultivar)->traits.cold[static_cast<std::size_t>(tissue)];
      const std::string label = voice.say("ui.ruler_row", {{"tissue", voice.cultivar_name(tree.cultivar)}, {"place", voice.word("tissue", name_of(tissue))}});
      ruler.rows.push_back({label, voice.degrees(cold.hardened.best), voice.degrees(cold.unhardened.best)});
      drawn.rows.push_back({label, {voice.figure(ArgKind::celsius, cold.hardened.best), voice.figure(ArgKind::celsius, cold.unhardened.best)}});
    }
  drawn.title = voice.say("ui.ruler_title");
  drawn.note = voice.say("ui.ruler_note");
  drawn.head = {voice.say("screens.compare.hardened"), voice.say("screens.compare.unhardened")};
  ruler.caption = {"ruler", drawn.title, drawn.note};
  drawn.wide = draw::cold_ruler(ruler, draw::Form::wide);
  drawn.slim = draw::cold_ruler(ruler, draw::Form::slim);
  view.drawing(drawn);
}

void add_harvests(View& view, const Voice& voice, const std::vector<Candidate>& trees) {
  draw::YearStrip strip;
  strip.months = month_letters(voice);
  Drawn drawn;
  drawn.title = voice.say("screens.compare.harvests");
  drawn.head = {voice.say("ui.fig_ripe")};
  std::string says;
  for (const Candidate& tree : trees) {
    const Prospect& p = tree.prospect;
    const std::string name = voice.cultivar_name(tree.cultivar);
    const std::string when = p.ripe_from_month > 0 ? voice.months(p.ripe_from_month, p.ripe_to_month) : voice.say("ui.never");
    strip.rows.push_back({name, "", {}});
    if (p.ripe_from_month > 0) strip.rows.back().spans.push_back({(p.ripe_from_month - 1) / 12.0, p.ripe_to_month / 12.0, draw::Fill::rind});
    drawn.rows.push_back({name, {when}});
    says += (says.empty() ? "" : "; ") + name + ": " + when;
  }
  strip.caption = {"harvests", drawn.title, says};
  drawn.wide = draw::year_strip(strip, draw::Form::wide);
  drawn.slim = draw::year_strip(strip, draw::Form::slim);
  view.drawing(drawn);
}

// The leader beside each of the others.
void add_difference(View& view, const Voice& voice, const Comparison& two) {
  const std::string name = voice.cultivar_name(two.second.cultivar), id = "against-" + two.second.cultivar;
  view.open("section", "against", id);
  view.heading(3, id, voice.say("screens.compare.pair", {{"first", voice.cultivar_name(two.first.cultivar)}, {"second", name}}));
  view.text(lead_text(voice, two));
  std::vector<Row> parts;
  for (std::size_t i = 0; i < two.first.contributions.size() && i < two.second.contributions.size(); ++i) {
    const Contribution &a = two.first.contributions[i], &b = two.second.contributions[i];
    if (a.points != b.points) parts.push_back({voice.say("criteria." + a.criterion), {std::to_string(a.points), std::to_string(b.points)}});
  }
  if (!parts.empty()) view.table(voice.say("screens.compare.parts", {{"second", name}}), {voice.cultivar_name(two.first.cultivar), name}, parts);
  view.text(voice.say(two.turns.empty() ? "explain.no_turns" : "explain.turns"));
  std::vector<std::string> turns;
  for (const Turn& turn : two.turns) turns.push_back(change_text(voice, turn.change) + ": " + turn_text(voice, two, turn));
  view.list(turns);
  view.text(cold_turn_text(voice, two));
  view.close();
}

}  // namespace

Shown compare_screen(const Asked& asked) {
  const Voice& voice = asked.voice;
  const Catalog& catalog = asked.screens.catalog();
  const Office& office = asked.screens.office();
  Screens::Ground& ground = asked.ground;
  const std::vector<std::string> ids = asked_trees(asked, kComparedMost);
  if (ids.size() < 2) asked.request.refuse("trees", "");
  if (asked.request.refused()) return {};
  std::vector<Candidate> trees;
  for (const std::string& id : ids) {
    std::optional<Candidate> tree = candidate_in_full(catalog, office, ground.place, asked.answers, id, ground.replay, ground.memo);
    if (tree) trees.push_back(std::move(*tree));
    else asked.request.refuse("trees", id);
  }
  if (asked.request.refused()) return {};
  // In the order in which the picker lists them.
  std::stable_sort(trees.begin(), trees.end(), [](const Candidate& a, const Candidate& b) {
    return std::tie(a.shelf, b.points, a.cultivar) < std::tie(b.shelf, a.points, b.cultivar);
  });

  View view(voice);
  view.text(record_line(voice, ground.place));
  view.open("div", "side-by-side");
  const std::vector<std::string> common = common_cautions(trees);
  for (const Candidate& tree : trees) add_column(view, voice, tree, common);
  view.close();
  if (!common.empty()) view.text(voice.say("ui.cautions_for_all"), "for-all");
  view.signs(common);
  add_harvests(view, voice, trees);
  add_ruler(view, voice, ground.place, trees);
  view.heading(2, "", voice.say("screens.compare.apart"));
  for (std::size_t i = 1; i < trees.size(); ++i)
    if (const std::optional<Comparison> two =
            compare(catalog, office, ground.place, asked.answers, trees.front().cultivar, trees[i].cultivar, ground.replay, ground.memo))
      add_difference(view, voice, *two);
  std::vector<std::string> cautions;
  for (const Candidate& tree : trees) cautions.insert(cautions.end(), tree.cautions.begin(), tree.cautions.end());
  view.cautions(std::move(cautions));

  Shown shown;
  shown.title = voice.say("screens.compare.shown", {{"place", voice.of(ground.place.name)}});
  shown.status = voice.say("screens.compare.status", {{"tree", voice.cultivar_name(trees.front().cultivar)}});
  shown.blocks = view.take();
  return shown;
}

}  // namespace tenwinters::screens
