#include "render/voice.h"

#include <algorithm>
#include <cmath>

#include "tenwinters/units.h"

namespace tenwinters {

double Voice::as_wired(double value, double steps) { return std::floor(value * steps + 0.5) / steps; }

std::string Voice::reason(const Reason& given) const {
  Reason reason = given;
  for (Arg& arg : reason.args) arg.number = as_wired(arg.number);
  return say_reason(language, catalog, office, reason, units);
}

std::string Voice::say(std::string_view key, Fills fills) const {
  return say_phrase(language, {std::string(key), {fills.begin(), fills.end()}});
}

std::string Voice::count(std::string_view key, long n, Fills fills) const {
  Phrase phrase{std::string(key), {fills.begin(), fills.end()}};
  phrase.fills.emplace_back("n", std::to_string(n));
  return say_phrase(language, phrase);
}

std::string Voice::number(double value, int digits) const {
  std::string text = fixed_text(std::abs(as_wired(value)), digits);
  const bool negative = value < 0 && text.find_first_of("123456789") != std::string::npos;
  if (const std::string* mark = language.find("language.decimal"))
    if (const std::size_t point = text.find('.'); point != std::string::npos) text.replace(point, 1, *mark);
  return negative ? "\u2212" + text : text;
}

std::string Voice::figure(ArgKind kind, double value) const {
  Arg arg;
  arg.kind = kind;
  arg.number = value;
  return say_arg(language, catalog, office, arg, units);
}

std::string Voice::months(int from, int to) const {
  return from < 1 ? "" : figure(ArgKind::months, from * 100 + to);
}

const Place& first_place(const Office& office) {
  static const Place kNone;
  return office.places.empty() ? kNone : office.places.front();
}

std::string Voice::chance(double share) const {
  share = as_wired(share, 1000);
  const long hundredths = static_cast<long>(std::floor(share * 100 + 0.5));
  if (share > 0 && hundredths == 0) return say("ui.chance_under", {{"n", "1"}});
  if (share < 1 && hundredths == 100) return say("ui.chance_over", {{"n", "99"}});
  return say("ui.chance", {{"n", std::to_string(hundredths)}});
}

long Voice::whole(double value) const { return static_cast<long>(std::floor(as_wired(value) + 0.5)); }

double Voice::degrees(double celsius) const {
  return units == Units::us ? to_fahrenheit(Celsius{celsius}).degrees : celsius;
}

std::string Voice::word(std::string_view enumeration, std::string_view value) const {
  return language.say("enums." + std::string(enumeration) + "." + std::string(value));
}

std::string Voice::of(const Words& words) const {
  if (const auto own = words.find(language.code); own != words.end()) return own->second;
  for (const std::string& code : office.languages)
    if (const auto other = words.find(code); other != words.end()) return other->second;
  return words.empty() ? "" : words.begin()->second;
}

std::string Voice::type_name(std::string_view id) const { return language.say("types." + std::string(id) + ".name"); }

std::string Voice::cultivar_name(std::string_view id) const {
  const Cultivar* cultivar = find_cultivar(catalog, id);
  return cultivar ? cultivar->name : std::string(id);
}

std::string Voice::rootstock_name(std::string_view id) const {
  const Rootstock* rootstock = find_rootstock(catalog, id);
  return rootstock ? rootstock->name : std::string(id);
}

std::string record_line(const Voice& voice, const Place& place) {
  const Winters& w = place.winters;
  if (w.winters.empty()) return voice.say("ui.record_none", {{"place", voice.of(place.name)}});
  std::string text = voice.count("ui.record", static_cast<long>(w.winters.size()),
                                 {{"place", voice.of(place.name)}, {"from", std::to_string(w.winters.front().year)},
                                  {"to", std::to_string(w.winters.back().year)}});
  if (w.invented) text += " " + voice.say("ui.record_invented");
  return text;
}

}  // namespace tenwinters
