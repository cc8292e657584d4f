#include "lib/things.h"

namespace tenwinters {
namespace {

std::string of(const Words& words, const Language& language, const Office& office) {
  if (const auto own = words.find(language.code); own != words.end()) return own->second;
  for (const std::string& code : office.languages)
    if (const auto other = words.find(code); other != words.end()) return other->second;
  return words.empty() ? "" : words.begin()->second;
}

constexpr const char* kInvented = "invented";

}  // namespace

void add_names(Language& language, const Catalog& catalog, const Office& office) {
  auto& words = language.words;
  words["things.office.name"] = of(office.name, language, office);
  if (office.invented) words["things.office.invented"] = kInvented;
  for (const Place& place : office.places) {
    words["things.places." + place.id + ".name"] = of(place.name, language, office);
    if (place.winters.invented) words["things.places." + place.id + ".invented"] = kInvented;
  }
  for (const Rootstock& stock : catalog.rootstocks) words["things.rootstocks." + stock.id] = stock.name;
  for (const LocalRule& rule : office.rules) {
    words["things.rules." + rule.id + ".says"] = of(rule.says, language, office);
    words["things.rules." + rule.id + ".ask"] = of(rule.ask, language, office);
  }
}

void take_names(const Language& language, Catalog& catalog, Office& office) {
  const auto take = [&](const std::string& key, Words& into) {
    if (language.has("things." + key)) into = {{language.code, language.say("things." + key)}};
  };
  take("office.name", office.name);
  if (language.has("things.office.invented")) office.invented = true;
  for (Place& place : office.places) {
    take("places." + place.id + ".name", place.name);
    if (language.has("things.places." + place.id + ".invented")) place.winters.invented = true;
  }
  for (Rootstock& stock : catalog.rootstocks)
    if (language.has("things.rootstocks." + stock.id)) stock.name = language.say("things.rootstocks." + stock.id);
  for (LocalRule& rule : office.rules) {
    take("rules." + rule.id + ".says", rule.says);
    take("rules." + rule.id + ".ask", rule.ask);
  }
}

}  // namespace tenwinters
