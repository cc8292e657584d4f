// The catalogue's pages: types, cultivars, rootstocks, sources.
#include <algorithm>
#include <map>

#include "render/advice_view.h"
#include "render/fact_view.h"
#include "render/markup.h"
#include "render/page.h"
#include "tenwinters/calendar.h"

namespace tenwinters {
namespace {

std::string joined(const std::vector<std::string>& names) {
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "" : ", ") + name;
  return text;
}

void view_prose(const Voice& voice, const std::string& key, Model& model) {
  model["has_prose"] = voice.language.prose.contains(key);
  model["prose"] = Model::prose(key);
}

// HTML of text in one language on a page that may be in another.
std::string in_language(const Voice& voice, const std::string& code, const std::string& text) {
  if (code == voice.language.code || text.empty()) return escape_html(text);
  return "<span lang=\"" + code + "\">" + escape_html(text) + "</span>";
}

// The names of the catalogue's files are those of the trade in English.
std::string trade_names(const Voice& voice, const std::vector<std::string>& names) { return in_language(voice, "en", joined(names)); }

void view_names(const Voice& voice, const std::string& botanical, const std::vector<std::string>& botanical_synonyms,
                const std::string& synonyms, const std::vector<std::string>& misspellings, Model& model) {
  model["botanical"] = botanical;
  model["has_accepted"] = false;
  model["has_botanical_synonyms"] = !botanical_synonyms.empty();
  model["botanical_synonyms"] = joined(botanical_synonyms);
  model["has_synonyms"] = !synonyms.empty();
  model["synonyms"] = synonyms;
  model["has_misspellings"] = !misspellings.empty();
  model["misspellings"] = trade_names(voice, misspellings);
}

// What a type is called besides: in the reader's language first, then as the trade has it, then in the others.
std::string names_of_type(const Site& site, const Voice& voice, const CitrusType& type) {
  const auto also = [&](const Language& language) {
    const std::string key = "types." + type.id + ".also";
    return language.has(key) ? in_language(voice, language.code, language.say(key)) : "";
  };
  std::vector<std::string> parts = {also(voice.language), trade_names(voice, type.synonyms)};
  for (const Language* other : site.languages)
    if (other->code != voice.language.code) parts.push_back(also(*other));
  std::erase(parts, "");
  return joined(parts);
}

// How one cultivar does at each place in each common yard.
Model view_here(const Site& site, const Voice& voice, const std::string& cultivar, const std::string& up) {
  Model out = Model::list();
  for (std::size_t p = 0; p < voice.office.places.size(); ++p) {
    const Place& place = voice.office.places[p];
    Model& block = out.add();
    block["place"] = voice.of(place.name);
    block["rows"] = Model::list();
    block["ledger"] = Model::list();  // of the yard in which it does best
    const Candidate* best = nullptr;
    std::string best_yard;
    for (std::size_t y = 0; y < site.yards.yards.size(); ++y) {
      const Candidate* candidate = find_candidate(site.yards.advice[p][y], cultivar);
      if (!candidate) continue;
      const CommonYard& yard = site.yards.yards[y];
      Model& row = block["rows"].add();
      row["yard"] = voice.say("ui.yards." + yard.id + ".name");
      row["href"] = up + "yards/" + place.id + "-" + yard.id + ".html";
      row["shelf"] = voice.say("shelves." + std::string(name_of(candidate->shelf)));
      row["shelf_id"] = std::string(name_of(candidate->shelf));
      row["harvests"] = voice.number(candidate->prospect.good_harvests.best, 1);
      row["alive"] = voice.chance(candidate->prospect.alive_at_ten.best);
      row["nights"] = nights_text(voice, candidate->prospect.work_nights.best);
      if (candidate->shelf != Shelf::not_here && (!best || candidate->prospect.good_harvests.best > best->prospect.good_harvests.best))
        best = candidate, best_yard = voice.say("ui.yards." + yard.id + ".name");
    }
    if (best)
      block["ledger"].add(view_ledger(voice, "ledger-" + place.id, voice.of(place.name) + ", " + best_yard, best->prospect,
                                      find_cultivar(voice.catalog, cultivar)->traits.bearing_age_years.best));
  }
  return out;
}

Model view_cultivar_links(const Voice& voice, const std::vector<std::string>& ids, const std::string& up) {
  Model out = Model::list();
  for (const std::string& id : ids) {
    const Cultivar* cultivar = find_cultivar(voice.catalog, id);
    if (!cultivar) continue;
    Model& row = out.add();
    row["name"] = cultivar->name;
    row["type"] = voice.type_name(cultivar->type);
    row["href"] = up + "cultivars/" + id + ".html";
  }
  return out;
}

// Words are text, what fills them is HTML: `said` holds the byte 1 where the first of `html` goes, 2 for the second.
// No file of words may hold such a byte.
std::string with_html(const std::string& said, std::initializer_list<std::string> html) {
  std::string out;
  for (const char c : escape_html(said)) {
    const auto place = static_cast<std::size_t>(static_cast<unsigned char>(c));
    if (place >= 1 && place <= html.size()) out += html.begin()[place - 1];
    else out += c;
  }
  return out;
}

// "Duncan, Dancy and Temple", each already HTML.
std::string listed(const Voice& voice, const std::vector<std::string>& names) {
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0 && i + 1 == names.size()) text = with_html(voice.say("ui.and", {{"first", "\1"}, {"last", "\2"}}), {text, names[i]});
    else text += (i == 0 ? "" : ", ") + names[i];
  }
  return text;
}

std::string parent_link(const Site& site, const Voice& voice, const std::string& id, const std::string& up) {
  const auto link = [&](const char* folder, const std::string& name) {
    return "<a href=\"" + up + folder + "/" + id + ".html\">" + escape_html(name) + "</a>";
  };
  // A type first: some kinds bear the name of their type, and it alone is said in the reader's language.
  if (find_type(voice.catalog, id)) return link("types", voice.type_name(id));
  if (find_cultivar(voice.catalog, id)) return link("cultivars", voice.cultivar_name(id));
  const auto forebear = site.input.descent.forebears.find(id);
  return escape_html(forebear == site.input.descent.forebears.end() ? id : voice.of(forebear->second.name));
}

// What a kind was bred or sprung from, and the wild species behind it: `descent` is HTML of whole sentences.
void view_descent(const Site& site, const Voice& voice, const std::string& id, const std::string& type, const std::string& up, Model& model) {
  const Descent& descent = site.input.descent;
  std::vector<std::string> parents, wild;
  for (const std::string& parent : parents_of(descent, id)) {
    const auto forebear = descent.forebears.find(parent);
    const bool told_below = forebear != descent.forebears.end() && forebear->second.wild;
    if (parent != type && !told_below) parents.push_back(parent_link(site, voice, parent, up));
  }
  for (const Forebear* one : wild_ancestors(descent, id))
    wild.push_back(escape_html(voice.of(one->name)) + " (<i lang=\"la\">" + escape_html(one->botanical) + "</i>)");
  std::string text;
  if (!parents.empty()) text = with_html(voice.say("ui.descent_parents", {{"parents", "\1"}}), {listed(voice, parents)});
  if (!wild.empty()) text += (text.empty() ? "" : " ") + with_html(voice.count("ui.descent_wild", static_cast<long>(wild.size()), {{"wild", "\1"}}), {listed(voice, wild)});
  model["has_descent"] = !text.empty();
  model["descent"] = text;
}

// What a plant is called, for programs.
std::vector<std::string> plant_names(const std::string& name, const std::string& botanical, const std::vector<std::string>& also) {
  std::vector<std::string> names = {name, botanical};
  names.insert(names.end(), also.begin(), also.end());
  return names;
}

void add_type_page(Site& site, const Voice& voice, const std::string& path, const CitrusType& type) {
  const std::string up = way_up(path);
  const std::string plural = voice.say("types." + type.id + ".plural"), line = voice.say("types." + type.id + ".line");
  References references;
  Model page;
  page["name"] = plural;
  page["line"] = line;
  view_prose(voice, "types/" + type.id, page);
  view_names(voice, type.botanical, type.botanical_synonyms, names_of_type(site, voice, type), {}, page);
  page["has_accepted"] = true;
  page["accepted"]["evidence"] = references.cite(voice, type.naming);
  view_descent(site, voice, type.id, type.id, up, page);
  page["ruler"] = view_cold_ruler(voice, "ruler", plural, type.traits);
  page["year"] = view_year_strip(voice, "year", plural, type.traits);
  page["cold"] = view_cold(voice, type.traits, references);
  page["facts"] = view_traits(voice, type.traits, references);
  const std::vector<std::string> ids = cultivars_of(voice.catalog, type);
  page["has_cultivars"] = !ids.empty();
  page["cultivars"] = view_cultivar_links(voice, ids, up);
  page["references"] = references.list(voice, up);
  PageHead head{path, plural, line, "types", false};
  head.plant_names = plant_names(plural, type.botanical, type.synonyms);
  add_page(site, voice, "type.mustache", std::move(head), std::move(page));
}

void add_cultivar_page(Site& site, const Voice& voice, const std::string& path, const CitrusType& type, const Cultivar& cultivar) {
  const std::string up = way_up(path);
  const std::string kind = voice.type_name(type.id);
  const std::string line = voice.say("ui.cultivar_line", {{"name", cultivar.name}, {"kind", kind}});
  References references;
  Model page;
  page["name"] = cultivar.name;
  page["kind"] = kind;
  page["kind_href"] = up + "types/" + type.id + ".html";
  page["kind_line"] = voice.say("types." + type.id + ".line");
  view_prose(voice, "cultivars/" + cultivar.id, page);
  view_names(voice, cultivar.botanical.empty() ? type.botanical : cultivar.botanical, {}, trade_names(voice, cultivar.synonyms), cultivar.misspellings, page);
  view_descent(site, voice, cultivar.id, type.id, up, page);
  page["has_look_alikes"] = !cultivar.look_alikes.empty();
  page["look_alikes"] = view_cultivar_links(voice, cultivar.look_alikes, up);
  page["has_partners"] = !cultivar.partners.empty();
  page["partners"] = view_cultivar_links(voice, cultivar.partners, up);
  page["has_not_partners"] = !cultivar.not_partners.empty();
  page["not_partners"] = view_cultivar_links(voice, cultivar.not_partners, up);
  page["here"] = view_here(site, voice, cultivar.id, up);
  page["ruler"] = view_cold_ruler(voice, "ruler", cultivar.name, cultivar.traits);
  page["year"] = view_year_strip(voice, "year", cultivar.name, cultivar.traits);
  page["cold"] = view_cold(voice, cultivar.traits, references);
  page["facts"] = view_traits(voice, cultivar.traits, references);
  page["references"] = references.list(voice, up);
  PageHead head{path, cultivar.name, line, "cultivars", false};
  head.plant_names = plant_names(cultivar.name, cultivar.botanical.empty() ? type.botanical : cultivar.botanical, cultivar.synonyms);
  add_page(site, voice, "cultivar.mustache", std::move(head), std::move(page));
}

void add_all_rootstocks(Site& site, const Voice& voice, const std::string& path) {
  References references;
  Model page;
  page["rootstocks"] = Model::list();
  for (const Rootstock& rootstock : voice.catalog.rootstocks) {
    Model& row = page["rootstocks"].add();
    row["id"] = rootstock.id;
    row["name"] = rootstock.name;
    row["line"] = voice.say("rootstocks." + rootstock.id + ".line");
    row["botanical"] = rootstock.botanical;
    row["has_synonyms"] = !rootstock.synonyms.empty();
    row["synonyms"] = trade_names(voice, rootstock.synonyms);
    row["facts"] = view_rootstock(voice, rootstock, references);
  }
  page["references"] = references.list(voice, "");
  add_page(site, voice, "rootstocks.mustache",
           {path, voice.say("ui.rootstocks_title"), voice.say("ui.rootstocks_lede"), "rootstocks", false}, std::move(page));
}

void add_all_sources(Site& site, const Voice& voice, const std::string& path) {
  Model page;
  page["bases"] = Model::list();
  for (const std::string_view basis : names_of<Basis>()) {
    Model& row = page["bases"].add();
    row["name"] = voice.say("ui.basis." + std::string(basis));
    row["text"] = voice.say("ui.basis_says." + std::string(basis));
  }
  page["sources"] = Model::list();
  for (const Source& source : voice.catalog.sources) {
    Model& row = page["sources"].add();
    row["id"] = source.id;
    row["publisher"] = source.publisher;
    row["title"] = source.title;
    row["has_number"] = !source.number.empty();
    row["number"] = source.number;
    row["has_year"] = !source.year.empty();
    row["year"] = source.year;
    row["has_url"] = !source.url.empty();
    row["url"] = source.url;
    row["read"] = source.read;
  }
  page["places"] = Model::list();
  for (const Place& place : voice.office.places) page["places"].add(record_line(voice, place));
  add_page(site, voice, "sources.mustache",
           {path, voice.say("ui.sources_title"), voice.say("ui.sources_lede"), "sources", false}, std::move(page));
}

}  // namespace

void add_type_pages(Site& site, const Voice& voice) {
  Model index;
  index["types"] = Model::list();
  for (const CitrusType* type : in_trade_order(voice.catalog)) {
    const std::string path = "types/" + type->id + ".html";
    make_page(site, voice, path, {type->id}, [&voice, type, path](Site& own) { add_type_page(own, voice, path, *type); });
    Model& row = index["types"].add();
    row["name"] = voice.say("types." + type->id + ".plural");
    row["line"] = voice.say("types." + type->id + ".line");
    row["href"] = type->id + ".html";
    row["botanical"] = type->botanical;
    row["count"] = voice.count("ui.cultivars_of", static_cast<long>(cultivars_of(voice.catalog, *type).size()));
    row["leaf"] = voice.figure(ArgKind::celsius, type->traits.cold[0].hardened.best);
    row["ripe"] = voice.months(ripe_months_at(first_place(voice.office), type->traits));
  }
  add_page(site, voice, "types.mustache", {"types/index.html", voice.say("ui.types_title"), voice.say("ui.types_lede"), "types", false},
           std::move(index));
}

void add_cultivar_pages(Site& site, const Voice& voice) {
  Model index;
  index["groups"] = Model::list();
  for (const CitrusType* type : in_trade_order(voice.catalog)) {
    Model group;
    group["name"] = voice.say("types." + type->id + ".plural");
    group["id"] = type->id;
    group["href"] = "../types/" + type->id + ".html";
    group["cultivars"] = Model::list();
    for (const Cultivar& cultivar : voice.catalog.cultivars) {
      if (cultivar.type != type->id) continue;
      const std::string path = "cultivars/" + cultivar.id + ".html";
      make_page(site, voice, path, {cultivar.id}, [&voice, &cultivar, type, path](Site& own) { add_cultivar_page(own, voice, path, *type, cultivar); });
      Model& row = group["cultivars"].add();
      row["name"] = cultivar.name;
      row["href"] = cultivar.id + ".html";
      row["has_synonyms"] = !cultivar.synonyms.empty();
      row["synonyms"] = trade_names(voice, cultivar.synonyms);
    }
    if (!group["cultivars"].items().empty()) index["groups"].add(std::move(group));
  }
  add_page(site, voice, "cultivars.mustache",
           {"cultivars/index.html", voice.say("ui.cultivars_title"), voice.say("ui.cultivars_lede"), "cultivars", false}, std::move(index));
}

void add_rootstock_page(Site& site, const Voice& voice) {
  const std::string path = "rootstocks.html";
  make_page(site, voice, path, {}, [&voice, path](Site& own) { add_all_rootstocks(own, voice, path); });
}

void add_sources_page(Site& site, const Voice& voice) {
  const std::string path = "sources.html";
  make_page(site, voice, path, {}, [&voice, path](Site& own) { add_all_sources(own, voice, path); });
}

}  // namespace tenwinters
