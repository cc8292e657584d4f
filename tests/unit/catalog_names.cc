// Botanical names: accepted, with their authors, each resting on a source; and the names they replace.
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>
#include <string>

#include "../real_catalog.h"

namespace tenwinters {
namespace {

const std::vector<CitrusType>& types() { return testing::real_catalog().catalog.types; }

bool has(const std::vector<std::string>& names, const std::string& name) { return std::find(names.begin(), names.end(), name) != names.end(); }

// As read: World Flora Online Plant List, wfo-0000608305 of July 2018 (trifoliata) and wfo-0000745706 of June 2025
// (japonica); Flora of China 11, Zhang and Mabberley 2008 (microcarpa); USDA APHIS citrus fact sheets (reticulata, limon,
// latifolia, hystrix); UC Riverside, accession pages (maxima, aurantiifolia); J. F. Morton, Fruits of Warm Climates,
// 1987 (medica, limonia); Australian Botanic Garden (australasica).
const std::map<std::string, std::string> kAccepted = {
    {"trifoliate", "Citrus trifoliata L."},
    {"kumquat", "Citrus japonica Thunb."},
    {"calamondin", "Citrus × microcarpa Bunge"},
    {"mandarin", "Citrus reticulata Blanco"},
    {"pomelo", "Citrus maxima (Burm.) Merr."},
    {"citron", "Citrus medica L."},
    {"lemon", "Citrus × limon (L.) Osbeck"},
    {"key_lime", "Citrus × aurantiifolia (Christm.) Swingle"},
    {"tahiti_lime", "Citrus × latifolia (Yu.Tanaka) Tanaka"},
    {"makrut_lime", "Citrus hystrix DC."},
    {"mandarin_lime", "Citrus × limonia Osbeck"},
    {"finger_lime", "Citrus australasica F.Muell."},
};

TEST(BotanicalNames, AreThoseOfTheSources) {
  for (const auto& [id, name] : kAccepted) EXPECT_EQ(find_type(testing::real_catalog().catalog, id)->botanical, name) << id;
}

TEST(BotanicalNames, EveryTypeHasOneWithItsAuthorAndASource) {
  for (const CitrusType& type : types()) {
    EXPECT_TRUE(type.botanical.starts_with("Citrus ")) << type.id << ": " << type.botanical;
    // An author stands behind the epithet: "Citrus medica L.", "Citrus × limon (L.) Osbeck".
    const std::size_t epithet = type.botanical.starts_with("Citrus × ") ? std::string("Citrus × ").size() : std::string("Citrus ").size();
    const std::size_t author = type.botanical.find(' ', epithet);
    ASSERT_NE(author, std::string::npos) << type.id << ": " << type.botanical;
    const char first = type.botanical[author + 1];
    const bool of_hybrids = type.botanical.substr(epithet).starts_with("hybrids with ");  // names their parents instead
    EXPECT_TRUE(first == '(' || (first >= 'A' && first <= 'Z') || of_hybrids) << type.id << ": " << type.botanical;
    EXPECT_FALSE(type.naming.sources.empty()) << type.id;
    EXPECT_TRUE(type.naming.basis == Basis::published || type.naming.basis == Basis::memory) << type.id;
    EXPECT_FALSE(has(type.botanical_synonyms, type.botanical)) << type.id;
    EXPECT_EQ(std::set<std::string>(type.botanical_synonyms.begin(), type.botanical_synonyms.end()).size(), type.botanical_synonyms.size()) << type.id;
  }
}

TEST(BotanicalNames, LimesAreSeveralSpecies) {
  std::set<std::string> species;
  for (const char* id : {"key_lime", "tahiti_lime", "makrut_lime", "mandarin_lime", "sweet_lime", "finger_lime"})
    species.insert(find_type(testing::real_catalog().catalog, id)->botanical);
  EXPECT_EQ(species.size(), 6u);
}

TEST(BotanicalNames, FormerGeneraAreSynonyms) {
  const Catalog& catalog = testing::real_catalog().catalog;
  EXPECT_TRUE(has(find_type(catalog, "trifoliate")->botanical_synonyms, "Poncirus trifoliata (L.) Raf."));
  for (const char* name : {"Fortunella japonica (Thunb.) Swingle", "Fortunella margarita (Lour.) Swingle", "Fortunella crassifolia Swingle"})
    EXPECT_TRUE(has(find_type(catalog, "kumquat")->botanical_synonyms, name)) << name;
  EXPECT_TRUE(has(find_type(catalog, "finger_lime")->botanical_synonyms, "Microcitrus australasica (F.Muell.) Swingle"));
  for (const CitrusType& type : catalog.types)
    for (const char* genus : {"Poncirus", "Fortunella", "Microcitrus", "Citrofortunella"}) EXPECT_EQ(type.botanical.find(genus), std::string::npos) << type.id;
  for (const Cultivar& cultivar : catalog.cultivars)
    for (const char* genus : {"Poncirus", "Fortunella", "Microcitrus", "Citrofortunella"}) EXPECT_EQ(cultivar.botanical.find(genus), std::string::npos) << cultivar.id;
  for (const Rootstock& stock : catalog.rootstocks) EXPECT_EQ(stock.botanical.find("Poncirus"), std::string::npos) << stock.id;
}

}  // namespace
}  // namespace tenwinters
