#include "lib/texts.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "tenwinters/units.h"

namespace tenwinters {
namespace {

constexpr std::string_view kMinus = "\u2212";
thread_local WordListener* listener = nullptr;

// The sign of a figure that is shown as nought is dropped.
std::string number(const Language& language, double value, int digits) {
  std::string text = fixed_text(std::fabs(value), digits);
  const bool nought = text.find_first_of("123456789") == std::string::npos;
  if (const std::size_t point = text.find('.'); point != std::string::npos) {
    if (const std::string* mark = language.find("language.decimal")) text.replace(point, 1, *mark);
  }
  return value < 0 && !nought ? std::string(kMinus) + text : text;
}

// As few digits as the figure has, at most one.
std::string plain(const Language& language, double value) {
  return number(language, value, std::fabs(value - std::round(value)) < 0.05 ? 0 : 1);
}

using Fills = std::vector<std::pair<std::string, std::string>>;

// One pass, so that what is filled in is never read as a text to be filled.
std::string fill(const std::string& text, const Fills& fills) {
  std::string out;
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t open = text.find('{', at);
    const std::size_t close = open == std::string::npos ? open : text.find('}', open);
    if (close == std::string::npos) break;
    const std::string name = text.substr(open + 1, close - open - 1);
    const auto found = std::find_if(fills.begin(), fills.end(), [&](const auto& each) { return each.first == name; });
    out.append(text, at, open - at);
    out += found == fills.end() ? "[" + name + "]" : found->second;
    at = close + 1;
  }
  return out.append(text, at);
}

// The form of a text for a number as it is shown.
std::string form(const Language& language, const std::string& key, const std::string& shown_number) {
  if (language.has(key)) return key;
  const std::string counted = key + (shown_number == "1" ? ".one" : ".other");
  return language.has(counted) ? counted : language.has(key + ".other") ? key + ".other" : key;
}

std::string of_language(const Words& words, const Language& language, const Office& office) {
  if (const auto own = words.find(language.code); own != words.end()) return own->second;
  for (const std::string& code : office.languages) {
    if (const auto other = words.find(code); other != words.end()) return other->second;
  }
  return words.empty() ? "" : words.begin()->second;
}

std::string months(const Language& language, double code) {
  const int from = static_cast<int>(code) / 100, to = static_cast<int>(code) % 100;
  std::string first = language.say("language.months." + std::to_string(from));
  if (from == to) return first;
  return fill(language.say("units.month_range"),
              {{"from", first}, {"to", language.say("language.months." + std::to_string(to))}});
}

std::string answer(const Language& language, const std::string& id) {
  const std::string whole = "questions." + id;
  if (language.has(whole)) return language.say(whole);
  const std::size_t dot = std::min(id.find('.'), id.size());
  return language.say("questions." + id.substr(0, dot) + ".answers." + id.substr(std::min(dot + 1, id.size())));
}

std::string place_name(const Language& language, const Office& office, const std::string& id) {
  for (const Place& place : office.places) {
    if (place.id == id) return of_language(place.name, language, office);
  }
  return id;
}

// A rule is named by its id; its words stand in the office's file.
std::string free_text(const Language& language, const Office& office, const Arg& arg) {
  if (arg.name != "rule") return arg.id;
  for (const LocalRule& rule : office.rules) {
    if (rule.id == arg.id) return of_language(rule.says, language, office);
  }
  return arg.id;
}

}  // namespace

std::string fixed_text(double size, int digits) {
  const double unit = digits <= 0 ? 1 : digits == 1 ? 10 : 100;
  const double bounded = size >= 0 && size < 1e12 ? size : 0;
  // The product of two doubles is the rounded one and an error that is a double itself (Dekker 1971); which side
  // of a half the true product lies on is told by both.
  constexpr double kSplit = 134217729;  // 2^27 + 1
  const double product = bounded * unit;
  const double carried = bounded * kSplit, high = carried - (carried - bounded), low = bounded - high;
  const double error = (high * unit - product) + low * unit;
  const double whole = std::floor(product), part = product - whole;
  const auto steps = static_cast<long long>(whole) + (part > 0.5 || (part == 0.5 && error >= 0) ? 1 : 0);
  std::string text = std::to_string(steps);
  if (digits <= 0) return text;
  const auto behind = static_cast<std::size_t>(digits == 1 ? 1 : 2);
  if (text.size() <= behind) text.insert(0, behind + 1 - text.size(), '0');
  return text.insert(text.size() - behind, 1, '.');
}

const std::string* Language::find(std::string_view key) const {
  const auto found = words.find(key);
  if (listener) {
    if (found == words.end()) listener->missed(*this, key);
    else listener->found(*this, found->first);
  }
  return found == words.end() ? nullptr : &found->second;
}

std::string Language::say(std::string_view key) const {
  const std::string* found = find(key);
  return found ? *found : "[" + std::string(key) + "]";
}

WordListener::WordListener() : outer_(std::exchange(listener, this)) {}
WordListener::~WordListener() { listener = outer_; }

std::string say_phrase(const Language& language, const Phrase& phrase) {
  Fills fills;
  std::string counted;
  for (const auto& [name, value] : phrase.fills) {
    fills.emplace_back(name, value.starts_with('@') ? language.say(value.substr(1)) : value);
    if (name == "n") counted = value;
  }
  return fill(language.say(form(language, phrase.key, counted)), fills);
}

std::string say_measure(const Language& language, std::string_view unit, const std::string& shown_number) {
  return fill(language.say(form(language, "units." + std::string(unit), shown_number)), {{"v", shown_number}});
}

std::string say_number(const Language& language, double value, int digits) {
  return number(language, value, digits);
}

std::string say_arg(const Language& language, const Catalog& catalog, const Office& office, const Arg& arg,
                    Units units) {
  const bool us = units == Units::us;
  const double v = arg.number;
  switch (arg.kind) {
    case ArgKind::celsius:
      return us ? say_measure(language, "fahrenheit", number(language, to_fahrenheit(Celsius{v}).degrees, 0))
                : say_measure(language, "celsius", number(language, v, 0));
    case ArgKind::celsius_difference:
      return us ? say_measure(language, "fahrenheit_difference", plain(language, v * 9 / 5))
                : say_measure(language, "celsius_difference", plain(language, v));
    case ArgKind::metres:
      return us ? say_measure(language, "feet", number(language, to_feet(Metres{v}).feet, 0))
                : say_measure(language, "metres", number(language, v, 1));
    case ArgKind::litres:
      return us ? say_measure(language, "gallons", number(language, to_gallons(Litres{v}).gallons, 0))
                : say_measure(language, "litres", number(language, v, 0));
    case ArgKind::hours:
      return say_measure(language, "hours", plain(language, v));
    case ArgKind::years:
      return say_measure(language, "years", plain(language, v));
    case ArgKind::percent:
      return say_measure(language, "percent", number(language, v, 0));
    case ArgKind::count:
      return plain(language, v);
    case ArgKind::months:
      return months(language, v);
    case ArgKind::word:
      return language.say("enums." + arg.id);
    case ArgKind::cultivar: {
      const Cultivar* cultivar = find_cultivar(catalog, arg.id);
      return cultivar == nullptr ? arg.id : cultivar->name;
    }
    case ArgKind::type:
      return language.say("types." + arg.id + ".name");
    case ArgKind::rootstock: {
      const Rootstock* stock = find_rootstock(catalog, arg.id);
      return stock == nullptr ? arg.id : stock->name;
    }
    case ArgKind::question:
      return language.say("questions." + arg.id + ".ask");
    case ArgKind::answer:
      return answer(language, arg.id);
    case ArgKind::place:
      return place_name(language, office, arg.id);
    case ArgKind::protection:
      return language.say("protections." + arg.id + ".name");
    case ArgKind::text:
      return free_text(language, office, arg);
  }
  return arg.id;
}

std::string say_reason(const Language& language, const Catalog& catalog, const Office& office, const Reason& reason,
                       Units units) {
  Fills fills;
  std::string counted;
  for (const Arg& arg : reason.args) {
    fills.emplace_back(arg.name, say_arg(language, catalog, office, arg, units));
    if (arg.name == "n") counted = fills.back().second;
  }
  return fill(language.say(form(language, "reasons." + reason.id, counted)), fills);
}

bool is_site_address(std::string_view address) {
  const bool web = address.starts_with("https://") || address.starts_with("http://");
  return web && address.ends_with('/') && address.find_first_of(" \"<>\\?#") == std::string_view::npos;
}

}  // namespace tenwinters
