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
                             {"rootstocks", "rootstocks.html"}, {"sources", "sources.html"}};

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
  model["csp"] = std::string(kPolicy) + (head.scripts || head.screen ? "'self' 'wasm-unsafe-eval'" : "'none'");
  model["title"] = head.title;
  model["description"] = head.description;
  model["icon"] = root + site.shared.icon;
  model["style"] = root + site.shared.style;
  model["home"] = up + "index.html";
  model["scripts"] = Model::list();
  if (head.scripts)
    for (const std::string& script : {site.shared.words[code], site.shared.data, site.shared.engine, site.shared.picker})
      model["scripts"].add()["src"] = root + script;
  if (head.screen)
    for (const std::string& script : {site.shared.screen_words[code], site.shared.data, site.shared.screens_engine, site.shared.screens})
      model["scripts"].add()["src"] = root + script;
  model["nav"] = Model::list();
  for (const NavEntry& entry : kNav) {
    Model& row = model["nav"].add();
    row["href"] = up + entry.path;
    row["text"] = voice.say("ui.nav." + std::string(entry.id));
    row["here"] = head.nav == entry.id;
  }
  const std::string& address = voice.office.address;
  model["has_address"] = !address.empty();
  model["canonical"] = address.empty() ? "" : address + (address.back() == '/' ? "" : "/") + code + "/" + head.path;
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
