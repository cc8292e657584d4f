#include "render/page.h"

#include <algorithm>

namespace tenwinters {
namespace {

// Nothing from anywhere but the site's own folder; scripts only where there is the picker.
constexpr std::string_view kPolicy =
    "default-src 'none'; style-src 'self'; font-src 'self'; img-src 'self'; base-uri 'none'; form-action 'none'; script-src ";

struct NavEntry { const char *id, *path; };
constexpr NavEntry kNav[] = {{"home", "index.html"},           {"yards", "yards/index.html"},
                             {"types", "types/index.html"},    {"cultivars", "cultivars/index.html"},
                             {"rootstocks", "rootstocks.html"}, {"pollen", "pollen.html"},
                             {"calls", "calls/index.html"},    {"before_you_buy", "before-you-buy.html"},
                             {"planting_and_care", "planting-and-care.html"},
                             {"sources", "sources.html"},      {"search", "search.html"}};

// Calls and guides are as the catalogue has them.
bool has_page(const Guidance& guidance, std::string_view nav) {
  if (nav == "calls") return !guidance.calls.empty();
  if (nav != "before_you_buy" && nav != "planting_and_care") return true;
  return std::any_of(guidance.guides.begin(), guidance.guides.end(), [&](const Guide& guide) { return guide.id == nav; });
}

// The address of the site, with its slash; "" where the office states none.
std::string site_address(const Office& office) {
  return office.address.empty() || office.address.back() == '/' ? office.address : office.address + "/";
}

}  // namespace

std::string way_up(const std::string& path) {
  std::string up;
  for (auto i = std::count(path.begin(), path.end(), '/'); i > 0; --i) up += "../";
  return up;
}

void view_office(const Voice& voice, Model& model) {
  model["office"] = voice.of(voice.office.name);
  model["invented"] = voice.office.invented;
  model["contact"] = Model::list();
  for (const Words& line : voice.office.contact) model["contact"].add(voice.of(line));
}

void add_page(Site& site, const Voice& voice, const std::string& name, PageHead head, Model model) {
  const std::string up = way_up(head.path), root = up + "../";
  const std::string& code = voice.language.code;
  view_office(voice, model);
  model["lang"] = code;
  model["csp"] = std::string(kPolicy) + (head.scripts || head.screen ? "'self' 'wasm-unsafe-eval'" : head.own_scripts.empty() ? "'none'" : "'self'");
  model["title"] = head.title;
  model["description"] = head.description;
  model["icon"] = root + site.shared.icon;
  model["styles"] = Model::list();
  model["styles"].add(root + site.shared.style);
  if (!head.scripts) model["styles"].add(root + site.shared.more_style);  // the picker draws nothing, and is to be light
  model["home"] = up + "index.html";
  model["print_room"] = up + "print/index.html";
  model["scripts"] = Model::list();
  if (head.scripts)
    for (const std::string& script : {site.shared.words[code], site.shared.data, site.shared.engine, site.shared.picker})
      model["scripts"].add()["src"] = root + script;
  for (const std::string& script : head.own_scripts) model["scripts"].add()["src"] = root + script;
  if (head.screen)
    for (const std::string& script : {site.shared.screen_words[code], site.shared.data, site.shared.screens_engine, site.shared.screens})
      model["scripts"].add()["src"] = root + script;
  model["nav"] = Model::list();
  for (const NavEntry& entry : kNav) {
    if (!has_page(site.input.guidance, entry.id)) continue;
    Model& row = model["nav"].add();
    row["href"] = up + entry.path;
    row["text"] = voice.say("ui.nav." + std::string(entry.id));
    row["here"] = head.nav == entry.id;
  }
  const std::string address = site_address(voice.office);
  model["has_address"] = !address.empty();
  model["canonical"] = address + code + "/" + head.path;
  model["front"] = address;
  model["alternates"] = Model::list();
  for (const Language* each : site.languages) {
    Model& row = model["alternates"].add();
    row["code"] = each->code;
    row["href"] = address + each->code + "/" + head.path;
    row["other"] = each->code != code;
  }
  model["page_kind"] = head.kind;
  model["plants"] = Model::list();
  if (!head.plant_names.empty()) {
    Model& plant = model["plants"].add();
    plant["name"] = head.plant_names.front();
    plant["also"] = Model::list();
    for (std::size_t i = 1; i < head.plant_names.size(); ++i) plant["also"].add(head.plant_names[i]);
  }
  model["languages"] = Model::list();
  for (const Language* other : site.languages) {
    if (other->code == code) continue;
    Model& row = model["languages"].add();
    row["code"] = other->code;
    row["name"] = other->say("language.name");
    row["href"] = root + other->code + "/" + head.path;
  }
  model["records"] = Model::list();
  for (const Place& place : voice.office.places) {
    const Winters& w = place.winters;
    model["records"].add(voice.count("ui.record", static_cast<long>(w.winters.size()),
                                     {{"place", voice.of(place.name)},
                                      {"from", std::to_string(w.winters.empty() ? 0 : w.winters.front().year)},
                                      {"to", std::to_string(w.winters.empty() ? 0 : w.winters.back().year)}}));
  }
  site.pages.push_back({code + "/" + head.path, site.templates.render(name, model, voice.language)});
}

}  // namespace tenwinters
