#include "render/key_text.h"
#include "render/sheets.h"

namespace tenwinters {

SheetHead key_head(const Voice& voice, std::size_t place) {
  const Place& at = voice.office.places[place];
  return {"key-" + at.id, voice.say("key.title", {{"place", voice.of(at.name)}}), voice.say("key.how")};
}

Sheet key_sheet(const Voice& voice, std::size_t place, const PaperKey& key) {
  const Place& at = voice.office.places[place];
  // Of the cautions those that concern what its trees bear; a key asks nobody about pets, pots or medicine.
  std::vector<std::string> cautions;
  for (const Caution& caution : voice.catalog.cautions)
    for (const Situation when : caution.when)
      if (when == Situation::medicine || when == Situation::skin_and_sun || when == Situation::pets || when == Situation::thorny ||
          when == Situation::digs || when == Situation::moves_plants || when == Situation::protects)
        cautions.push_back(caution.id);
  Sheet sheet{key_head(voice, place), "print_key.mustache", "index.html#place=" + at.id, std::move(cautions), false, {place}, {}};
  Model& model = sheet.body;
  model["steps"] = Model::list();
  for (const KeyStep& step : key_steps(voice, key)) {
    Model& row = model["steps"].add();
    row["question"] = step.question;
    row["yes"] = step.yes.answer;
    row["yes_leads"] = step.yes.leads;
    row["no"] = step.no.answer;
    row["no_leads"] = step.no.leads;
  }
  model["agrees"] = key_agreement(voice, key);
  return sheet;
}

}  // namespace tenwinters
