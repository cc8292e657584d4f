// The catalogue as the engine reads it: types of citrus, cultivars, rootstocks, cautions, questions.
//
// The loader (tools/loader) fills it from catalog/*.yaml, checked and with every cultivar's missing
// traits inherited from its type. All vectors are sorted by id, so equal catalogues are equal bytes.
#pragma once

#include <array>
#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "tenwinters/cold_model.h"
#include "tenwinters/fact.h"
#include "tenwinters/yard.h"

namespace tenwinters {

// Text by language code ("en", "es").
using Words = std::map<std::string, std::string, std::less<>>;

enum class SetsFruit { without_pollen, own_pollen, partner_needed };
template <> struct Names<SetsFruit> {
  static constexpr std::string_view list[] = {"without_pollen", "own_pollen", "partner_needed"};
};

enum class PollenWorth { none, weak, good };
template <> struct Names<PollenWorth> {
  static constexpr std::string_view list[] = {"none", "weak", "good"};
};

enum class Thorns { none, few, some, many };
template <> struct Names<Thorns> {
  static constexpr std::string_view list[] = {"none", "few", "some", "many"};
};

enum class Habit { upright, rounded, spreading, weeping, shrubby };
template <> struct Names<Habit> {
  static constexpr std::string_view list[] = {"upright", "rounded", "spreading", "weeping", "shrubby"};
};

enum class Fitness { poor, fair, good };
template <> struct Names<Fitness> {
  static constexpr std::string_view list[] = {"poor", "fair", "good"};
};

enum class Taste { sweet, sweet_tart, tart, sour };
template <> struct Names<Taste> {
  static constexpr std::string_view list[] = {"sweet", "sweet_tart", "tart", "sour"};
};

enum class Peel { easy, moderate, tight, eaten };
template <> struct Names<Peel> {
  static constexpr std::string_view list[] = {"easy", "moderate", "tight", "eaten"};
};

enum class Heat { low, medium, high };
template <> struct Names<Heat> {
  static constexpr std::string_view list[] = {"low", "medium", "high"};
};

enum class Alternation { none, slight, moderate, strong };
template <> struct Names<Alternation> {
  static constexpr std::string_view list[] = {"none", "slight", "moderate", "strong"};
};

enum class Rebloom { none, some, everbearing };
template <> struct Names<Rebloom> {
  static constexpr std::string_view list[] = {"none", "some", "everbearing"};
};

enum class Ornament { low, medium, high };
template <> struct Names<Ornament> {
  static constexpr std::string_view list[] = {"low", "medium", "high"};
};

enum class Tolerance { susceptible, moderate, tolerant };
template <> struct Names<Tolerance> {
  static constexpr std::string_view list[] = {"susceptible", "moderate", "tolerant"};
};

enum class Region { florida, gulf, texas, arizona, california, other };
template <> struct Names<Region> {
  static constexpr std::string_view list[] = {"florida", "gulf", "texas", "arizona", "california", "other"};
};

// What a cultivar may carry that a person must be warned of; cautions name the flags they attach to.
enum class Hazard { furanocoumarins, skin_and_sun, acid_juice };
template <> struct Names<Hazard> {
  static constexpr std::string_view list[] = {"furanocoumarins", "skin_and_sun", "acid_juice"};
};

enum class Tissue { leaf, wood, trunk, fruit, bloom };
inline constexpr std::size_t kTissueCount = 5;
template <> struct Names<Tissue> {
  static constexpr std::string_view list[] = {"leaf", "wood", "trunk", "fruit", "bloom"};
};

// Air temperature, degrees Celsius, at which a four-hour exposure kills half of the tissue of a
// healthy mature tree on a stock of middling hardiness.
struct TissueCold {
  Fact hardened;    // after a long steady cool spell
  Fact unhardened;  // growing, after mild weather

  bool operator==(const TissueCold&) const = default;
};

// When fruit is ripe in one region; the engine picks the office's region, else the nearest listed.
struct Ripening {
  Region region = Region::other;
  Window window;

  bool operator==(const Ripening&) const = default;
};

// Everything about a kind of tree that a type states and a cultivar may state better.
struct Traits {
  std::array<TissueCold, kTissueCount> cold;  // indexed by Tissue
  Window bloom;
  std::vector<Ripening> ripening;             // sorted by region, at least one
  Fact holds_weeks;                           // how long ripe fruit keeps on the tree, weeks
  Choice<Heat> heat_need;                     // summer heat for good fruit
  Fact heat_units_c;                          // degree-days above 12.8 C from bloom to first ripe fruit
  Choice<SetsFruit> sets_fruit;
  Choice<PollenWorth> pollen;
  Fact seeds_alone;                           // seeds a fruit without a partner near
  Fact seeds_with_pollen;                     // seeds a fruit with good pollen near
  Fact height_m;                              // mature, on a standard stock, unpruned
  Fact spread_m;
  Choice<Habit> habit;
  Choice<Thorns> thorns;
  Fact bearing_age_years;                     // first worthwhile crop, years after planting
  Choice<Alternation> alternation;
  Choice<Rebloom> rebloom;
  Choice<Fitness> container;
  Choice<Taste> taste;
  Choice<Peel> peel;
  Choices<Use> uses;
  Fact fruit_cm;                              // fruit diameter
  Choice<Ornament> ornamental;
  Choice<Tolerance> greening, canker, scab;
  Choices<Hazard> hazards;

  bool operator==(const Traits&) const = default;
};

// The two alleles of the locus by which citrus refuses its own pollen. Papers number them by schemes of
// their own; alleles of different schemes are never compared. "Sf" neither refuses nor is refused.
struct SGenotype {
  std::string scheme;                         // "" = not known
  std::vector<std::string> alleles;           // two, "Sf" or "S" and a number
  Evidence evidence;

  bool operator==(const SGenotype&) const = default;
};

struct CitrusType {
  std::string id;
  std::string botanical;                      // accepted name with authority
  std::vector<std::string> botanical_synonyms;
  std::vector<std::string> synonyms;          // trade and kitchen names, any language
  Evidence naming;                            // who says so
  int trade_order = 0;                        // 1 = hardiest; the order in which the trade lists types
  Traits traits;

  bool operator==(const CitrusType&) const = default;
};

struct Cultivar {
  std::string id;
  std::string type;                           // id of a CitrusType
  std::string name;                           // as the trade writes it; the same in every language
  std::string botanical;                      // own, else the type's
  std::vector<std::string> synonyms;
  std::vector<std::string> misspellings;      // what people write and say
  std::vector<std::string> look_alikes;       // cultivar ids it is confused with
  std::vector<std::string> ancestors;         // ids of cultivars, types or wild species it descends from
  std::vector<std::string> partners;          // cultivar ids known to set its fruit well
  std::vector<std::string> not_partners;      // cultivar ids whose pollen it refuses: stated, or by s_genotype
  SGenotype s_genotype;                       // of this clone alone: a type's hybrids differ
  double cold_offset_c = 0;                   // already applied to traits.cold; kept to be shown
  Traits traits;                              // complete: own where stated, else the type's

  bool operator==(const Cultivar&) const = default;
};

struct Rootstock {
  std::string id;
  std::string name;
  std::string botanical;
  std::vector<std::string> synonyms;
  Fact cold_gain_c;                           // degrees hardier (+) than on a middling stock, hardened
  Fact size_share;                            // height as a share of the same top on a standard stock, 0..1.2
  Choice<Fitness> lime, salt, wet, drought, foot_rot, tristeza, fruit_quality;
  std::vector<std::string> unfit_for;         // type or cultivar ids that fail on it
  Evidence unfit_evidence;
};

struct Microclimate {
  Spot spot{};
  Fact warmer_c;                              // warmer (+) than the station on a still freezing night
};

// A way a household may get trees through a freeze; the engine counts its nights of work.
struct Protection {
  std::string id;                             // "none" must exist
  Fact gain_c;                                // degrees on a still (radiative) night
  Fact windy_gain_c;                          // degrees on a windy (advective) night
  std::array<bool, kTissueCount> covers{};    // which tissues it warms
  Fact minutes_per_night;                     // work, one tree
  int ready_hours = 0;                        // to be in place this long before the first freezing hour
  bool container_only = false;                // e.g. moving indoors
  bool fits_tall_trees = true;                // false: only while the tree is small
  std::vector<std::string> cautions;          // caution ids it always brings with it
};

enum class Severity { low, medium, high };
template <> struct Names<Severity> {
  static constexpr std::string_view list[] = {"low", "medium", "high"};
};

// A situation in which a caution must be printed whatever the score.
enum class Situation {
  eats_fruit, medicine, skin_and_sun, pets, thorny, heavy_container, protects, heat_source, icing,
  ladder, digs, sprays, acid_fruit, moves_plants
};
template <> struct Names<Situation> {
  static constexpr std::string_view list[] = {
      "eats_fruit", "medicine", "skin_and_sun", "pets", "thorny", "heavy_container", "protects",
      "heat_source", "icing", "ladder", "digs", "sprays", "acid_fruit", "moves_plants"};
};

struct Caution {
  std::string id;
  Severity severity = Severity::medium;
  std::vector<Situation> when;                // any of these
  std::string defer_to;                       // key in words: who to ask (pharmacist, physician, label ...)
  Evidence evidence;
};

struct Source {
  std::string id, publisher, title, number, year, url;
  bool read = false;                          // false: recalled, no copy seen
};

enum class Jurisdiction { federal, state };
template <> struct Names<Jurisdiction> {
  static constexpr std::string_view list[] = {"federal", "state"};
};
enum class Actor { everyone, nursery, seller };
template <> struct Names<Actor> {
  static constexpr std::string_view list[] = {"everyone", "nursery", "seller"};
};
enum class Action { import, move_interstate, move_in, move_out, move_within, sell, propagate, plant };
template <> struct Names<Action> {
  static constexpr std::string_view list[] = {"import",      "move_interstate", "move_in",   "move_out",
                                              "move_within", "sell",            "propagate", "plant"};
};
enum class Effect { forbidden, allowed_if, allowed };
template <> struct Names<Effect> {
  static constexpr std::string_view list[] = {"forbidden", "allowed_if", "allowed"};
};

// One rule of plant-movement law, as structure to ask about: never legal advice. Where no rule is on
// file the answer is "ask", never "allowed".
struct MovementRule {
  std::string id;
  Jurisdiction jurisdiction = Jurisdiction::federal;
  std::string state;                          // two letters; "" = federal
  std::vector<std::string> pests;             // citrus_canker, greening ...; empty = whatever the pest
  std::vector<Actor> actors;
  std::vector<Action> actions;
  Effect effect = Effect::forbidden;
  Words says;                                 // what it concerns, in our own words
  std::string citation;
  std::string effective;                      // ISO date, "" = not known
  std::string review_by;                      // ISO date, after which nobody should rely on the entry
  std::string body;                           // who answers for it, by its own name
  std::string defer_to;                       // key in words under `ask`
  Evidence evidence;                          // `seen` is the date on which it was checked
};

// One criterion of the value model: 0..1 by a value function in the engine, times its weight.
struct Criterion {
  std::string id;                             // one the engine knows: see kCriteria in advise.h
  int weight = 0;                             // points out of 100 for a household with no stated priority
};

// The value functions of the criteria.
enum class CurveId {
  good_harvests, crop_by_size, crop_alone, taste_sweet, taste_sweet_tart, taste_sour, fruit_on_stock, use,
  use_as_ornament, seeds_none, seeds_few, season, room_by_crown, ground, container, work_nights,
  thorns_avoided, thorns_minded, ornament
};
template <> struct Names<CurveId> {
  static constexpr std::string_view list[] = {
      "good_harvests", "crop_by_size", "crop_alone", "taste_sweet", "taste_sweet_tart", "taste_sour",
      "fruit_on_stock", "use", "use_as_ornament", "seeds_none", "seeds_few", "season", "room_by_crown",
      "ground", "container", "work_nights", "thorns_avoided", "thorns_minded", "ornament"};
};
inline constexpr std::size_t kCurveCount = names_of<CurveId>().size();

// A value, 0..1, by a figure: a straight line between neighbouring points, flat outside them. For a word the
// figure is its index in its list.
struct ValueCurve {
  std::vector<std::pair<double, double>> points;  // figure and value, figures rising; none: 0 everywhere
};

struct Catalog {
  std::vector<Source> sources;
  std::vector<CitrusType> types;
  std::vector<Cultivar> cultivars;
  std::vector<Rootstock> rootstocks;
  std::vector<Microclimate> microclimates;    // one for each Spot, in the order of Spot
  std::vector<Protection> protections;
  std::vector<Caution> cautions;
  std::vector<MovementRule> rules;            // federal first, then by state; then by id
  std::vector<Question> questions;            // in the order in which a fixed interview asks them
  std::vector<Criterion> criteria;            // in the order in which reasons are listed
  std::array<ValueCurve, kCurveCount> curves;      // by CurveId
  ColdModel cold_model;                       // constants of the cold model
};

// Index by id in a vector sorted by id, or nullptr.
const CitrusType* find_type(const Catalog& catalog, std::string_view id);
const Cultivar* find_cultivar(const Catalog& catalog, std::string_view id);
const Rootstock* find_rootstock(const Catalog& catalog, std::string_view id);
const Caution* find_caution(const Catalog& catalog, std::string_view id);
const Protection* find_protection(const Catalog& catalog, std::string_view id);
const Question* find_question(const Catalog& catalog, std::string_view id);

}  // namespace tenwinters
