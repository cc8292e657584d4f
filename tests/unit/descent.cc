// From every cultivar a line leads down to the wild.
#include "lib/descent.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "../real_catalog.h"

namespace tenwinters {
namespace {

std::vector<std::string> wild_of(const Descent& descent, std::string_view id) {
  std::vector<std::string> ids;
  for (const Forebear* one : wild_ancestors(descent, id)) ids.push_back(one->id);
  return ids;
}

const Descent& real_descent() { return testing::real_catalog().descent; }

TEST(Descent, EveryCultivarReachesAWildSpecies) {
  for (const Cultivar& cultivar : testing::real_catalog().catalog.cultivars) EXPECT_FALSE(wild_of(real_descent(), cultivar.id).empty()) << cultivar.id;
  for (const CitrusType& type : testing::real_catalog().catalog.types) EXPECT_FALSE(wild_of(real_descent(), type.id).empty()) << type.id;
}

TEST(Descent, AsTheSourcesHaveIt) {
  using Ids = std::vector<std::string>;
  // UF/IFAS HS1153: lemon is citron by sour orange; Wu et al. 2018: sour orange is pomelo by mandarin.
  EXPECT_EQ(wild_of(real_descent(), "eureka"), (Ids{"citrus_maxima", "citrus_medica", "citrus_reticulata"}));
  // Rouse et al. 2001: grapefruit is pomelo by sweet orange. UF/IFAS HS171: Minneola is Duncan by Dancy.
  EXPECT_EQ(wild_of(real_descent(), "minneola"), (Ids{"citrus_maxima", "citrus_reticulata"}));
  // UF/IFAS FC47 names citron and micrantha for Key lime.
  EXPECT_EQ(wild_of(real_descent(), "key_lime"), (Ids{"citrus_medica", "citrus_micrantha"}));
  EXPECT_EQ(wild_of(real_descent(), "nagami"), Ids{"citrus_japonica"});
  EXPECT_EQ(wild_of(real_descent(), "finger_lime"), Ids{"citrus_australasica"});
}

TEST(Descent, LinesThatBiteTheirTailEnd) {
  Descent descent;
  descent.parents = {{"a", {"b"}}, {"b", {"a", "w"}}, {"w", {}}};
  descent.forebears = {{"w", {"w", "Citrus w", {}, true}}};
  EXPECT_EQ(wild_of(descent, "a"), std::vector<std::string>{"w"});
  EXPECT_TRUE(wild_of(descent, "nobody").empty());
}

}  // namespace
}  // namespace tenwinters
