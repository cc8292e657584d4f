#include <algorithm>
#include <map>
#include <set>

#include "render/advice_view.h"
#include "render/sheets.h"

namespace tenwinters {
namespace {

constexpr std::size_t kTold = 3;   // kinds told in full
constexpr std::size_t kWhys = 3;   // points told for each

std::string figures(const Voice& voice, const Candidate& candidate) {
  const Prospect& p = candidate.prospect;
  const bool ripens = p.ripe_from_month > 0;
  return voice.say("ui.sheets.figures", {{"harvests", voice.number(p.good_harvests.best, 1)},
                                        {"low", voice.number(p.good_harvests.low, 1)},
                                        {"high", voice.number(p.good_harvests.high, 1)},
                                        {"alive", voice.chance(p.alive_at_ten.best)},
                                        {"nights", nights_text(voice, p.work_nights.best)},
                                        {"ripe", ripens ? voice.months(p.ripe_from_month, p.ripe_to_month) : voice.say("ui.never")}});
}

// What counts most first, and of that what it was given points for.
Model view_whys(const Voice& voice, const Candidate& candidate) {
  std::vector<const Contribution*> order;
  for (const Contribution& c : candidate.contributions)
    if (c.criterion != "harvest" && c.criterion != "work") order.push_back(&c);  // the figures have said these
  std::stable_sort(order.begin(), order.end(), [](const Contribution* a, const Contribution* b) { return a->of > b->of; });
  Model out = Model::list();
  for (std::size_t i = 0; i < order.size() && i < kWhys; ++i) out.add(voice.reason(order[i]->reason));
  return out;
}

// `said` keeps what was said of an earlier tree or of the spot from being said again.
Model view_best(const Voice& voice, const Kind& kind, Shelf shelf, std::size_t place, std::set<std::string>& said) {
  const Candidate& best = *kind.candidates.front();
  Model row;
  row["number"] = std::to_string(place);
  row["name"] = voice.cultivar_name(best.cultivar);
  row["kind"] = voice.type_name(kind.type);
  row["shelf"] = voice.say("shelves." + std::string(name_of(shelf)));
  row["points"] = voice.say("terminal.points", {{"n", std::to_string(best.points)}});
  row["stock"] = stock_line(voice, best);
  row["figures"] = figures(voice, best);
  row["whys"] = view_whys(voice, best);
  row["notes"] = Model::list();
  for (const Limit& limit : best.limits)
    if (std::string text = voice.say("ui.find_out") + " " + voice.reason(limit.reason); limit.verdict == Verdict::unknown && said.insert(text).second)
      row["notes"].add(text);
  for (const Reason& note : best.notes) row["notes"].add(voice.reason(note));
  std::string others;
  constexpr std::size_t kOthers = 4;
  for (std::size_t i = 1; i < kind.candidates.size() && i <= kOthers; ++i)
    others += (others.empty() ? "" : ", ") + voice.cultivar_name(kind.candidates[i]->cultivar);
  row["has_others"] = !others.empty();
  row["others"] = others;
  return row;
}

// The kinds that do not do, under what rules them out: "Winter cold: Key limes, Citrons".
Model view_refused(const Voice& voice, const std::vector<Kind>& kinds, const std::vector<std::string>& standing) {
  std::map<std::string, std::string> by_limit;
  std::vector<std::string> order;
  for (const Kind& kind : kinds) {
    if (std::find(standing.begin(), standing.end(), kind.type) != standing.end()) continue;
    // What fails; else, of limits left open that together are too much, the likeliest to.
    const Limit* worst = nullptr;
    for (const Limit& limit : kind.candidates.front()->limits)
      if (!worst || (worst->verdict != Verdict::fail && (limit.verdict == Verdict::fail || limit.chance < worst->chance))) worst = &limit;
    const std::string id = !worst ? "" : worst->verdict == Verdict::fail ? worst->id : worst->id + "?";
    std::string& text = by_limit[id];
    if (text.empty()) order.push_back(id);
    text += (text.empty() ? "" : ", ") + voice.say("types." + kind.type + ".plural");
  }
  Model out = Model::list();
  for (const std::string& id : order) {
    Model& row = out.add();
    row["why"] = id.empty() ? voice.say("ui.sheets.the_spot")
                 : id.back() == '?' ? voice.say("ui.sheets.most_likely", {{"limit", voice.say("limits." + id.substr(0, id.size() - 1))}})
                                    : voice.say("limits." + id);
    row["kinds"] = by_limit[id];
  }
  return out;
}

Model view_limits_of_spot(const Voice& voice, const Advice& advice) {
  Model out = Model::list();
  for (const Limit& limit : advice.yard)
    if (limit.verdict != Verdict::pass)
      out.add(voice.say(limit.verdict == Verdict::fail ? "ui.no_first" : "ui.find_out") + " " + voice.reason(limit.reason));
  for (const Reason& note : advice.notes) out.add(voice.reason(note));
  return out;
}

std::string fragment(const Voice& voice, const Place& place, const Answers& answers) {
  std::string text = "#place=" + place.id;
  for (const Question& question : voice.catalog.questions)
    if (const auto answer = answers.find(question.id); answer != answers.end()) text += "&" + question.id + "=" + answer->second;
  return text;
}

}  // namespace

Sheet household_sheet(const Voice& voice, const Household& household, const Advice& advice, const LeastChange& least) {
  const Place& place = voice.office.places[household.place];
  const std::vector<ShelfKinds> shelves = group_by_kind(voice.catalog, advice);
  Sheet sheet{{"your-yard", voice.say("ui.sheets.yard_title"), voice.say("ui.sheets.yard_says")}, "print_household.mustache",
              "index.html" + fragment(voice, place, household.answers), {}, false, {household.place}, {}};
  Model& model = sheet.body;
  model["has_name"] = !household.name.empty();
  model["name"] = household.name;
  model["place"] = voice.of(place.name);
  model["headline"] = headline(voice, shelves);
  model["told"] = view_answers(voice, advice);
  model["has_told"] = !model["told"].items().empty();
  model["open"] = advice.unanswered.empty() ? "" : voice.count("ui.sheets.unanswered", static_cast<long>(advice.unanswered.size()));
  model["spot"] = view_limits_of_spot(voice, advice);
  model["has_spot"] = !model["spot"].items().empty();
  model["best"] = Model::list();
  std::set<std::string> said;
  for (const Model& line : model["spot"].items()) said.insert(line.text());
  std::vector<std::string> standing;
  std::string also;
  std::size_t told = 0;
  for (const ShelfKinds& shelf : shelves) {
    if (shelf.shelf == Shelf::not_here) continue;
    for (const Kind& kind : shelf.kinds) {
      if (std::find(standing.begin(), standing.end(), kind.type) != standing.end()) continue;
      standing.push_back(kind.type);
      const Candidate& best = *kind.candidates.front();
      if (told < kTold) {
        model["best"].add(view_best(voice, kind, shelf.shelf, ++told, said));
        sheet.cautions.insert(sheet.cautions.end(), best.cautions.begin(), best.cautions.end());
      } else {
        also += (also.empty() ? "" : "; ") + voice.say("ui.sheets.also_one", {{"kind", voice.say("types." + kind.type + ".plural")},
                                                                             {"tree", voice.cultivar_name(best.cultivar)}});
        sheet.cautions.insert(sheet.cautions.end(), best.cautions.begin(), best.cautions.end());
      }
    }
  }
  model["has_best"] = told > 0;
  if (told == 0 && !advice.candidates.empty()) sheet.cautions = advice.candidates.front().cautions;  // of animals in the yard, say
  model["has_change"] = !least.ways.empty();
  model["change_title"] = least.ways.empty() ? "" : voice.count("explain.grows", static_cast<long>(least.ways.front().changes.size()), {{"tree", voice.cultivar_name(least.cultivar)}});
  model["changes"] = Model::list();
  if (!least.ways.empty())
    for (const Change& change : least.ways.front().changes)
      model["changes"].add(voice.say("ui.sheets.change_to", {{"question", voice.say("questions." + change.question + ".ask")},
                                                             {"answer", voice.say("questions." + change.question + ".answers." + change.answer)}}));
  model["has_also"] = !also.empty();
  model["also"] = also;
  model["refused"] = view_refused(voice, shelves.back().kinds, standing);
  model["has_refused"] = !model["refused"].items().empty();
  return sheet;
}

}  // namespace tenwinters
