// Genotypes of self-incompatibility, and the forbidden pairs that follow from them.
#include <algorithm>

#include "loader/reading.h"
#include "tenwinters/pollen.h"

namespace tenwinters {
namespace {

bool is_allele(const std::string& text) {
  return text == "Sf" || (text.size() >= 2 && text.size() <= 4 && text[0] == 'S' && text[1] >= '1' &&
                          text.find_first_not_of("0123456789", 1) == std::string::npos && text[1] <= '9');
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

void derive_not_partners(Catalog& catalog) {
  for (Cultivar& seed : catalog.cultivars) {
    if (seed.s_genotype.scheme.empty()) continue;
    for (const Cultivar& pollen : catalog.cultivars) {
      // Pollen that is not there is told by `pollen`; here only what is refused.
      if (pollen.id == seed.id || pollen.traits.pollen.is == PollenWorth::none) continue;
      if (compatible(seed, pollen) != Match::none) continue;
      if (std::find(seed.not_partners.begin(), seed.not_partners.end(), pollen.id) == seed.not_partners.end())
        seed.not_partners.push_back(pollen.id);
    }
  }
}

}  // namespace tenwinters
