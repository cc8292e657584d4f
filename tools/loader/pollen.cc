// Genotypes of self-incompatibility, and the pairs that follow from them: forbidden, and known to serve.
#include <algorithm>

#include "loader/reading.h"
#include "tenwinters/pollen.h"

namespace tenwinters {
namespace {

bool is_allele(std::string_view text) {
  return text == "Sf" || (text.size() >= 2 && text.size() <= 4 && text[0] == 'S' && text[1] >= '1' &&
                          text.find_first_not_of("0123456789", 1) == std::string_view::npos && text[1] <= '9');
}

}  // namespace

SGenotype read_s_genotype(Reading& reading, YamlFile& file, const Node* node) {
  SGenotype genotype;
  MapReader map(file, node);
  genotype.scheme = read_id(file, map.take("scheme"));
  if (const Node* alleles = map.take("alleles")) {
    genotype.alleles = read_texts(file, alleles);
    for (const Node& item : alleles->children)
      if (item.kind == Node::Kind::scalar && !is_allele(item.text))
        file.fault(item, "found " + quoted(item.text) + ", expected an allele, as S4 or Sf");
    if (alleles->kind == Node::Kind::list && !alleles->partial && alleles->children.size() != 2)
      file.fault(*alleles, "found " + std::to_string(alleles->children.size()) + " alleles, expected 2");
  }
  genotype.evidence = read_evidence(reading, map);
  map.finish();
  return genotype;
}

void derive_pollen(Catalog& catalog) {
  const auto add = [](std::vector<std::string>& ids, const std::string& id) {
    if (std::find(ids.begin(), ids.end(), id) == ids.end()) ids.push_back(id);
  };
  for (Cultivar& seed : catalog.cultivars) {
    if (seed.s_genotype.scheme.empty()) continue;
    const bool needs_partner = seed.traits.sets_fruit.is == SetsFruit::partner_needed;
    for (const Cultivar& pollen : catalog.cultivars) {
      // Pollen that is not there is told by `pollen`; here only what is refused or taken.
      if (pollen.id == seed.id || pollen.traits.pollen.is == PollenWorth::none) continue;
      const Match match = compatible(seed, pollen);
      if (match == Match::none) add(seed.not_partners, pollen.id);
      const bool serves = match == Match::full && pollen.traits.pollen.is == PollenWorth::good &&
                          bloom_overlap_months(seed.traits.bloom, pollen.traits.bloom) > 0;
      if (needs_partner && serves) add(seed.partners, pollen.id);
    }
  }
}

}  // namespace tenwinters
