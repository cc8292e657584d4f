// The search page: every name in a list from A to Z, and the same as data for its script.
#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>
#include <tuple>

#include "render/guide_view.h"
#include "render/page.h"

namespace tenwinters {
namespace {

using Json = nlohmann::ordered_json;

enum class Found { type, cultivar, rootstock, call, page, section };
constexpr const char* kFoundNames[] = {"type", "cultivar", "rootstock", "call", "page", "section"};

struct Entry {
  std::string name, href;
  Found kind = Found::page;
  std::vector<std::string> also;   // other names, spellings and what it is about; searched, and shown if they match
  bool listed = true;              // in the list from A to Z
};

std::string say(const Voice& voice, const std::string& key) { return voice.say("reading." + key); }

std::string dashed(std::string id) {
  std::replace(id.begin(), id.end(), '_', '-');
  return id;
}

void add_names(std::vector<std::string>& names, const std::vector<std::string>& more) { names.insert(names.end(), more.begin(), more.end()); }

// What other languages call it: a text of each of them under the key.
void add_words(const Site& site, const std::string& key, std::vector<std::string>& names) {
  for (const Language* language : site.languages)
    if (language->has(key)) names.push_back(language->say(key));
}

std::vector<Entry> entries_of(const Site& site, const Voice& voice) {
  std::vector<Entry> entries;
  for (const CitrusType& type : voice.catalog.types) {
    Entry entry{voice.say("types." + type.id + ".plural"), "types/" + type.id + ".html", Found::type, {}, true};
    for (const char* end : {".name", ".plural", ".also"}) add_words(site, "types." + type.id + end, entry.also);
    add_names(entry.also, type.synonyms);
    entry.also.push_back(type.botanical);
    add_names(entry.also, type.botanical_synonyms);
    entries.push_back(std::move(entry));
  }
  for (const Cultivar& cultivar : voice.catalog.cultivars) {
    Entry entry{cultivar.name, "cultivars/" + cultivar.id + ".html", Found::cultivar, cultivar.synonyms, true};
    add_names(entry.also, cultivar.misspellings);
    entries.push_back(std::move(entry));
  }
  for (const Rootstock& stock : voice.catalog.rootstocks) {
    Entry entry{stock.name, "rootstocks.html#" + stock.id, Found::rootstock, stock.synonyms, true};
    entry.also.push_back(stock.botanical);
    entries.push_back(std::move(entry));
  }
  for (const Call& call : site.input.guidance.calls) {
    const auto text = [&](const char* key) { return advice_text(voice, "calls." + call.id + "." + key, call); };
    entries.push_back({text("ask"), "calls/" + dashed(call.id) + ".html", Found::call, {text("short"), say(voice, "symptoms." + std::string(name_of(call.symptom)))}, true});
  }
  for (const Guide& guide : site.input.guidance.guides) {
    const std::string key = "guides." + guide.id, path = dashed(guide.id) + ".html";
    entries.push_back({voice.say(key + ".title"), path, Found::page, {voice.say(key + ".lede")}, true});
    for (const Advised& section : guide.sections)
      entries.push_back({voice.say(key + ".sections." + section.id + ".title"), path + "#" + dashed(section.id), Found::section, {voice.say(key + ".title")}, true});
  }
  const auto page = [&](const std::string& name, const std::string& path, const std::string& about) { entries.push_back({name, path, Found::page, {about}, true}); };
  page(voice.say("ui.home_title"), "index.html", voice.say("ui.home_lede"));
  page(voice.say("ui.yards_title"), "yards/index.html", voice.say("ui.yards_lede"));
  page(voice.say("ui.types_title"), "types/index.html", voice.say("ui.types_lede"));
  page(voice.say("ui.cultivars_title"), "cultivars/index.html", voice.say("ui.cultivars_lede"));
  page(voice.say("ui.rootstocks_title"), "rootstocks.html", voice.say("ui.rootstocks_lede"));
  page(voice.say("ui.sources_title"), "sources.html", voice.say("ui.sources_lede"));
  if (!site.input.guidance.calls.empty()) page(say(voice, "calls_title"), "calls/index.html", say(voice, "calls_lede"));
  page(say(voice, "pollen_title"), "pollen.html", say(voice, "pollen_lede"));
  for (Entry& entry : entries) {
    std::erase(entry.also, entry.name);
    std::erase(entry.also, "");
    std::vector<std::string> once;
    for (std::string& name : entry.also)
      if (std::find(once.begin(), once.end(), name) == once.end()) once.push_back(std::move(name));
    entry.also = std::move(once);
  }
  return entries;
}

// The letter under which a name is listed: plain and large, with its accent taken off; "" for a figure or a sign.
// Enough for the languages of the catalogue, whose names begin with Latin letters.
std::string letter_of(std::string_view name) {
  static const std::map<std::string_view, std::string_view> kPlain = {
      {"Á", "A"}, {"á", "A"}, {"É", "E"}, {"é", "E"}, {"Í", "I"}, {"í", "I"}, {"Ó", "O"}, {"ó", "O"}, {"Ú", "U"}, {"ú", "U"}, {"Ñ", "N"}, {"ñ", "N"}, {"Ü", "U"}, {"ü", "U"}};
  for (const std::string_view mark : {"¿", "¡"})
    if (name.starts_with(mark)) name.remove_prefix(mark.size());
  for (const auto& [accented, plain] : kPlain)
    if (name.starts_with(accented)) return std::string(plain);
  if (name.empty()) return "";
  const char first = name.front();
  if (first >= 'a' && first <= 'z') return std::string(1, static_cast<char>(first - 'a' + 'A'));
  return first >= 'A' && first <= 'Z' ? std::string(1, first) : "";
}

}  // namespace

void add_search_page(Site& site, const Voice& voice) {
  const std::vector<Entry> entries = entries_of(site, voice);
  Json data = Json::object();
  for (const char* kind : kFoundNames) data["kinds"].push_back(say(voice, std::string("search_kinds.") + kind));
  for (const char* key : {"search_found.one", "search_found.other", "search_near.one", "search_near.other", "search_nothing", "search_also"})
    data["words"][key] = voice.language.say("reading." + std::string(key));
  for (const Entry& entry : entries) data["entries"].push_back({entry.name, entry.href, static_cast<int>(entry.kind), entry.also});
  const std::string index = site.assets.add("find-" + voice.language.code + ".js", "window.tenwintersIndex=" + data.dump() + ";\n");

  std::vector<std::pair<std::string, const Entry*>> lines;  // by letter, then by name
  for (const Entry& entry : entries)
    if (entry.listed) lines.emplace_back(letter_of(entry.name), &entry);
  std::stable_sort(lines.begin(), lines.end(), [](const auto& a, const auto& b) {
    return std::tie(a.first, a.second->name, a.second->href) < std::tie(b.first, b.second->name, b.second->href);
  });
  Model page;
  page["letters"] = Model::list();
  Model* entries_here = nullptr;
  std::string letter = "?";
  for (const auto& [initial, entry] : lines) {
    if (initial != letter) {
      letter = initial;
      Model& group = page["letters"].add();
      group["name"] = letter.empty() ? say(voice, "search_other") : letter;
      group["id"] = letter.empty() ? "az-0" : "az-" + letter;
      group["entries"] = Model::list();
      entries_here = &group["entries"];
    }
    Model& row = entries_here->add();
    row["name"] = entry->name;
    row["href"] = entry->href;
    row["kind"] = say(voice, std::string("search_kinds.") + kFoundNames[static_cast<std::size_t>(entry->kind)]);
  }
  PageHead head{"search.html", say(voice, "search_title"), say(voice, "search_lede"), "search", false};
  head.own_scripts = {index};
  head.shared_scripts = {&SharedAssets::search};
  add_page(site, voice, "search.mustache", std::move(head), std::move(page));
}

}  // namespace tenwinters
