#include "render/advice_view.h"

#include <algorithm>
#include <set>

#include "draw/draw.h"

namespace tenwinters {
namespace {

std::string range_text(const Voice& voice, const Interval& interval) {
  const std::string low = voice.number(interval.low, 1), high = voice.number(interval.high, 1);
  return low == high ? "" : voice.say("ui.range", {{"low", low}, {"high", high}});
}

void view_figures(const Voice& voice, const Candidate& candidate, Model& into) {
  const Prospect& p = candidate.prospect;
  const auto add = [&](std::string value, std::string_view label, std::string range) {
    Model& row = into["figures"].add();
    row["value"] = std::move(value);
    row["label"] = voice.say(label);
    row["has_range"] = !range.empty();
    row["range"] = std::move(range);
  };
  add(voice.number(p.good_harvests.best, 1), "ui.fig_harvests", range_text(voice, p.good_harvests));
  add(voice.chance(p.alive_at_ten.best), "ui.fig_alive", "");
  add(nights_text(voice, p.work_nights.best), "ui.fig_nights", "");
  const bool ripens = p.ripe_from_month > 0;
  add(ripens ? voice.months(p.ripe_from_month, p.ripe_to_month) : voice.say("ui.never"), "ui.fig_ripe", "");
}

void view_why(const Voice& voice, const Candidate& candidate, Model& into) {
  into["why_title"] = voice.say("ui.why_points", {{"n", std::to_string(candidate.points)}});
  int most = 1;
  for (const Contribution& c : candidate.contributions) most = std::max(most, c.of);
  into["why"] = Model::list();
  for (const Contribution& c : candidate.contributions) {
    Model& row = into["why"].add();
    row["criterion"] = voice.say("criteria." + c.criterion);
    row["points"] = std::to_string(c.points);
    row["of"] = std::to_string(c.of);
    row["bar"] = draw::why_bar(c.points, c.of, most);
    row["text"] = voice.reason(c.reason);
  }
}

// The reason, and for a local rule what the authority says and whom to ask.
std::string limit_text(const Voice& voice, const Limit& limit) {
  std::string text = voice.reason(limit.reason);
  for (const Arg& arg : limit.reason.args)
    for (const LocalRule& rule : voice.office.rules)
      if (arg.name == "rule" && arg.id == rule.id)
        text += " " + voice.say("ui.rule_says", {{"says", voice.of(rule.says)}, {"ask", voice.of(rule.ask)}});
  return text;
}

void view_limits(const Voice& voice, const std::vector<Limit>& limits, Model& into) {
  into["noes"] = Model::list();
  into["unknowns"] = Model::list();
  for (const Limit& limit : limits) {
    if (limit.verdict == Verdict::pass) continue;
    Model& row = into[limit.verdict == Verdict::fail ? Name("noes") : Name("unknowns")].add();
    row["title"] = voice.say("limits." + limit.id);
    row["text"] = limit_text(voice, limit);
  }
}

void view_signs(const Voice& voice, const std::vector<std::string>& ids, Model& out) {
  out = Model::list();
  for (const std::string& id : ids) {
    Model& row = out.add();
    row["id"] = id;
    row["sign"] = voice.say("cautions." + id + ".sign");
  }
}

// Cautions that hold for the best of every kind on a shelf of two or more: said once, above them.
std::vector<std::string> common_cautions(const ShelfKinds& shelf) {
  std::vector<std::string> common;
  if (shelf.shelf == Shelf::not_here || shelf.kinds.size() < 2) return common;
  for (const std::string& id : shelf.kinds.front().candidates.front()->cautions)
    if (std::all_of(shelf.kinds.begin(), shelf.kinds.end(), [&](const Kind& kind) {
          const std::vector<std::string>& own = kind.candidates.front()->cautions;
          return std::find(own.begin(), own.end(), id) != own.end();
        }))
      common.push_back(id);
  return common;
}

Model view_kind(const Voice& voice, const Kind& kind, Shelf shelf, const std::vector<std::string>& said, const std::string& up) {
  const Candidate& best = *kind.candidates.front();
  Model out;
  out["id"] = std::string(name_of(shelf)) + "-" + kind.type;
  out["name"] = voice.type_name(kind.type);
  out["href"] = up + "types/" + kind.type + ".html";
  out["line"] = voice.say("types." + kind.type + ".line");
  out["best"] = voice.cultivar_name(best.cultivar);
  out["best_href"] = up + "cultivars/" + best.cultivar + ".html";
  out["stock"] = stock_line(voice, best);
  view_figures(voice, best, out);
  view_why(voice, best, out);
  view_limits(voice, best.limits, out);
  out["here"] = shelf != Shelf::not_here;
  out["has_notes"] = !best.notes.empty();
  out["notes"] = Model::list();
  for (const Reason& note : best.notes) out["notes"].add(voice.reason(note));
  std::vector<std::string> own;
  for (const std::string& id : best.cautions)
    if (std::find(said.begin(), said.end(), id) == said.end()) own.push_back(id);
  out["has_cautions"] = !own.empty();
  view_signs(voice, own, out["cautions"]);
  out["has_others"] = kind.candidates.size() > 1;
  out["others_title"] = voice.count("ui.others", static_cast<long>(kind.candidates.size() - 1));
  out["others"] = Model::list();
  for (std::size_t i = 1; i < kind.candidates.size(); ++i) {
    const Candidate& other = *kind.candidates[i];
    Model& row = out["others"].add();
    row["name"] = voice.cultivar_name(other.cultivar);
    row["href"] = up + "cultivars/" + other.cultivar + ".html";
    row["harvests"] = voice.number(other.prospect.good_harvests.best, 1);
    row["alive"] = voice.chance(other.prospect.alive_at_ten.best);
    row["nights"] = nights_text(voice, other.prospect.work_nights.best);
    row["points"] = std::to_string(other.points);
  }
  return out;
}

}  // namespace

std::vector<const CitrusType*> in_trade_order(const Catalog& catalog) {
  std::vector<const CitrusType*> types;
  for (const CitrusType& type : catalog.types) types.push_back(&type);
  std::sort(types.begin(), types.end(), [](const CitrusType* a, const CitrusType* b) { return a->trade_order < b->trade_order; });
  return types;
}

std::vector<std::string> cultivars_of(const Catalog& catalog, const CitrusType& type) {
  std::vector<std::string> ids;
  for (const Cultivar& cultivar : catalog.cultivars)
    if (cultivar.type == type.id) ids.push_back(cultivar.id);
  return ids;
}

std::vector<ShelfKinds> group_by_kind(const Catalog& catalog, const Advice& advice) {
  std::vector<ShelfKinds> shelves = {{Shelf::will_do, {}}, {Shelf::with_work, {}}, {Shelf::not_here, {}}};
  for (const Candidate& candidate : advice.candidates) {
    const Cultivar* cultivar = find_cultivar(catalog, candidate.cultivar);
    if (!cultivar) continue;
    std::vector<Kind>& kinds = shelves[static_cast<std::size_t>(candidate.shelf)].kinds;
    auto kind = std::find_if(kinds.begin(), kinds.end(), [&](const Kind& k) { return k.type == cultivar->type; });
    if (kind == kinds.end()) kind = kinds.insert(kinds.end(), Kind{cultivar->type, {}});
    kind->candidates.push_back(&candidate);
  }
  return shelves;
}

std::string headline(const Voice& voice, const std::vector<ShelfKinds>& shelves) {
  std::set<std::string> seen;
  long counts[2] = {0, 0};
  for (std::size_t i = 0; i < 2; ++i)
    for (const Kind& kind : shelves[i].kinds) counts[i] += seen.insert(kind.type).second ? 1 : 0;
  if (counts[0] > 0 && counts[1] > 0)
    return voice.count("ui.headline_both", counts[0], {{"more", std::to_string(counts[1])}});
  if (counts[0] > 0) return voice.count("ui.headline_will", counts[0]);
  if (counts[1] > 0) return voice.count("ui.headline_work", counts[1]);
  return voice.say("ui.headline_none");
}

std::string nights_text(const Voice& voice, double nights) {
  const long whole = voice.whole(nights);
  if (whole == 0) return voice.say(Voice::as_wired(nights) >= 0.05 ? "ui.nights_rare" : "ui.nights_none");
  return voice.count("ui.nights", whole);
}

std::string stock_line(const Voice& voice, const Candidate& candidate) {
  const std::string stock = voice.rootstock_name(candidate.rootstock);
  if (candidate.protection.empty() || candidate.protection == "none")
    return voice.say("ui.on_stock", {{"stock", stock}});
  return voice.say("ui.on_stock_with",
                   {{"stock", stock}, {"care", voice.say("protections." + candidate.protection + ".name")}});
}

Model view_shelves(const Voice& voice, const std::vector<ShelfKinds>& shelves, const std::string& up) {
  Model out = Model::list();
  for (const ShelfKinds& shelf : shelves) {
    Model& row = out.add();
    const std::string id(name_of(shelf.shelf));
    row["id"] = id;
    row["title"] = voice.say("shelves." + id);
    row["empty"] = shelf.kinds.empty();
    row["count"] = voice.count("ui.kinds", static_cast<long>(shelf.kinds.size()));
    row["refused"] = shelf.shelf == Shelf::not_here;
    row["kinds"] = Model::list();
    const std::vector<std::string> common = common_cautions(shelf);
    row["has_common"] = !common.empty();
    view_signs(voice, common, row["common"]);
    for (const Kind& kind : shelf.kinds) row["kinds"].add(view_kind(voice, kind, shelf.shelf, common, up));
  }
  return out;
}

Model view_spot(const Voice& voice, const Advice& advice) {
  Model out;
  view_limits(voice, advice.yard, out);
  out["refused"] = !out["noes"].items().empty();
  out["open"] = !out["unknowns"].items().empty();
  out["has_notes"] = !advice.notes.empty();
  out["notes"] = Model::list();
  for (const Reason& note : advice.notes) out["notes"].add(voice.reason(note));
  return out;
}

std::vector<std::string> cautions_of(const std::vector<ShelfKinds>& shelves) {
  std::set<std::string> ids;
  for (const ShelfKinds& shelf : shelves) {
    if (shelf.shelf == Shelf::not_here) continue;
    for (const Kind& kind : shelf.kinds)
      for (const Candidate* candidate : kind.candidates) ids.insert(candidate->cautions.begin(), candidate->cautions.end());
  }
  return {ids.begin(), ids.end()};
}

Model view_cautions(const Voice& voice, const std::vector<std::string>& ids) {
  std::vector<const Caution*> cautions;
  for (const std::string& id : ids)
    if (const Caution* caution = find_caution(voice.catalog, id)) cautions.push_back(caution);
  std::stable_sort(cautions.begin(), cautions.end(),
                   [](const Caution* a, const Caution* b) { return a->severity > b->severity; });
  Model out = Model::list();
  for (const Caution* caution : cautions) {
    Model& row = out.add();
    row["id"] = caution->id;
    row["sign"] = voice.say("cautions." + caution->id + ".sign");
    row["text"] = voice.say("cautions." + caution->id + ".text");
    row["grave"] = caution->severity == Severity::high;
  }
  return out;
}

Model view_answers(const Voice& voice, const Advice& advice) {
  Model out = Model::list();
  for (const Question& question : voice.catalog.questions) {
    const auto answer = advice.answers.find(question.id);
    if (answer == advice.answers.end() || answer->second == kDontKnow) continue;
    Model& row = out.add();
    row["ask"] = voice.say("questions." + question.id + ".ask");
    row["answer"] = voice.say("questions." + question.id + ".answers." + answer->second);
  }
  return out;
}

}  // namespace tenwinters
