// A household's yard, and the questions that describe it.
//
//   Questions are data (catalog/questions.yaml). Each answer sets variables of the yard:
//     {"planting", "pot_large"} sets container_l = 95
//   An unanswered question, or "dont_know", is integrated over the priors of its answers.
//
// To add a question over existing variables, touch only data. A new variable is a new line here.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "tenwinters/names.h"

namespace tenwinters {

enum class Spot { open, slope, low_pocket, water_edge, town, south_wall, under_canopy };
template <> struct Names<Spot> {
  static constexpr std::string_view list[] = {"open",  "slope",      "low_pocket",  "water_edge",
                                              "town",  "south_wall", "under_canopy"};
};

enum class Drainage { good, slow, standing };
template <> struct Names<Drainage> {
  static constexpr std::string_view list[] = {"good", "slow", "standing"};
};

enum class Soil { acid_or_neutral, limy, salty };
template <> struct Names<Soil> {
  static constexpr std::string_view list[] = {"acid_or_neutral", "limy", "salty"};
};

// What other citrus blooms near enough for bees to carry pollen.
enum class Company { none, same_kind, other_kind, will_plant };
template <> struct Names<Company> {
  static constexpr std::string_view list[] = {"none", "same_kind", "other_kind", "will_plant"};
};

enum class TasteWish { any, sweet, sweet_tart, sour };
template <> struct Names<TasteWish> {
  static constexpr std::string_view list[] = {"any", "sweet", "sweet_tart", "sour"};
};

enum class Use { fresh, juice, cooking, preserves, zest, ornamental };
template <> struct Names<Use> {
  static constexpr std::string_view list[] = {"fresh", "juice", "cooking", "preserves", "zest", "ornamental"};
};

enum class SeedWish { any, few, none };
template <> struct Names<SeedWish> {
  static constexpr std::string_view list[] = {"any", "few", "none"};
};

enum class SeasonWish { any, autumn, winter, spring, summer };
template <> struct Names<SeasonWish> {
  static constexpr std::string_view list[] = {"any", "autumn", "winter", "spring", "summer"};
};

enum class Priority { balanced, harvest, eating, little_work };
template <> struct Names<Priority> {
  static constexpr std::string_view list[] = {"balanced", "harvest", "eating", "little_work"};
};

// The yard as the engine sees it, once every question is settled.
struct Yard {
  Spot spot = Spot::open;
  double sun_hours = 8;          // direct sun a day in the growing season, hours
  Drainage drainage = Drainage::good;
  Soil soil = Soil::acid_or_neutral;
  double container_l = 0;        // litres; 0 = in the ground
  bool moves_indoors = false;    // a container is carried in on freezing nights
  double room_m = 6;             // free width for the full-grown crown, metres
  double work_nights = 3;        // nights a winter the household will cover, bank or carry
  Company company = Company::none;
  TasteWish taste = TasteWish::any;
  Use use = Use::fresh;
  SeedWish seeds = SeedWish::any;
  SeasonWish season = SeasonWish::any;
  bool avoid_thorns = false;     // children, a path, a patient's skin
  bool avoid_medicine_fruit = false;  // leave out fruit that can change how medicines act
  bool has_pets = false;
  Priority priority = Priority::balanced;

  friend bool operator==(const Yard&, const Yard&) = default;
};

// The variables by name, for data files and for knowing which question moves which criterion.
enum class Variable {
  spot, sun_hours, drainage, soil, container_l, moves_indoors, room_m, work_nights, company, taste, use,
  seeds, season, avoid_thorns, avoid_medicine_fruit, has_pets, priority
};
template <> struct Names<Variable> {
  static constexpr std::string_view list[] = {
      "spot",  "sun_hours", "drainage", "soil",    "container_l",  "moves_indoors",        "room_m",   "work_nights",
      "company", "taste",   "use",      "seeds",   "season", "avoid_thorns", "avoid_medicine_fruit", "has_pets", "priority"};
};

// Sets one variable from its text form ("95", "true", "low_pocket"). False when the text does not fit:
// then `expected` (if given) says what would. Numbers: sun_hours 0..16, container_l 0..1000,
// room_m 0.5..30, work_nights 0..200.
bool set_variable(Yard& yard, Variable variable, std::string_view text, std::string* expected = nullptr);

struct Answer {
  std::string id;
  double prior = 0;                                        // share of households; a question's answers sum to 1
  std::vector<std::pair<Variable, std::string>> sets;      // text form, valid for set_variable
  bool within_reach = false;                               // a household can bring it about: a pot, another spot, a cover
};

struct Question {
  std::string id;
  std::vector<Answer> answers;                             // in the order shown
  std::string asked_if_question;                           // "" = always asked; else only when that question
  std::vector<std::string> asked_if_answers;               // was given one of these answers (or is still open)
  std::vector<std::vector<std::string>> splits;            // sets of answers by which a paper key may part households
};

inline constexpr std::string_view kDontKnow = "dont_know";

// question id -> answer id. A missing question and kDontKnow mean the same.
using Answers = std::map<std::string, std::string, std::less<>>;

}  // namespace tenwinters
