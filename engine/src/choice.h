// What the parts of the choice share: the tree under judgement, and small tools to say why.
#pragma once

#include <algorithm>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "interview.h"
#include "tenwinters/advise.h"
#include "tenwinters/catalog.h"
#include "tenwinters/office.h"

namespace tenwinters {

struct Setting {
  const Catalog& catalog;
  const Office& office;
  const Place& place;
};

// A cultivar on a rootstock, cared for in one way.
struct Tree {
  const Setting* setting = nullptr;
  const Cultivar* cultivar = nullptr;
  const CitrusType* type = nullptr;       // may be null in an unchecked catalogue
  const Rootstock* stock = nullptr;       // never null
  const Protection* habit = nullptr;      // never null
  bool stock_fits = true;                 // false: every stock to be had fails under this top
  const LocalRule* forbidden_by = nullptr;
  double leaning = 0;                     // -1..1: where size and seeds lie between low, best and high of their evidence
};

// The variables that decide what a winter does to the tree.
inline constexpr Reads kWinterReads = reads({Variable::spot, Variable::container_l, Variable::moves_indoors, Variable::work_nights});

// By a value function of the catalogue; 0 for one without points.
double worth(const Tree& tree, CurveId curve, double x);
template <class E>
  requires std::is_enum_v<E>
double worth(const Tree& tree, CurveId curve, E word) {
  return worth(tree, curve, static_cast<double>(word));
}

// Crown width at full size, metres, on this stock and (if any) in this container.
double full_spread_m(const Tree& tree, const Yard& yard);
// Height at full size in the ground, metres, on this stock.
double full_height_m(const Tree& tree);
// A crown may be kept by pruning at this share of its natural width and still crop.
inline constexpr double kPrunedShare = 0.5;

// Seeds a fruit, with the pollen that is about.
double seeds_here(const Tree& tree, const Yard& yard);
// How well the fruit (or the tree) serves the wished use: 1 made for it, 0 not at all.
double use_match(const Tree& tree, const Yard& yard);
// Whether pollen of another kind reaches the tree, now or once the household has planted it.
bool has_partner(const Yard& yard);

// How the stock takes the ground: the worse of soil and wetness; good in a container, whose mix is chosen.
Fitness ground_fitness(const Rootstock& stock, const Yard& yard);

template <class E>
bool contains(const std::vector<E>& all, E one) {
  return std::find(all.begin(), all.end(), one) != all.end();
}
inline bool contains(const std::vector<std::string>& all, std::string_view one) {
  return std::find(all.begin(), all.end(), one) != all.end();
}

inline Arg arg(std::string name, ArgKind kind, double number) { return {std::move(name), kind, number, {}}; }
inline Arg arg(std::string name, ArgKind kind, std::string_view id) { return {std::move(name), kind, 0, std::string(id)}; }
template <class E>
Arg word_arg(std::string name, std::string_view enumeration, E value) {
  return {std::move(name), ArgKind::word, 0, std::string(enumeration) + "." + std::string(name_of(value))};
}
inline Arg months_arg(const Prospect& prospect) {
  return arg("months", ArgKind::months, prospect.ripe_from_month * 100 + prospect.ripe_to_month);
}
// For print: to a tenth, so that equal figures read equal.
double to_tenth(double value);

}  // namespace tenwinters
