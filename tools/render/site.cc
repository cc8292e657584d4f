#include "render/site.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "lib/things.h"
#include "render/advice_view.h"
#include "render/fact_view.h"
#include "render/page.h"
#include "wire/wire.h"

namespace tenwinters {
namespace {

// The files under `prefix`, without it.
std::map<std::string, std::string> under(const std::map<std::string, std::string>& files, const std::string& prefix) {
  std::map<std::string, std::string> out;
  for (auto file = files.lower_bound(prefix); file != files.end() && file->first.compare(0, prefix.size(), prefix) == 0; ++file)
    out.emplace(file->first.substr(prefix.size()), file->second);
  return out;
}

std::string text_of(const SiteInput& input, const std::string& path, std::vector<Diagnostic>& faults) {
  const auto file = input.files.find(path);
  if (file != input.files.end()) return file->second;
  faults.push_back({input.folder + "/" + path, 0, 0, "the file is missing", "", false});
  return "";
}

std::string file_name(const std::string& path) { return path.substr(path.rfind('/') + 1); }

bool begins(const std::string& text, std::string_view start) { return text.compare(0, start.size(), start) == 0; }
bool ends(const std::string& text, std::string_view end) { return text.size() > end.size() && text.compare(text.size() - end.size(), end.size(), end) == 0; }
template <class Starts>
bool begins_with_any(const std::string& text, const Starts& starts) {
  return std::any_of(std::begin(starts), std::end(starts), [&](std::string_view start) { return begins(text, start); });
}
// A word that the script names, in any of its numbers.
bool names_word(const std::string& script, const std::string& key) {
  const std::string stem = ends(key, ".one") || ends(key, ".other") ? key.substr(0, key.rfind('.')) : key;
  return script.find("'" + stem + "'") != std::string::npos;
}

// True for a word of the pages of the second engine, which says most words itself.
bool screens_say(const std::string& key, const std::string& script) {
  constexpr std::string_view kSections[] = {"language.", "units.", "questions.", "enums.", "criteria.", "protections.", "spots.", "cautions.",
                                            "limits.", "reasons.", "shelves.", "calendar.", "night.", "yard_plan.", "explain.", "screens.",
                                            "ui.ruler_", "ui.year_", "ui.fig_", "ui.chance", "ui.nights", "ui.date", "ui.range", "ui.on_stock",
                                            "ui.never", "ui.why_", "ui.record", "ui.basis.", "ui.cautions_", "ui.find_out", "ui.as_table",
                                            "ui.none", "things.", "ui.notes_", "ui.invented_notice", "terminal.on_stock"};
  if (begins(key, "types.")) return ends(key, ".name");
  if (begins(key, "questions.") && ends(key, ".why")) return false;
  return begins_with_any(key, kSections) || names_word(script, key);
}

// A page's words and the names of things, in one language.
template <class Says>
std::string page_words(const Site& site, const Language& language, const std::string& script, const Says& says) {
  const SiteInput& input = site.input;
  nlohmann::ordered_json words;
  for (const auto& [key, text] : language.words)
    if (says(key, script)) words[key] = text;
  const Voice voice{input.catalog, input.office, language, input.units};
  nlohmann::ordered_json out;
  out["words"] = std::move(words);
  out["units"] = name_of(input.units);
  for (const Cultivar& c : input.catalog.cultivars) out["cultivars"][c.id] = {c.name, c.type};
  for (const Rootstock& r : input.catalog.rootstocks) out["rootstocks"][r.id] = r.name;
  for (const Caution& c : input.catalog.cautions) out["cautions"][c.id] = name_of(c.severity);
  out["places"] = nlohmann::ordered_json::array();
  for (const Place& p : input.office.places)
    out["places"].push_back({{"id", p.id}, {"name", voice.of(p.name)}, {"record", record_line(voice, p)}, {"winters", file_name(site.shared.winters.at(p.id))}});
  out["questions"] = nlohmann::ordered_json::array();
  for (const Question& q : input.catalog.questions) {
    nlohmann::ordered_json answers = nlohmann::ordered_json::array();
    for (const Answer& a : q.answers) answers.push_back(a.id);
    out["questions"].push_back({{"id", q.id}, {"answers", answers}});
  }
  for (const LocalRule& rule : input.office.rules) out["rules"][rule.id] = {voice.of(rule.says), voice.of(rule.ask)};
  return "window.tenwintersWords=" + out.dump() + ";\n";
}

void add_assets(Site& site) {
  const SiteInput& in = site.input;
  std::map<std::string, std::string> beside = under(in.files, "assets/");
  for (const auto& [name, text] : beside)
    if (name.size() > 4 && name.compare(name.size() - 4, 4, ".txt") == 0) site.assets.add_plain(name, text);
  const auto add_style = [&](const std::string& name) {
    return site.assets.add_style(name, text_of(in, "assets/" + name, site.faults), beside, in.folder + "/assets", site.faults);
  };
  site.shared.style = add_style("style.css");
  site.shared.more_style = add_style("pages.css");
  site.shared.icon = site.assets.add("icon.svg", text_of(in, "assets/icon.svg", site.faults));
  const std::string script = bundle_modules(under(in.files, "js/"), "main.js", in.folder + "/js", site.faults);
  site.shared.picker = site.assets.add("picker.js", script);
  site.shared.reckon = site.assets.add("reckon.js", bundle_modules(under(in.files, "js/"), "reckon.js", in.folder + "/js", site.faults));
  site.shared.search = site.assets.add("search.js", bundle_modules(under(in.files, "js/"), "search.js", in.folder + "/js", site.faults));
  site.shared.engine = site.assets.add("engine.js", "window.tenwintersEngine=\"" + base64(in.engine) + "\";\n");
  // The winters are most of an office's data: a page fetches those of its reader's place alone.
  Office without = in.office;
  for (Place& place : without.places) {
    const std::string packed = base64(gzip(winters_to_json(place.winters)));
    site.shared.winters[place.id] = site.assets.add("winters-" + place.id + ".js", "(window.tenwintersWinters ||= {})[\"" + place.id + "\"]=\"" + packed + "\";\n");
    place.winters = {};
  }
  // One line each, for neither text holds a line break of its own.
  site.shared.data = site.assets.add("data.js", "window.tenwintersData=\"" + base64(gzip(catalog_to_json(in.catalog) + "\n" + office_to_json(without))) + "\";\n");
  for (const Language* language : site.languages)
    site.shared.words[language->code] = site.assets.add("words-" + language->code + ".js", page_words(site, *language, script, picker_says));

  const std::string screens = bundle_modules(under(in.files, "js/"), "screens.js", in.folder + "/js", site.faults);
  site.shared.screens = site.assets.add("screens.js", screens);
  site.shared.screens_engine = site.assets.add("screens-engine.js", "window.tenwintersEngine=\"" + base64(in.screens_engine) + "\";\n");
  for (const Language* language : site.languages) {
    Language named = *language;
    add_names(named, in.catalog, in.office);
    site.shared.screen_words[language->code] =
        site.assets.add("screen-words-" + language->code + ".js", page_words(site, named, screens, screens_say) + "window.tenwintersSeasons=" +
                                                                      js_string(in.seasons) + ";\n");
  }
}

// The site's front door: sends a visitor to the office's first language, and offers the others.
void add_front_door(Site& site) {
  if (site.languages.empty()) return;
  const Voice voice{site.input.catalog, site.input.office, *site.languages.front(), site.input.units};
  Model model;
  view_office(voice, model);
  model["lang"] = voice.language.code;
  model["style"] = site.shared.style;
  model["icon"] = site.shared.icon;
  model["first"] = voice.language.code + "/index.html";
  model["languages"] = Model::list();
  for (const Language* language : site.languages) {
    Model& row = model["languages"].add();
    row["code"] = language->code;
    row["name"] = language->say("language.name");
    row["href"] = language->code + "/index.html";
  }
  site.pages.push_back({"index.html", site.templates.render("front.mustache", model, voice.language)});
}

void add_sitemap(Site& site) {
  std::string base = site.input.office.address;
  if (base.empty()) return;
  if (base.back() != '/') base += '/';
  std::string text = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<urlset xmlns=\"http://www.sitemaps.org/schemas/sitemap/0.9\">\n";
  std::vector<std::string> paths;
  for (const OutputFile& page : site.pages) paths.push_back(page.path);
  std::sort(paths.begin(), paths.end());
  for (const std::string& path : paths) text += "<url><loc>" + base + path + "</loc></url>\n";
  site.pages.push_back({"sitemap.xml", text + "</urlset>\n"});
}

// The service worker, at the site's root so that it may keep all of it: what the picker needs at once, and with it the
// start page of each language; other pages as they are read.
void add_worker(Site& site) {
  std::vector<std::string> files = {"index.html"};
  for (const Language* language : site.languages) files.push_back(language->code + "/index.html");
  for (const OutputFile& asset : site.assets.files()) files.push_back(asset.path);
  std::sort(files.begin(), files.end());
  std::string pages;
  for (const OutputFile& page : site.pages) pages += page.content;
  const std::string worker = bundle_modules(under(site.input.files, "js/"), "worker.js", site.input.folder + "/js", site.faults);
  site.pages.push_back({"worker.js", "const kept = \"" + content_hash(pages).substr(0, 10) + "\";\nconst files = " +
                                         nlohmann::json(files).dump() + ";\n" + worker});
}

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
  for (std::size_t p = 0; p < voice.office.places.size(); ++p) {
    const Place& place = voice.office.places[p];
    for (std::size_t y = 0; y < site.yards.yards.size(); ++y) {
      const CommonYard& yard = site.yards.yards[y];
      const Advice& advice = site.yards.advice[p][y];
      const std::string path = "yards/" + place.id + "-" + yard.id + ".html", up = way_up(path);
      const std::vector<ShelfKinds> shelves = group_by_kind(voice.catalog, advice);
      Model page;
      page["place"] = voice.of(place.name);
      page["record"] = record_line(voice, place);
      page["name"] = voice.say("ui.yards." + yard.id + ".name");
      page["line"] = voice.say("ui.yards." + yard.id + ".line");
      page["headline"] = headline(voice, shelves);
      page["answers"] = view_answers(voice, advice);
      view_leader(voice, place, advice, page);
      page["picker"] = up + "index.html" + picker_fragment(place, yard);
      page["spot"] = view_spot(voice, advice);
      page["shelves"] = view_shelves(voice, shelves, up);
      const std::vector<std::string> cautions = cautions_of(shelves);
      page["has_cautions"] = !cautions.empty();
      page["cautions"] = view_cautions(voice, cautions);
      add_page(site, voice, "yard.mustache",
               {path, voice.say("ui.yard_title", {{"yard", voice.say("ui.yards." + yard.id + ".name")}, {"place", voice.of(place.name)}}),
                voice.say("ui.yards." + yard.id + ".line"), "yards", false},
               std::move(page));
    }
  }
}

bool picker_says(const std::string& key, const std::string& script) {
  constexpr std::string_view kSections[] = {"language.", "units.", "types.", "questions.", "criteria.", "protections.", "cautions.",
                                            "certainty.", "limits.", "reasons.", "shelves.",
                                            // What reasons say of a yard or a tree in one word.
                                            "enums.use.", "enums.soil.", "enums.taste.", "enums.taste_wish.", "enums.thorns.", "enums.ornament."};
  constexpr std::string_view kNever[] = {".plural", ".how"};  // said on other pages or on paper alone
  const auto begins = [&](std::string_view start) { return key.compare(0, start.size(), start) == 0; };
  const auto ends = [&](std::string_view end) { return key.size() > end.size() && key.compare(key.size() - end.size(), end.size(), end) == 0; };
  if (std::any_of(std::begin(kNever), std::end(kNever), ends) || begins("language.months_short") || begins("reasons.plan_")) return false;
  if (!begins("ui.")) return std::any_of(std::begin(kSections), std::end(kSections), begins);
  const std::string stem = ends(".one") || ends(".other") ? key.substr(0, key.rfind('.')) : key;
  return script.find("'" + stem + "'") != std::string::npos;
}

const std::vector<std::string>& template_folders() {
  static const std::vector<std::string> kFolders = {"", "assets", "assets/fonts", "js"};
  return kFolders;
}

Rendered render_site(const SiteInput& input) {
  std::map<std::string, std::string> templates;
  for (const auto& [path, text] : input.files)
    if (path.find('/') == std::string::npos) templates.emplace(path, text);
  Site site{input, Templates(std::move(templates), input.folder), {}, {}, {}, {}, {}, {}};
  for (const std::string& code : input.office.languages)
    for (const Language& language : input.languages)
      if (language.code == code) site.languages.push_back(&language);
  site.yards = advise_yards(input.catalog, input.office,
                            read_yards(text_of(input, "yards.json", site.faults), input.folder + "/yards.json", input.catalog, site.faults));
  add_assets(site);
  for (const Language* language : site.languages) {
    const Voice voice{input.catalog, input.office, *language, input.units};
    add_home(site, voice);
    add_yard_pages(site, voice);
    add_type_pages(site, voice);
    add_cultivar_pages(site, voice);
    add_rootstock_page(site, voice);
    add_sources_page(site, voice);
    add_call_pages(site, voice);
    add_guide_pages(site, voice);
    add_pollen_page(site, voice);
    add_search_page(site, voice);
    add_print_room(site, voice);
    add_screen_pages(site, voice);
  }
  add_front_door(site);
  add_sitemap(site);
  add_worker(site);
  Rendered out{std::move(site.pages), std::move(site.faults)};
  out.files.insert(out.files.end(), site.assets.files().begin(), site.assets.files().end());
  std::sort(out.files.begin(), out.files.end(), [](const OutputFile& a, const OutputFile& b) { return a.path < b.path; });
  out.faults.insert(out.faults.end(), site.templates.faults().begin(), site.templates.faults().end());
  sort_diagnostics(out.faults);
  return out;
}

}  // namespace tenwinters
