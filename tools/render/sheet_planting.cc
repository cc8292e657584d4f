#include <algorithm>
#include <cmath>

#include "render/advice_view.h"
#include "render/fact_view.h"
#include "render/sheets.h"

namespace tenwinters {
namespace {

// The parts of the sheet, in order: prose at print/planting/ID, its title at ui.sheets.planting.ID.
constexpr std::string_view kParts[] = {"before", "when", "plant", "year_1", "year_2", "year_3", "pruning", "after_freeze"};

// What a person who digs, plants, waters, prunes and carries trees about must be warned of.
constexpr Situation kSituations[] = {Situation::digs, Situation::thorny, Situation::heavy_container, Situation::ladder,
                                     Situation::sprays, Situation::moves_plants};

// "In half of the winters the last freeze came by March 3, in nine of ten by March 20."
std::string last_freezes(const Voice& voice, const Place& place) {
  std::vector<int> days;
  for (const Winter& winter : place.winters.winters) days.push_back(winter.last_freeze_day);  // -1, none, comes first
  if (days.empty()) return voice.say("ui.sheets.no_record");
  std::sort(days.begin(), days.end());
  // The day by which at least that share of the winters have had their last freeze.
  const auto by = [&](double share) { return days[static_cast<std::size_t>(std::ceil(share * static_cast<double>(days.size()))) - 1]; };
  const bool south = place.winters.latitude_deg < 0;
  const auto said = [&](int day) { return day < 0 ? std::string() : day_text(voice, day, south); };
  if (days.back() < 0) return voice.say("ui.sheets.never_froze", {{"n", std::to_string(days.size())}});
  if (by(0.5) < 0) return voice.say("ui.sheets.seldom_froze", {{"last", said(days.back())}, {"n", std::to_string(days.size())}});
  return voice.say("ui.sheets.last_freezes", {{"half", said(by(0.5))}, {"tenth", said(by(0.9))}, {"last", said(days.back())}, {"n", std::to_string(days.size())}});
}

}  // namespace

SheetHead planting_head(const Voice& voice, std::size_t place) {
  const Place& at = voice.office.places[place];
  return {"planting-" + at.id, voice.say("ui.sheets.planting_title", {{"place", voice.of(at.name)}}), voice.say("ui.sheets.planting_says")};
}

Sheet planting_sheet(const Voice& voice, std::size_t place) {
  const Place& at = voice.office.places[place];
  std::vector<std::string> cautions;
  for (const Caution& caution : voice.catalog.cautions)
    if (std::any_of(caution.when.begin(), caution.when.end(),
                    [](Situation s) { return std::find(std::begin(kSituations), std::end(kSituations), s) != std::end(kSituations); }))
      cautions.push_back(caution.id);
  const SheetHead head = planting_head(voice, place);
  Sheet sheet{head, "print_planting.mustache", "print/" + head.stem + ".html", std::move(cautions), true, {place}, {}};
  Model& model = sheet.body;
  model["freezes"] = last_freezes(voice, at);
  model["parts"] = Model::list();
  for (const std::string_view part : kParts) {
    const std::string prose = "print/planting/" + std::string(part);
    if (!voice.language.prose.contains(prose)) continue;  // an office may leave a part out
    Model& row = model["parts"].add();
    row["heading"] = voice.say("ui.sheets.planting." + std::string(part));
    row["prose"] = Model::prose(prose);
    row["dated"] = part == "when";
  }
  return sheet;
}

}  // namespace tenwinters
