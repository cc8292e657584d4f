#include "tenwinters/pollen.h"

#include <algorithm>

namespace tenwinters {
namespace {

constexpr std::string_view kSelfFertile = "Sf";

bool lists(const std::vector<std::string>& ids, const std::string& id) {
  return std::find(ids.begin(), ids.end(), id) != ids.end();
}

}  // namespace

Match match_of_alleles(const SGenotype& seed_parent, const SGenotype& pollen_parent) {
  if (seed_parent.scheme.empty() || seed_parent.scheme != pollen_parent.scheme || pollen_parent.alleles.empty())
    return Match::unknown;
  std::size_t refused = 0;
  for (const std::string& allele : pollen_parent.alleles)
    if (allele != kSelfFertile && lists(seed_parent.alleles, allele)) ++refused;
  if (refused == 0) return Match::full;
  return refused == pollen_parent.alleles.size() ? Match::none : Match::half;
}

Match compatible(const Cultivar& seed_parent, const Cultivar& pollen_parent) {
  if (pollen_parent.traits.pollen.is == PollenWorth::none) return Match::none;
  if (lists(seed_parent.not_partners, pollen_parent.id)) return Match::none;
  if (lists(seed_parent.partners, pollen_parent.id)) return Match::full;
  if (seed_parent.id == pollen_parent.id) {
    if (seed_parent.traits.sets_fruit.is == SetsFruit::partner_needed) return Match::none;
    if (seed_parent.traits.sets_fruit.is == SetsFruit::own_pollen) return Match::full;
  }
  return match_of_alleles(seed_parent.s_genotype, pollen_parent.s_genotype);
}

int bloom_overlap_months(const Window& a, const Window& b) {
  int months = 0;
  for (int month = 1; month <= 12; ++month)
    if (a.contains(month) && b.contains(month)) ++months;
  return months;
}

}  // namespace tenwinters
