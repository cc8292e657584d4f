#include <algorithm>

#include "render/advice_view.h"
#include "render/fact_view.h"
#include "render/markup.h"
#include "render/sheets.h"
#include "render/verdict.h"

namespace tenwinters {
namespace {

constexpr std::size_t kMostCultivars = 8;  // as many rows as two pages hold

// The rows of the facts table that a class asks about.
constexpr std::string_view kFacts[] = {"sets_fruit", "seeds_alone", "seeds_with_pollen", "height", "spread", "thorns",
                                       "bearing_age", "container", "taste", "peel", "uses", "holds_weeks"};

Model view_facts(const Voice& voice, const Traits& traits) {
  References unused;  // the numbers of the sources stand on the page that the QR code leads to
  const Model all = view_traits(voice, traits, unused);
  Model out = Model::list();
  for (const std::string_view wanted : kFacts) {
    const std::string label = voice.say("ui.fact." + std::string(wanted));
    for (const Model& row : all.items())
      if (row.find("label")->text() == label) out.add(row);
  }
  return out;
}

Model view_cultivars(const Voice& voice, const YardAdvice& yards, const CitrusType& type, std::size_t& left_out) {
  struct Row { const Cultivar* cultivar; std::vector<Finding> found; int points; };
  std::vector<Row> rows;
  for (const Cultivar& cultivar : voice.catalog.cultivars) {
    if (cultivar.type != type.id) continue;
    Row row{&cultivar, {}, 0};
    for (std::size_t p = 0; p < voice.office.places.size(); ++p) {
      row.found.push_back(find_tree(yards, p, cultivar.id));
      if (const Finding& found = row.found.back(); found.candidate)  // least work first, then points
        row.points += (found.pot ? 1000 : found.candidate->shelf == Shelf::with_work ? 2000 : 3000) + found.candidate->points;
    }
    rows.push_back(std::move(row));
  }
  std::stable_sort(rows.begin(), rows.end(), [](const Row& a, const Row& b) { return a.points > b.points; });
  left_out = rows.size() > kMostCultivars ? rows.size() - kMostCultivars : 0;
  rows.resize(std::min(rows.size(), kMostCultivars));
  Model out = Model::list();
  for (const Row& row : rows) {
    Model& line = out.add();
    line["name"] = row.cultivar->name;
    line["cells"] = Model::list();
    const Candidate* named = nullptr;
    for (const Finding& found : row.found) {
      Model& cell = line["cells"].add();
      const std::string verdict = verdict_text(voice, found);
      cell["text"] = found.candidate ? voice.say("ui.sheets.cultivar_cell", {{"verdict", verdict}, {"harvests", voice.number(found.candidate->prospect.good_harvests.best, 1)}}) : verdict;
      cell["good"] = found.candidate != nullptr;
      if (!named) named = found.candidate;
    }
    line["ripe"] = named ? short_months(voice, named->prospect.ripe_from_month, named->prospect.ripe_to_month) : "–";
  }
  return out;
}

// Those of its trees where they do, else those it would bring along anywhere.
std::vector<std::string> cautions_for(const Voice& voice, const YardAdvice& yards, const CitrusType& type) {
  std::vector<std::string> ids;
  for (const std::vector<Advice>& at_place : yards.advice)
    for (const Advice& advice : at_place)
      for (const Candidate& candidate : advice.candidates) {
        const Cultivar* cultivar = find_cultivar(voice.catalog, candidate.cultivar);
        if (cultivar && cultivar->type == type.id) ids.insert(ids.end(), candidate.cautions.begin(), candidate.cautions.end());
      }
  return ids;
}

}  // namespace

SheetHead type_head(const Voice& voice, const CitrusType& type) {
  return {"kind-" + slug(type.id), voice.say("types." + type.id + ".plural"), voice.say("types." + type.id + ".line")};
}

Sheet type_sheet(const Voice& voice, const YardAdvice& yards, const CitrusType& type) {
  std::vector<std::size_t> places;
  for (std::size_t p = 0; p < voice.office.places.size() && p < 2; ++p) places.push_back(p);
  Sheet sheet{type_head(voice, type), "print_type.mustache", "types/" + type.id + ".html", cautions_for(voice, yards, type), false, places, {}};
  const std::string& name = sheet.head.title;
  Model& model = sheet.body;
  model["name"] = name;
  model["botanical"] = type.botanical;
  model["line"] = sheet.head.says;
  const std::string prose = "types/" + type.id;
  model["has_prose"] = voice.language.prose.contains(prose);
  model["prose"] = Model::prose(prose);
  model["places"] = Model::list();
  for (const Place& place : voice.office.places) model["places"].add(voice.of(place.name));
  std::size_t left_out = 0;
  model["rows"] = view_cultivars(voice, yards, type, left_out);
  model["has_more"] = left_out > 0;
  model["more"] = voice.count("ui.sheets.more_cultivars", static_cast<long>(left_out));
  model["ruler"] = view_cold_ruler(voice, "ruler", name, type.traits)["wide"];
  model["year"] = view_year_strip(voice, "year", name, type.traits)["wide"];
  model["facts"] = view_facts(voice, type.traits);
  return sheet;
}

}  // namespace tenwinters
