#include "render/advice_view.h"
#include "render/fact_view.h"
#include "render/sheets.h"
#include "render/verdict.h"

namespace tenwinters {
namespace {

constexpr std::size_t kMostNames = 2;  // cultivars named for a kind

std::string names_in(const Voice& voice, const Advice& advice, std::string_view type) {
  std::string text;
  std::size_t count = 0;
  for (const Candidate& candidate : advice.candidates) {
    const Cultivar* cultivar = find_cultivar(voice.catalog, candidate.cultivar);
    if (!cultivar || cultivar->type != type || candidate.shelf == Shelf::not_here || count == kMostNames) continue;
    text += (text.empty() ? "" : ", ") + cultivar->name;
    ++count;
  }
  return text;
}

Model table(const Voice& voice, const YardAdvice& yards, const std::vector<std::size_t>& places) {
  Model rows = Model::list();
  for (const CitrusType* type : in_trade_order(voice.catalog)) {
    Model& row = rows.add();
    row["kind"] = voice.say("types." + type->id + ".plural");
    row["cells"] = Model::list();
    Finding named;
    for (const std::size_t place : places) {
      const Finding found = find_kind(voice.catalog, yards, place, type->id);
      if (!named.candidate) named = found;
      Model& cell = row["cells"].add();
      cell["text"] = verdict_text(voice, found);
      cell["good"] = found.candidate != nullptr;
    }
    row["ask"] = named.candidate ? names_in(voice, *named.advice, type->id) : "–";
    row["ripe"] = named.candidate ? short_months(voice, named.candidate->prospect.ripe_from_month, named.candidate->prospect.ripe_to_month) : "–";
    const bool needs = type->traits.sets_fruit.is == SetsFruit::partner_needed;
    row["partner"] = voice.say(needs ? "ui.handout.partner_needed" : "ui.handout.partner_alone");
  }
  return rows;
}

std::vector<std::string> cautions_for(const Voice& voice, const YardAdvice& yards, const std::vector<std::size_t>& places) {
  std::vector<std::string> ids;
  for (const std::size_t place : places)
    for (const VerdictYard& reading : kVerdictYards)
      if (const Advice* advice = find_advice(yards, place, reading.yard))
        for (std::string& id : cautions_of(group_by_kind(voice.catalog, *advice))) ids.push_back(std::move(id));
  return ids;
}

}  // namespace

SheetHead county_head(const Voice& voice, const std::vector<std::size_t>& places) {
  SheetHead head{"which-citrus", voice.say("ui.handout.title"), voice.say("ui.handout.lede")};
  if (places.size() == voice.office.places.size()) return head;
  const Place& first = voice.office.places[places.front()];
  head.stem += "-" + first.id;
  head.title += " " + voice.of(first.name);
  return head;
}

Sheet county_sheet(const Voice& voice, const YardAdvice& yards, const std::vector<std::size_t>& places) {
  Sheet sheet{county_head(voice, places), "print_county.mustache", "index.html",
              cautions_for(voice, yards, places), false, places, {}};
  Model& model = sheet.body;
  model["places"] = Model::list();
  for (const std::size_t place : places) model["places"].add(voice.of(voice.office.places[place].name));
  model["rows"] = table(voice, yards, places);
  model["first"] = Model::list();
  model["first"].add(voice.say("ui.handout.first_sun", {{"n", "8"}}));
  for (const char* key : {"first_drain", "first_room", "first_pot", "first_partner"})
    model["first"].add(voice.say("ui.handout." + std::string(key)));
  model["freeze"] = Model::list();
  constexpr double kFruitFreezes = -2.2;  // 28 F, the rule of thumb printed on such sheets
  model["freeze"].add(voice.say("ui.handout.freeze_pick", {{"t", voice.figure(ArgKind::celsius, kFruitFreezes)}}));
  for (const char* key : {"freeze_pots", "freeze_water", "freeze_cover", "freeze_after"})
    model["freeze"].add(voice.say("ui.handout." + std::string(key)));
  model["plant"] = Model::list();
  for (const char* key : {"plant_when", "plant_fruit", "plant_law"}) model["plant"].add(voice.say("ui.handout." + std::string(key)));
  return sheet;
}

}  // namespace tenwinters
