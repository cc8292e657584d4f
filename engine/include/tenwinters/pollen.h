// Who sets fruit on whose pollen: derived from what is known of both, unless the catalogue says otherwise.
//
//   compatible(*find_cultivar(catalog, "minneola"), *find_cultivar(catalog, "orlando"))  -> Match::none
#pragma once

#include "tenwinters/catalog.h"

namespace tenwinters {

// How much of the pollen that lands can set fruit: all, about half (one allele shared), none; `unknown`
// where nothing is known against it.
enum class Match { none, half, full, unknown };
template <> struct Names<Match> {
  static constexpr std::string_view list[] = {"none", "half", "full", "unknown"};
};

// By alleles alone. A pollen grain carries one of its parent's two alleles, and is refused where the seed
// parent has the same one; "Sf" neither refuses nor is refused. Unknown when either genotype is, or when
// they are named by different schemes.
[[nodiscard]] Match match_of_alleles(const SGenotype& seed_parent, const SGenotype& pollen_parent);

// Pollen of `pollen_parent` on flowers of `seed_parent`. In this order: no pollen is no pollen; stated
// partners and not_partners override; a tree's own pollen is as its sets_fruit says; then the alleles.
[[nodiscard]] Match compatible(const Cultivar& seed_parent, const Cultivar& pollen_parent);

// Whole months in which both bloom, 0..12.
[[nodiscard]] int bloom_overlap_months(const Window& a, const Window& b);

}  // namespace tenwinters
