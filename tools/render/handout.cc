#include "render/handout.h"

#include <algorithm>

#include "render/advice_view.h"
#include "render/assets.h"
#include "render/fact_view.h"
#include "render/page.h"

namespace tenwinters {
namespace {

constexpr std::size_t kMostColumns = 3;  // places side by side on one sheet
constexpr std::size_t kMostNames = 2;    // cultivars named for a kind

// The best candidate of a type in an advice, if it stands on one of the two good shelves.
const Candidate* best_of(const Catalog& catalog, const Advice& advice, std::string_view type) {
  for (const Candidate& candidate : advice.candidates) {
    if (candidate.shelf == Shelf::not_here) continue;
    const Cultivar* cultivar = find_cultivar(catalog, candidate.cultivar);
    if (cultivar && cultivar->type == type) return &candidate;
  }
  return nullptr;
}

// The yards the table speaks of, by their ids in yards.json, least work first.
struct Reading { std::string_view yard; bool pot; };
constexpr Reading kReadings[] = {{"no_work", false}, {"open_ground", false}, {"patio_pot", true}};

class Sheet {
 public:
  Sheet(const Voice& voice, const YardAdvice& yards, std::vector<std::size_t> places)
      : voice_(voice), yards_(yards), places_(std::move(places)) {}

  Model table() const {
    std::vector<const CitrusType*> types;
    for (const CitrusType& type : voice_.catalog.types) types.push_back(&type);
    std::sort(types.begin(), types.end(), [](const CitrusType* a, const CitrusType* b) { return a->trade_order < b->trade_order; });
    Model rows = Model::list();
    for (const CitrusType* type : types) {
      Model& row = rows.add();
      row["kind"] = voice_.say("types." + type->id + ".plural");
      row["cells"] = Model::list();
      const Candidate* named = nullptr;
      const Advice* source = nullptr;
      for (const std::size_t place : places_) {
        const Candidate* found = nullptr;
        Model& cell = row["cells"].add();
        cell["text"] = verdict(place, type->id, found, source, named);
        cell["good"] = found != nullptr;
      }
      row["ask"] = named ? names_in(*source, type->id) : "";
      const int from = named ? named->prospect.ripe_from_month : 0, to = named ? named->prospect.ripe_to_month : 0;
      row["ripe"] = from > 0 ? short_months(from, to) : "";
      const bool needs = type->traits.sets_fruit.is == SetsFruit::partner_needed;
      row["partner"] = voice_.say(needs ? "ui.handout.partner_needed" : "ui.handout.partner_alone");
    }
    return rows;
  }

  std::vector<std::string> cautions() const {
    std::vector<std::string> ids;
    for (const std::size_t place : places_)
      for (const Reading& reading : kReadings)
        if (const Advice* advice = find(place, reading.yard))
          for (std::string& id : cautions_of(group_by_kind(voice_.catalog, *advice))) ids.push_back(std::move(id));
    std::sort(ids.begin(), ids.end());
    ids.erase(std::unique(ids.begin(), ids.end()), ids.end());
    return ids;
  }

 private:
  const Advice* find(std::size_t place, std::string_view yard) const {
    for (std::size_t y = 0; y < yards_.yards.size(); ++y)
      if (yards_.yards[y].id == yard) return &yards_.advice[place][y];
    return nullptr;
  }

  std::string verdict(std::size_t place, std::string_view type, const Candidate*& found, const Advice*& source, const Candidate*& named) const {
    for (const Reading& reading : kReadings) {
      const Advice* advice = find(place, reading.yard);
      found = advice ? best_of(voice_.catalog, *advice, type) : nullptr;
      if (!found) continue;
      if (!named) named = found, source = advice;
      const long nights = voice_.whole(found->prospect.work_nights.best);
      if (reading.pot) return voice_.say("ui.handout.says_pot");
      return found->shelf == Shelf::will_do || nights == 0 ? voice_.say("ui.handout.says_yes") : voice_.count("ui.handout.nights", nights);
    }
    return voice_.say("ui.handout.says_no");
  }

  std::string names_in(const Advice& advice, std::string_view type) const {
    std::string text;
    std::size_t count = 0;
    for (const Candidate& candidate : advice.candidates) {
      const Cultivar* cultivar = find_cultivar(voice_.catalog, candidate.cultivar);
      if (!cultivar || cultivar->type != type || candidate.shelf == Shelf::not_here || count == kMostNames) continue;
      text += (text.empty() ? "" : ", ") + cultivar->name;
      ++count;
    }
    return text;
  }

  std::string short_months(int from, int to) const {
    const std::string first = voice_.say("language.months_short." + std::to_string(from));
    return from == to ? first : first + "\u2013" + voice_.say("language.months_short." + std::to_string(to));
  }

  const Voice& voice_;
  const YardAdvice& yards_;
  const std::vector<std::size_t> places_;
};

Model view_sheet(const Voice& voice, const YardAdvice& yards, const std::vector<std::size_t>& places, const std::string& today) {
  const Sheet sheet(voice, yards, places);
  Model model;
  view_office(voice, model);
  model["places"] = Model::list();
  std::string records;
  bool invented = voice.office.invented;
  for (const std::size_t place : places) {
    model["places"].add(voice.of(voice.office.places[place].name));
    records += (records.empty() ? "" : " ") + record_line(voice, voice.office.places[place]);
    invented = invented || voice.office.places[place].winters.invented;
  }
  model["invented"] = invented;
  model["has_address"] = !voice.office.address.empty();
  model["address"] = voice.office.address;
  model["rows"] = sheet.table();
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
  model["cautions"] = view_cautions(voice, sheet.cautions());
  model["sources"] = voice.say("ui.handout.sources_line", {{"types", std::to_string(voice.catalog.types.size())},
                                                           {"cultivars", std::to_string(voice.catalog.cultivars.size())},
                                                           {"rootstocks", std::to_string(voice.catalog.rootstocks.size())},
                                                           {"records", records}});
  model["printed"] = voice.say("ui.handout.printed", {{"date", today}});
  return model;
}

}  // namespace

Rendered render_handouts(const SiteInput& input, const std::vector<Paper>& papers, const std::string& today) {
  std::map<std::string, std::string> texts, beside;
  for (const auto& [path, text] : input.files) {
    if (path.find('/') == std::string::npos) texts.emplace(path, text);
    if (path.rfind("assets/", 0) == 0) beside.emplace(path.substr(7), text);
  }
  Rendered out;
  Templates templates(std::move(texts), input.folder);
  Assets assets;
  const auto text_of = [&](const std::string& name) {
    const auto file = beside.find(name);
    if (file != beside.end()) return file->second;
    out.faults.push_back({input.folder + "/assets/" + name, 0, 0, "the file is missing", "", false});
    return std::string();
  };
  const std::string style = assets.add_style("print.css", text_of("print.css"), beside, input.folder + "/assets", out.faults);
  assets.add_plain("fonts/OFL.txt", text_of("fonts/OFL.txt"));

  const auto yards_file = input.files.find("yards.json");
  const YardAdvice yards = advise_yards(input.catalog, input.office,
                                        read_yards(yards_file == input.files.end() ? "" : yards_file->second,
                                                   input.folder + "/yards.json", input.catalog, out.faults));
  std::vector<std::vector<std::size_t>> sheets(1);
  for (std::size_t p = 0; p < input.office.places.size(); ++p) {
    if (input.office.places.size() > kMostColumns && p > 0) sheets.emplace_back();
    sheets.back().push_back(p);
  }
  for (const std::string& code : input.office.languages) {
    const auto language = std::find_if(input.languages.begin(), input.languages.end(), [&](const Language& l) { return l.code == code; });
    if (language == input.languages.end()) continue;
    const Voice voice{input.catalog, input.office, *language, input.units};
    for (const std::vector<std::size_t>& places : sheets) {
      Model model = view_sheet(voice, yards, places, today);
      model["lang"] = code;
      model["style"] = style;
      for (const Paper paper : papers) {
        model["paper"] = std::string(name_of(paper));
        const std::string place = sheets.size() > 1 ? "-" + input.office.places[places.front()].id : "";
        out.files.push_back({"which-citrus-" + code + place + "-" + std::string(name_of(paper)) + ".html",
                             templates.render("handout.mustache", model, *language)});
      }
    }
  }
  out.files.insert(out.files.end(), assets.files().begin(), assets.files().end());
  std::sort(out.files.begin(), out.files.end(), [](const OutputFile& a, const OutputFile& b) { return a.path < b.path; });
  out.faults.insert(out.faults.end(), templates.faults().begin(), templates.faults().end());
  sort_diagnostics(out.faults);
  return out;
}

}  // namespace tenwinters
