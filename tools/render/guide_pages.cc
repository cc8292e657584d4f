// Common calls, and the pages to read before buying and after planting.
#include <algorithm>
#include <functional>

#include "render/advice_view.h"
#include "render/guide_view.h"
#include "render/page.h"
#include "tenwinters/calendar.h"

namespace tenwinters {
namespace {

std::string dashed(std::string id) {
  std::replace(id.begin(), id.end(), '_', '-');
  return id;
}

std::string say(const Voice& voice, const std::string& key, Voice::Fills fills = {}) { return voice.say("reading." + key, fills); }

std::string call_file(const Call& call) { return dashed(call.id) + ".html"; }

std::string call_text(const Voice& voice, const Call& call, const char* key) { return advice_text(voice, "calls." + call.id + "." + key, call); }

Model view_call_links(const Voice& voice, const std::vector<Call>& calls, const std::function<bool(const Call&)>& wanted) {
  Model links = Model::list();
  for (const Call& call : calls) {
    if (!wanted(call)) continue;
    Model& row = links.add();
    row["href"] = call_file(call);
    row["text"] = call_text(voice, call, "ask");
    row["short"] = call_text(voice, call, "short");
  }
  return links;
}

// What a page that shows these is about: see make_page. Two of the views go through the cultivars, the others through the
// types at most.
std::vector<std::string> about(const Catalog& catalog, const std::vector<const Advised*>& all) {
  for (const Advised* advised : all)
    for (const Shown shown : advised->shows)
      if (shown == Shown::partners || shown == Shown::seedy) return {kAboutAll};
  std::vector<std::string> ids;
  for (const CitrusType& type : catalog.types) ids.push_back(type.id);
  return ids;
}

void add_call(Site& site, const Voice& voice, const std::string& path, const Call& call) {
  const std::string up = way_up(path);
  const std::string ask = call_text(voice, call, "ask"), in_short = call_text(voice, call, "short");
  References references;
  Model page;
  page["symptom"] = say(voice, "symptoms." + std::string(name_of(call.symptom)));
  page["ask"] = ask;
  page["short"] = in_short;
  page["why"] = call_text(voice, call, "why");
  page["do"] = call_text(voice, call, "do");
  page["ring"] = call_text(voice, call, "ring");
  page["asked"] = say(voice, "asked", {{"months", voice.months(months_at(first_place(voice.office), call.asked))}});
  page["blocks"] = view_local(voice, call, "", up);
  page["has_cautions"] = !call.cautions.empty();
  page["cautions"] = view_cautions(voice, call.cautions);
  page["advice"]["evidence"] = references.cite(voice, call.evidence);
  page["has_facts"] = !call.facts.empty();
  page["facts"] = view_guide_facts(voice, call, references);
  page["references"] = references.list(voice, up);
  page["others"] = view_call_links(voice, site.input.guidance.calls, [&](const Call& other) { return other.id != call.id && other.symptom == call.symptom; });
  page["has_others"] = !page["others"].items().empty();
  PageHead head{path, ask, in_short, "calls", false};
  head.kind = "FAQPage";
  if (std::find(call.shows.begin(), call.shows.end(), Shown::fruit_set) != call.shows.end()) head.shared_scripts = {&SharedAssets::reckon};
  add_page(site, voice, "call.mustache", std::move(head), std::move(page));
}

void add_guide(Site& site, const Voice& voice, const std::string& path, const Guide& guide) {
  const std::string key = "guides." + guide.id;
  References references;
  Model page;
  const std::string title = voice.say(key + ".title"), lede = voice.say(key + ".lede");
  page["name"] = title;
  page["lede"] = lede;
  page["sections"] = Model::list();
  std::vector<std::string> cautions;
  for (const Advised& section : guide.sections) {
    const std::string own = key + ".sections." + section.id;
    Model& part = page["sections"].add();
    part["anchor"] = dashed(section.id);
    part["title"] = advice_text(voice, own + ".title", section);
    part["text"] = advice_text(voice, own + ".text", section);
    part["blocks"] = view_local(voice, section, dashed(section.id) + "-", "");
    part["advice"]["evidence"] = references.cite(voice, section.evidence);
    part["has_facts"] = !section.facts.empty();
    part["facts"] = view_guide_facts(voice, section, references);
    part["has_signs"] = !section.cautions.empty();
    part["signs"] = view_cautions(voice, section.cautions);
    for (const std::string& id : section.cautions)
      if (std::find(cautions.begin(), cautions.end(), id) == cautions.end()) cautions.push_back(id);
  }
  page["has_cautions"] = !cautions.empty();
  page["cautions"] = view_cautions(voice, cautions);
  page["references"] = references.list(voice, "");
  add_page(site, voice, "guide.mustache", {path, title, lede, guide.id, false}, std::move(page));
}

}  // namespace

void add_call_pages(Site& site, const Voice& voice) {
  const std::vector<Call>& calls = site.input.guidance.calls;
  if (calls.empty()) return;
  for (const Call& call : calls) {
    const std::string path = "calls/" + call_file(call);
    make_page(site, voice, path, about(voice.catalog, {&call}), [&voice, &call, path](Site& own) { add_call(own, voice, path, call); });
  }
  Model index;
  index["symptoms"] = Model::list();
  for (const std::string_view name : names_of<Symptom>()) {
    Model links = view_call_links(voice, calls, [&](const Call& call) { return name_of(call.symptom) == name; });
    if (links.items().empty()) continue;
    Model& row = index["symptoms"].add();
    row["id"] = name;
    row["name"] = say(voice, "symptoms." + std::string(name));
    row["calls"] = std::move(links);
  }
  index["months"] = Model::list();
  for (int month = 1; month <= 12; ++month) {
    Model& row = index["months"].add();
    row["name"] = voice.months(month, month);
    row["calls"] = view_call_links(voice, calls, [&](const Call& call) { return months_at(first_place(voice.office), call.asked).contains(month); });
  }
  add_page(site, voice, "calls.mustache", {"calls/index.html", say(voice, "calls_title"), say(voice, "calls_lede"), "calls", false}, std::move(index));
}

void add_guide_pages(Site& site, const Voice& voice) {
  for (const Guide& guide : site.input.guidance.guides) {
    const std::string path = dashed(guide.id) + ".html";
    std::vector<const Advised*> sections;
    for (const Advised& section : guide.sections) sections.push_back(&section);
    make_page(site, voice, path, about(voice.catalog, sections), [&voice, &guide, path](Site& own) { add_guide(own, voice, path, guide); });
  }
}

}  // namespace tenwinters
