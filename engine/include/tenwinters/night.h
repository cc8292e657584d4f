// One cold night (or spell of them) and a list of trees: what it does to each, and what to do before it.
//
//   NightAir air{.hardening_permille = 900, .windy = false, .start_hour = 20, .tenths_c = {-22, -31, ...}};
//   NightTree tree{.id = "owari", .traits = &owari.traits};
//   NightReport report = night(air, {&tree, 1}, catalog);
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "tenwinters/advise.h"
#include "tenwinters/catalog.h"
#include "tenwinters/cold.h"

namespace tenwinters {

struct NightAir {
  int hardening_permille = 500;            // 0..1000, of the trees as the cold comes
  bool windy = false;                      // advective: spots and covers matter little
  int month = 0;                           // 1..12; 0 = not known: fruit on the tree, no bloom
  int start_hour = 0;                      // local hour of the first entry, 0..23
  std::vector<std::int16_t> tenths_c;      // station air, hour by hour, tenths of a degree; kWarm = not cold
};

// The weather before the cold.
enum class Before { unsaid, mild, gradual, sudden };
template <> struct Names<Before> {
  static constexpr std::string_view list[] = {"unsaid", "mild", "gradual", "sudden"};
};
// How hardened trees are after it, 0..1000; see the rates of HardeningModel in climate.h.
[[nodiscard]] int hardening_after(Before before);

// One low held for so many hours (at least 1) about the small hours, in still air; the rest is for the caller to set.
[[nodiscard]] NightAir steady_night(double low_c, int hours);

struct NightTree {
  std::string id;                          // as the reader wrote it: a cultivar's or a type's
  const Traits* traits = nullptr;          // never null
  const Rootstock* rootstock = nullptr;    // null = a stock of middling hardiness
  int age = 10;                            // winters since planting, from 1
  Health health = Health::good;
  bool heavy_crop = false;
  double container_l = 0;                  // 0 = in the ground
  double warmer_c = 0;                     // spot, still nights
  Region region = Region::other;
  std::vector<const Protection*> protections;  // in place that night
};

// The worst of it, in words: enums.night_outcome.* .
enum class NightOutcome { unhurt, fruit_hurt, fruit_lost, leaf_burn, defoliated, twigs_killed, cut_back, killed };
template <> struct Names<NightOutcome> {
  static constexpr std::string_view list[] = {"unhurt",     "fruit_hurt",   "fruit_lost", "leaf_burn",
                                              "defoliated", "twigs_killed", "cut_back",   "killed"};
};

// Something to do, with what it alone would add to what is already in place.
struct NightStep {
  std::string id;                          // a protection's id, or "pick_fruit"
  int ready_hours = 0;                     // to be done this long before the first freezing hour
  std::array<double, kTissueCount> saves{};  // share of each tissue kept that would be lost, 0..1
  std::vector<std::string> cautions;       // caution ids
};

struct NightResult {
  std::string id;
  std::array<Interval, kTissueCount> injury;  // 0..1; for fruit and bloom: of what is on the tree
  double roots = 0;                        // of a pot; counted into the trunk
  bool fruit_on = false, bloom_on = false; // at this time of year; true for fruit if the month is not known
  NightOutcome outcome = NightOutcome::unhurt;  // by the best figures
  std::vector<NightStep> steps;            // those that save anything worth it, earliest first
};

struct NightReport {
  int hardening_permille = 0;
  int lowest_tenths = 0;
  int freezing_hours = 0;                  // at or below 0 C
  std::vector<NightResult> trees;          // in the order given
};

[[nodiscard]] NightReport night(const NightAir& air, std::span<const NightTree> trees, const Catalog& catalog);

}  // namespace tenwinters
