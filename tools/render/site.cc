#include "render/site.h"

#include <algorithm>

#include "render/advice_view.h"
#include "render/fact_view.h"
#include "render/page.h"
#include "wire/wire.h"

namespace tenwinters {
namespace {

// The picker's address of the same yard: the answers after '#'.
std::string picker_fragment(const Place& place, const CommonYard& yard) {
  std::string text = "#place=" + place.id;
  for (const auto& [question, answer] : yard.answers) text += "&" + question + "=" + answer;
  return text;
}

Model view_yard_links(const Site& site, const Voice& voice, const std::string& up) {
  Model out = Model::list();
  for (std::size_t p = 0; p < voice.office.places.size(); ++p) {
    const Place& place = voice.office.places[p];
    Model& block = out.add();
    block["id"] = place.id;
    block["name"] = voice.of(place.name);
    block["record"] = record_line(voice, place);
    block["yards"] = Model::list();
    for (std::size_t y = 0; y < site.yards.yards.size(); ++y) {
      const std::string& id = site.yards.yards[y].id;
      Model& row = block["yards"].add();
      row["name"] = voice.say("ui.yards." + id + ".name");
      row["line"] = voice.say("ui.yards." + id + ".line");
      row["href"] = up + "yards/" + place.id + "-" + id + ".html";
      row["headline"] = headline(voice, group_by_kind(voice.catalog, site.yards.advice[p][y]));
    }
  }
  return out;
}

// What the winters of the place do to the tree that leads: as a ledger and on the cold ruler. Nothing where none grows.
void view_leader(const Voice& voice, const Place& place, const Advice& advice, Model& page) {
  page["leader"] = Model::list();
  const bool grows = !advice.candidates.empty() && advice.candidates.front().shelf != Shelf::not_here;
  const Cultivar* cultivar = grows ? find_cultivar(voice.catalog, advice.candidates.front().cultivar) : nullptr;
  page["has_leader"] = cultivar != nullptr;
  page["leader_title"] = cultivar == nullptr ? "" : voice.say("reading.leader_drawn", {{"name", cultivar->name}});
  if (cultivar == nullptr) return;
  page["leader"].add(view_ledger(voice, "leader-ledger", cultivar->name, advice.candidates.front().prospect, cultivar->traits.bearing_age_years.best));
  page["leader"].add(view_cold_ruler(voice, "leader-ruler", cultivar->name, cultivar->traits, {&place, 1}));
}

void add_yard_page(Site& site, const Voice& voice, const std::string& path, const Place& place, const CommonYard& yard, const Advice& advice) {
  const std::string up = way_up(path), name = voice.say("ui.yards." + yard.id + ".name"), line = voice.say("ui.yards." + yard.id + ".line");
  const std::vector<ShelfKinds> shelves = group_by_kind(voice.catalog, advice);
  Model page;
  page["place"] = voice.of(place.name);
  page["record"] = record_line(voice, place);
  page["name"] = name;
  page["line"] = line;
  page["headline"] = headline(voice, shelves);
  page["answers"] = view_answers(voice, advice);
  view_leader(voice, place, advice, page);
  page["picker"] = up + "index.html" + picker_fragment(place, yard);
  page["spot"] = view_spot(voice, advice);
  page["shelves"] = view_shelves(voice, shelves, up);
  const std::vector<std::string> cautions = cautions_of(shelves);
  page["has_cautions"] = !cautions.empty();
  page["cautions"] = view_cautions(voice, cautions);
  const std::string title = voice.say("ui.yard_title", {{"yard", name}, {"place", voice.of(place.name)}});
  add_page(site, voice, "yard.mustache", {path, title, line, "yards", false}, std::move(page));
}

}  // namespace

void add_home(Site& site, const Voice& voice) {
  Model page;
  page["places"] = view_yard_links(site, voice, "");
  add_page(site, voice, "home.mustache", {"index.html", voice.say("ui.home_title"), voice.say("ui.home_lede"), "home", true}, std::move(page));
}

void add_yard_pages(Site& site, const Voice& voice) {
  Model index;
  index["places"] = view_yard_links(site, voice, "../");
  add_page(site, voice, "yards.mustache", {"yards/index.html", voice.say("ui.yards_title"), voice.say("ui.yards_lede"), "yards", false},
           std::move(index));
  for (std::size_t p = 0; p < voice.office.places.size(); ++p)
    for (std::size_t y = 0; y < site.yards.yards.size(); ++y) {
      const Place& place = voice.office.places[p];
      const CommonYard& yard = site.yards.yards[y];
      const std::string path = "yards/" + place.id + "-" + yard.id + ".html";
      const Advice& advice = site.yards.advice[p][y];
      std::vector<std::string> about = {about_yard(place, yard.id)};
      if (!advice.candidates.empty()) about.push_back(advice.candidates.front().cultivar);  // it is drawn
      make_page(site, voice, path, std::move(about), [&voice, &place, &yard, &advice, path](Site& own) { add_yard_page(own, voice, path, place, yard, advice); });
    }
}

NamedWords::NamedWords(std::string_view script) {
  std::size_t from = script.find('\'');
  for (std::size_t to; from != std::string_view::npos && (to = script.find('\'', from + 1)) != std::string_view::npos; from = to)
    quoted_.insert(script.substr(from + 1, to - from - 1));
}

bool NamedWords::contains(std::string_view key) const {
  return quoted_.contains(key.ends_with(".one") || key.ends_with(".other") ? key.substr(0, key.rfind('.')) : key);
}

bool picker_says(std::string_view key, const NamedWords& script) {
  constexpr std::string_view kSections[] = {"language.", "units.", "types.", "questions.", "criteria.", "protections.", "cautions.",
                                            "certainty.", "limits.", "reasons.", "shelves.",
                                            // What reasons say of a yard or a tree in one word.
                                            "enums.use.", "enums.soil.", "enums.taste.", "enums.taste_wish.", "enums.thorns.", "enums.ornament."};
  constexpr std::string_view kNever[] = {".plural", ".how"};  // said on other pages or on paper alone
  const auto begins = [&](std::string_view start) { return key.starts_with(start); };
  if (std::any_of(std::begin(kNever), std::end(kNever), [&](std::string_view end) { return key.ends_with(end); })) return false;
  if (begins("language.months_short") || begins("reasons.plan_")) return false;
  return begins("ui.") ? script.contains(key) : std::any_of(std::begin(kSections), std::end(kSections), begins);
}

const std::vector<std::string>& template_folders() {
  static const std::vector<std::string> kFolders = {"", "assets", "assets/fonts", "js"};
  return kFolders;
}

}  // namespace tenwinters
