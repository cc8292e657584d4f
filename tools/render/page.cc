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
  model["csp"] = std::string(kPolicy) + (head.scripts || head.screen ? "'self' 'wasm-unsafe-eval'" : head.own_scripts.empty() && head.shared_scripts.empty() ? "'none'" : "'self'");
  model["title"] = head.title;
  model["description"] = head.description;
  model["home"] = up + "index.html";
  model["print_room"] = up + "print/index.html";
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
  add_draft(site, voice.language, {code + "/" + head.path, name, code, std::move(model), false, head.scripts, head.screen,
                                   std::move(head.own_scripts), std::move(head.shared_scripts)});
}

std::string about_yard(const Place& place, std::string_view yard) { return place.id + "/" + std::string(yard); }

void make_page(Site& site, const Voice& voice, const std::string& path, std::vector<std::string> about, std::function<void(Site&)> add) {
  if (site.only == nullptr || site.only->contains(voice.language.code + "/" + path)) site.to_make.push_back({std::move(about), std::move(add)});
}

void add_draft(Site& site, const Language& language, Draft draft) {
  Page& page = site.pages.emplace_back(Page{std::move(draft), {}, {}});
  print(page, site.templates, site.shared, language);
  if (site.keeps_drafts) return;
  page.draft.model = {};
  page.asked = {};
}

Links links_of(const Draft& draft, const SharedAssets& shared) {
  if (draft.sheet) return {{shared.print_style}, {}, {}};
  Links links{{shared.style}, {}, shared.icon};
  if (!draft.scripts) links.styles.push_back(shared.more_style);  // the picker draws nothing, and is to be light
  if (draft.scripts) links.scripts = {shared.words.at(draft.language), shared.data, shared.engine, shared.picker};
  links.scripts.insert(links.scripts.end(), draft.own_scripts.begin(), draft.own_scripts.end());
  for (std::string SharedAssets::*const script : draft.shared_scripts) links.scripts.push_back(shared.*script);
  if (draft.screen)
    links.scripts.insert(links.scripts.end(), {shared.screen_words.at(draft.language), shared.data, shared.screens_engine, shared.screens});
  return links;
}

void print(Page& page, Templates& templates, const SharedAssets& shared, const Language& language) {
  Draft& draft = page.draft;
  const std::string root = way_up(draft.path);
  const Links links = links_of(draft, shared);
  if (draft.sheet) {
    draft.model["style"] = root + links.styles.front();
  } else {
    Model styles = Model::list(), scripts = Model::list();
    for (const std::string& style : links.styles) styles.add(root + style);
    for (const std::string& script : links.scripts) scripts.add()["src"] = root + script;
    draft.model["styles"] = std::move(styles);
    draft.model["scripts"] = std::move(scripts);
    draft.model["icon"] = root + links.icon;
  }
  page.asked = {};
  page.text = templates.render(draft.form, draft.model, language, &page.asked);
  page.hash = content_hash(page.text.text());
}

}  // namespace tenwinters
