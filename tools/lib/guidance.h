// What an office is asked again and again, and what it tells people to read first: the structure of those
// pages and the figures they lean on. Their sentences are words (calls.ID.*, guides.ID.*).
//
//   for (const Call& call : loaded.guidance.calls) print(language.say("calls." + call.id + ".ask"));
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "tenwinters/catalog.h"

namespace tenwinters {

// Figures that a page works out from the catalogue and from each place's record.
enum class Shown {
  fruit_set, fruit_drop, partners, freezes, pruning, ripening, seedy, fruit_cold,
  ground, room, pots, rules, bearing, feeds, protections
};
template <> struct Names<Shown> {
  static constexpr std::string_view list[] = {"fruit_set", "fruit_drop", "partners", "freezes", "pruning",
                                              "ripening",  "seedy",      "fruit_cold", "ground", "room",
                                              "pots",      "rules",      "bearing",  "feeds",   "protections"};
};

// What the caller is looking at.
enum class Symptom { flowers, fruit, leaves, wood, cold };
template <> struct Names<Symptom> {
  static constexpr std::string_view list[] = {"flowers", "fruit", "leaves", "wood", "cold"};
};

enum class GuideUnit { percent, count, hours, days, weeks, months, years, millimetres, centimetres, metres, litres, kilograms, celsius, degree_days };
template <> struct Names<GuideUnit> {
  static constexpr std::string_view list[] = {"percent", "count", "hours", "days", "weeks", "months", "years",
                                              "mm",      "cm",    "m",     "L",    "kg",    "C",      "C_days"};
};

struct GuideFact {
  std::string id;  // words may say {id}, {id_low}, {id_high} and {id_range}
  GuideUnit unit = GuideUnit::count;
  Fact fact;
};

// A piece of advice: its figures, what is worked out for it, what must be said with it.
struct Advised {
  std::string id;
  std::vector<Shown> shows;
  std::vector<std::string> cautions;  // caution ids
  std::vector<GuideFact> facts;       // in the file's order
  Evidence evidence;                  // of the advice itself
};

struct Call : Advised {
  Symptom symptom{};
  Window asked;                       // months in which people ask
};

struct Guide {
  std::string id;
  std::vector<Advised> sections;      // in the file's order
};

struct Guidance {
  std::vector<Call> calls;            // in the file's order
  std::vector<Guide> guides;
};

// The fact of that id, or nullptr.
[[nodiscard]] const GuideFact* find_fact(const Advised& advised, std::string_view id);

// Facts without which a figure cannot be worked out.
[[nodiscard]] std::vector<std::string_view> facts_needed(Shown shown);

}  // namespace tenwinters
