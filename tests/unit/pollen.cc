// Who sets fruit on whose pollen: by alleles, by what is stated, and in the catalogue as it stands.
#include "tenwinters/pollen.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "../real_catalog.h"
#include "tenwinters/advise.h"
#include "tenwinters/plan.h"

namespace tenwinters {
namespace {

SGenotype genotype(const char* scheme, std::vector<std::string> alleles) { return {scheme, std::move(alleles), {}}; }

Cultivar cultivar(const char* id, SetsFruit sets, PollenWorth pollen, SGenotype alleles) {
  Cultivar one;
  one.id = id;
  one.traits.sets_fruit.is = sets;
  one.traits.pollen.is = pollen;
  one.s_genotype = std::move(alleles);
  return one;
}

bool lists(const std::vector<std::string>& ids, const std::string& id) { return std::find(ids.begin(), ids.end(), id) != ids.end(); }

// Honsho 2023: pollen is refused by a style that carries its own allele; Sf refuses nothing and is never refused.
TEST(Pollen, AllelesRefuseTheirLike) {
  const SGenotype seed = genotype("kyushu", {"S4", "S5"});
  EXPECT_EQ(match_of_alleles(seed, genotype("kyushu", {"S9", "S10"})), Match::full);
  EXPECT_EQ(match_of_alleles(seed, genotype("kyushu", {"S4", "S9"})), Match::half);
  EXPECT_EQ(match_of_alleles(seed, genotype("kyushu", {"S5", "S4"})), Match::none);
  EXPECT_EQ(match_of_alleles(seed, genotype("kyushu", {"Sf", "S4"})), Match::half);
  EXPECT_EQ(match_of_alleles(genotype("kyushu", {"Sf", "S4"}), genotype("kyushu", {"Sf", "S3"})), Match::full);
  // Numbers of different schemes are never compared, and nothing is known of an unknown tree.
  EXPECT_EQ(match_of_alleles(seed, genotype("s_rnase", {"S4", "S5"})), Match::unknown);
  EXPECT_EQ(match_of_alleles(seed, {}), Match::unknown);
  EXPECT_EQ(match_of_alleles({}, {}), Match::unknown);
}

TEST(Pollen, WhatIsStatedOverridesTheAlleles) {
  const SGenotype same = genotype("kyushu", {"S4", "S5"});
  Cultivar seed = cultivar("seed", SetsFruit::partner_needed, PollenWorth::good, same);
  Cultivar other = cultivar("other", SetsFruit::partner_needed, PollenWorth::good, same);
  EXPECT_EQ(compatible(seed, other), Match::none);
  seed.partners = {"other"};
  EXPECT_EQ(compatible(seed, other), Match::full);
  seed.partners.clear();
  other.s_genotype = genotype("kyushu", {"S1", "S2"});
  EXPECT_EQ(compatible(seed, other), Match::full);
  seed.not_partners = {"other"};
  EXPECT_EQ(compatible(seed, other), Match::none);
  // Pollen that is not there sets nothing, whoever is said to be a partner.
  seed.not_partners.clear();
  seed.partners = {"other"};
  other.traits.pollen.is = PollenWorth::none;
  EXPECT_EQ(compatible(seed, other), Match::none);
}

TEST(Pollen, OwnPollenIsAsTheTreeSetsFruit) {
  const Cultivar refuses = cultivar("a", SetsFruit::partner_needed, PollenWorth::good, {});
  const Cultivar takes = cultivar("b", SetsFruit::own_pollen, PollenWorth::good, {});
  EXPECT_EQ(compatible(refuses, refuses), Match::none);
  EXPECT_EQ(compatible(takes, takes), Match::full);
  EXPECT_EQ(compatible(takes, refuses), Match::unknown);
}

TEST(Pollen, BloomOverlapCountsWholeMonthsOverTheNewYear) {
  EXPECT_EQ(bloom_overlap_months({3, 5, {}}, {4, 8, {}}), 2);
  EXPECT_EQ(bloom_overlap_months({11, 2, {}}, {1, 3, {}}), 2);
  EXPECT_EQ(bloom_overlap_months({3, 4, {}}, {5, 6, {}}), 0);
  EXPECT_EQ(bloom_overlap_months({1, 12, {}}, {6, 6, {}}), 1);
}

TEST(Pollen, ForbiddenPairsOfTheCatalogue) {
  const Catalog& catalog = testing::real_catalog().catalog;
  const auto forbidden = [&](const char* seed, const char* pollen) { return lists(find_cultivar(catalog, seed)->not_partners, pollen); };
  // Stated: sister tangelos (common in the trade; UF/IFAS from memory).
  EXPECT_TRUE(forbidden("minneola", "orlando"));
  EXPECT_TRUE(forbidden("orlando", "minneola"));
  // Derived from S7 S11 of the common clementine (Frontiers in Plant Science 2024).
  EXPECT_TRUE(forbidden("clementine_algerian", "clemenules"));
  EXPECT_TRUE(forbidden("clemenules", "clementine_algerian"));
  // A pomelo of other alleles than sweet orange takes its pollen.
  EXPECT_EQ(compatible(*find_cultivar(catalog, "hirado_buntan"), *find_cultivar(catalog, "valencia")), Match::full);
  for (const Cultivar& seed : catalog.cultivars) {
    for (const std::string& partner : seed.partners) EXPECT_FALSE(lists(seed.not_partners, partner)) << seed.id << " " << partner;
    for (const std::string& partner : seed.partners) {
      const Cultivar& pollen = *find_cultivar(catalog, partner);
      EXPECT_NE(compatible(seed, pollen), Match::none) << seed.id << " is said to have a partner whose pollen is none: " << partner;
      EXPECT_GT(bloom_overlap_months(seed.traits.bloom, pollen.traits.bloom), 0) << seed.id << " and " << partner;
    }
  }
}

// What the loader derives is what the engine reads: a note of a choice, and a yard's plan.
TEST(Pollen, AdviceNamesPartnersThatServeAndNoneThatCannot) {
  const testing::RealCatalog& real = testing::real_catalog();
  // S9 S10 of Hirado Buntan refuses neither Sf nor S3 of sweet orange (Honsho 2023), whose seedy kinds have good pollen.
  EXPECT_TRUE(lists(find_cultivar(real.catalog, "hirado_buntan")->partners, "pineapple_orange"));
  for (const Place& place : real.office.places) {
    const Advice advice = advise(real.catalog, real.office, place, {{"planting", "ground"}, {"company", "none"}});
    std::size_t named = 0;
    for (const Candidate& candidate : advice.candidates) {
      const Cultivar& tree = *find_cultivar(real.catalog, candidate.cultivar);
      for (const Reason& note : candidate.notes) {
        if (note.id != "partner_needed") continue;
        std::string list = ", ";
        for (const Arg& arg : note.args)
          if (arg.name == "partners") list += arg.id + ", ";
        for (const Cultivar& other : real.catalog.cultivars) {
          if (list.find(", " + other.name + ", ") == std::string::npos) continue;
          ++named;
          EXPECT_NE(compatible(tree, other), Match::none) << tree.id << " is sent to " << other.id;
          EXPECT_GT(bloom_overlap_months(tree.traits.bloom, other.traits.bloom), 0) << tree.id << " and " << other.id;
          EXPECT_NE(tree.id, other.id);
        }
      }
    }
    EXPECT_GT(named, 10u) << place.id;
  }
}

// A plan of sisters that refuse each other leaves both without a partner; stated partners serve.
TEST(Pollen, PlansCountDerivedPairsAndBloom) {
  const Catalog& catalog = testing::real_catalog().catalog;
  const auto tree = [&](const char* id) {
    const Cultivar& cultivar = *find_cultivar(catalog, id);
    PlanTree one;
    one.id = cultivar.id;
    one.type = cultivar.type;
    one.bloom = months_of(cultivar.traits.bloom.from_month, cultivar.traits.bloom.to_month);
    one.pollen = cultivar.traits.pollen.is;
    one.partners = cultivar.partners;
    one.not_partners = cultivar.not_partners;
    return one;
  };
  EXPECT_FALSE(sets_fruit_of(tree("clemenules"), tree("clementine_algerian")));  // same alleles
  EXPECT_FALSE(sets_fruit_of(tree("orlando"), tree("minneola")));                // stated
  EXPECT_TRUE(sets_fruit_of(tree("pineapple_orange"), tree("hirado_buntan")));   // derived
  EXPECT_TRUE(sets_fruit_of(tree("temple"), tree("minneola")));                  // stated
  PlanTree late = tree("temple");
  late.bloom = months_of(9, 9);  // when Minneola is long over
  EXPECT_FALSE(sets_fruit_of(late, tree("minneola")));
}

}  // namespace
}  // namespace tenwinters
