// When fruit ripens where nobody has written it down: by the heat of an average year, months counted by hand.
#include <gtest/gtest.h>

#include "small_catalog.h"
#include "tenwinters/prospect.h"

namespace tenwinters {
namespace {

// From and to, by the prospect of a tree that blooms in March and April at the small office's place, on the gulf;
// its winters gather `heat` in every month.
std::pair<int, int> ripe(const std::vector<Ripening>& ripening, int heat, double need) {
  const Catalog catalog = testing::small_catalog();
  Cultivar cultivar = testing::small_cultivar("one", -9);
  cultivar.traits.ripening = ripening;
  cultivar.traits.heat_units_c = testing::fact(need);
  Winters winters = testing::small_winters();
  for (Winter& winter : winters.winters) winter.heat_units.fill(heat);
  const Replay replay = make_replay(winters, catalog.cold_model);
  ReplayMemo memo;
  Planting planting;
  planting.cultivar = &cultivar;
  planting.rootstock = &catalog.rootstocks[0];
  planting.protection = find_protection(catalog, "none");
  planting.region = Region::gulf;
  const Prospect found = expected_prospect(planting, replay, memo);
  return {found.ripe_from_month, found.ripe_to_month};
}
using Months = std::pair<int, int>;

TEST(RipeningSeason, MonthsOfTheRegionStandAsWritten) {
  EXPECT_EQ(ripe({{Region::arizona, {1, 3, {}}}, {Region::gulf, {10, 12, {}}}}, 200, 1500), (Months{10, 12}));
}

// The model asks for 0.8 of the heat. Bloom in March and April is at its middle in March, so heat counts from April.
TEST(RipeningSeason, ElsewhereHeatSaysTheFirstMonthAndTheNearestRegionHowMany) {
  const std::vector<Ripening> far = {{Region::arizona, {1, 3, {}}}};
  EXPECT_EQ(ripe(far, 200, 1500), (Months{9, 11}));   // 1200 = 6 months of 200: April to September
  EXPECT_EQ(ripe(far, 150, 1500), (Months{11, 1}));   // 1200 = 8 months of 150: April to November
  EXPECT_EQ(ripe(far, 200, 1510), (Months{10, 12}));  // 1208: a seventh month
  EXPECT_EQ(ripe(far, 120, 1500), (Months{1, 3}));    // 1200 = 10 months of 120: April to January
}

TEST(RipeningSeason, TooLittleHeatInTwoYearsNeverRipens) {
  EXPECT_EQ(ripe({{Region::arizona, {10, 12, {}}}}, 40, 1500), (Months{0, 0}));  // 24 x 40 = 960
  EXPECT_EQ(ripe({{Region::gulf, {10, 12, {}}}}, 40, 1500), (Months{0, 0}));
}

// Eleven months of the year or all: some fruit hangs always, wherever it was seen.
TEST(RipeningSeason, EverbearingTreesKeepTheirMonths) {
  EXPECT_EQ(ripe({{Region::arizona, {1, 12, {}}}}, 200, 1500), (Months{1, 12}));
  EXPECT_EQ(ripe({{Region::arizona, {7, 5, {}}}}, 200, 1500), (Months{7, 5}));
}

}  // namespace
}  // namespace tenwinters
