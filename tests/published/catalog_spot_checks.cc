// Forty figures of the catalogue, drawn with a fixed seed (20261125) among the cultivars' own figures that rest on
// a source somebody read, and typed anew from what the sources say. Numbers are the range that the source prints,
// in our unit; where it speaks in words, they stand behind the row and the value is what they come to on our scale.
#include <gtest/gtest.h>

#include <string>

#include "../real_catalog.h"
#include "tenwinters/traits.h"

namespace tenwinters {
namespace {

struct Words {
  const char* cultivar;
  const char* trait;
  const char* value;
  const char* source;
};

constexpr const char* kRiverside = "UC Riverside, Givaudan Citrus Variety Collection, accession page";
constexpr const char* kTexas = "Texas A&M AgriLife Extension, Table 1, characteristics of common Texas citrus varieties";

const Words kWords[] = {
    {"bergamot", "habit", "upright", "World Agroforestry, species sheet, Citrus bergamia"},  // erect, much branched
    {"bingo", "ripening.florida", "10 to 10", "UF/IFAS Citrus Initiative, Bingo twig dieback, 2019"},
    {"bouquet_de_fleurs", "ripening.california", "1 to 3", kRiverside},
    {"buddhas_hand", "ripening.california", "11 to 1", kRiverside},
    {"calamondin", "container", "good", kRiverside},                                         // a usual use
    {"changsha", "peel", "easy", "T. McClendon, The Southeast Garden, Changsha, 2023"},
    {"delta_valencia", "habit", "upright", kRiverside},                                      // slightly more erect
    {"fremont", "habit", "upright", kRiverside},
    {"fremont", "ripening.california", "12 to 1", kRiverside},
    {"ichang_lemon", "taste", "sour", "South-eastern grower's log, Ichang lemon, 2023"},     // very sour
    {"kinnow", "thorns", "few", kRiverside},                                                 // virtually thornless
    {"lisbon", "thorns", "some", "J. W. Sauls, Home fruit production: lemons, Texas A&M, 1998"},  // thorny
    {"marrs", "ripening.texas", "10 to 1", kTexas},
    {"mexican_thornless", "container", "good", "Master Gardener plant sale page, Texas"},    // good patio plant
    {"nippon_orangequat", "habit", "spreading", kRiverside},
    {"nippon_orangequat", "thorns", "none", "USDA APHIS, citrus fact sheet Nippon, 2011"},   // none or not lasting
    {"orlando", "pollen", "good", "UF/IFAS EDIS HS175, Orlando Tangelo, 2018"},              // often used as pollinizer
    {"page", "thorns", "few", "Hodgson 1967 in a nursery's copy of the Riverside page"},     // nearly thornless
    {"ponderosa", "rebloom", "everbearing", kRiverside},
    {"ponkan", "alternation", "strong", kRiverside},
    {"rangpur", "taste", "sour", "J. F. Morton, Fruits of Warm Climates, 1987, pp. 178-179"},  // very sour
    {"tango", "peel", "easy", "Roose and Williams, UC Riverside, Tango mandarin"},           // as W. Murcott
    {"valencia", "peel", "tight", "California Citrus Pest and Disease Prevention Program, Popular citrus guide"},  // hard
    {"valencia", "ripening.texas", "3 to 6", kTexas},
    {"valencia", "uses", "fresh, juice", "UF/IFAS and Florida DPI, Late season orange selections, 1995"},
    {"valentine_pummelo", "taste", "sweet_tart", "UC Davis, New citrus hybrid Valentine, 2011"},  // sweet, a hint of acid
    {"variegated_pink_eureka", "taste", "sour", kRiverside},                                 // very acid
    {"w_murcott", "peel", "moderate", "Citrus Australia, Afourer fact sheet"},               // easy to moderately easy
    {"washington_navel", "pollen", "none", kRiverside},                                      // will not pollinate others
    {"xie_shan", "peel", "easy", kRiverside},
};

struct Numbers {
  const char* cultivar;
  const char* trait;
  double low, high;
  const char* source;
};

const Numbers kNumbers[] = {
    {"bearss_lemon", "seeds_with_pollen", 1, 6, "Tucker et al., Florida citrus varieties, UF/IFAS 1998, p. 49"},
    {"kinnow", "seeds_alone", 12, 24, "Register of New Fruit and Nut Varieties, Kinnow"},
    {"marumi", "seeds_with_pollen", 1, 6, "D. Karp, The Fruit Gardener, kumquats, 2009"},
    {"meiwa", "fruit_cm", 2.5, 3.8, "UF/IFAS Pasco County Extension, Kumquat leaflet"},      // 1 to 1.5 in
    {"meyer", "seeds_alone", 0, 10, "Encyclopaedia article Meyer lemon, and a packer's samples of 5 to 7"},
    {"midknight", "seeds_alone", 0, 1, kRiverside},
    {"orlando", "fruit_cm", 7.0, 7.6, "UF/IFAS EDIS HS175, Orlando Tangelo, 2018"},          // 2.75 to 3 in
    {"silverhill", "height_m", 2.55, 3.45, "Swiss nursery page, Silverhill"},  // 3 m; one figure is good to 15 %
    {"thompson", "fruit_cm", 7.0, 9.5, "Tropical and Subtropical Fruits: Postharvest Physiology, grapefruit"},
    {"washington_navel", "seeds_alone", 0, 1, kRiverside},                                   // seedless
};

std::string months(const Window& window) {
  return std::to_string(window.from_month) + " to " + std::to_string(window.to_month);
}

// The value of a trait in words, "" if it is none of these.
std::string words_at(const Traits& traits, const std::string& wanted) {
  std::string found;
  for_each_trait(traits, Overloaded{
      [](std::string_view, const std::array<TissueCold, kTissueCount>&) {},
      [](std::string_view, const Fact&, std::string_view, double, double) {},
      [](std::string_view, const Window&) {},
      [&](std::string_view key, const std::vector<Ripening>& ripening) {
        for (const Ripening& one : ripening)
          if (std::string(key) + "." + std::string(name_of(one.region)) == wanted) found = months(one.window);
      },
      [&]<class E>(std::string_view key, const Choice<E>& choice) {
        if (key == wanted) found = name_of(choice.is);
      },
      [&]<class E>(std::string_view key, const Choices<E>& choices, bool) {
        if (key != wanted) return;
        for (E one : choices.are) found += (found.empty() ? "" : ", ") + std::string(name_of(one));
      },
  });
  return found;
}

const Fact* fact_at(const Traits& traits, std::string_view wanted) {
  const Fact* found = nullptr;
  for_each_trait(traits, Overloaded{
      [&](std::string_view key, const Fact& fact, std::string_view, double, double) {
        if (key == wanted) found = &fact;
      },
      [](std::string_view, const auto&, auto&&...) {},
  });
  return found;
}

TEST(CatalogSpotChecks, WordsAreThoseOfTheSources) {
  for (const Words& row : kWords) {
    SCOPED_TRACE(std::string(row.cultivar) + " " + row.trait + ": " + row.source);
    const Cultivar* cultivar = find_cultivar(testing::real_catalog().catalog, row.cultivar);
    ASSERT_NE(cultivar, nullptr);
    EXPECT_EQ(words_at(cultivar->traits, row.trait), row.value);
  }
}

TEST(CatalogSpotChecks, NumbersSpanWhatTheSourcesSpan) {
  constexpr double kRounding = 0.06;
  for (const Numbers& row : kNumbers) {
    SCOPED_TRACE(std::string(row.cultivar) + " " + row.trait + ": " + row.source);
    const Cultivar* cultivar = find_cultivar(testing::real_catalog().catalog, row.cultivar);
    ASSERT_NE(cultivar, nullptr);
    const Fact* fact = fact_at(cultivar->traits, row.trait);
    ASSERT_NE(fact, nullptr);
    EXPECT_GE(fact->best, row.low);
    EXPECT_LE(fact->best, row.high);
    EXPECT_NEAR(fact->low, row.low, kRounding);
    EXPECT_NEAR(fact->high, row.high, kRounding);
  }
}

TEST(CatalogSpotChecks, ThereAreForty) { EXPECT_EQ(std::size(kWords) + std::size(kNumbers), 40u); }

}  // namespace
}  // namespace tenwinters
