// The cold model against what people have seen: cold_observations.csv names a source for every line, all
// of them in catalog/sources.yaml. tools/calibrate prints the same in full.
#include <algorithm>
#include <cstdio>
#include <set>

#include "../real_catalog.h"
#include "calibration/calibration.h"

namespace tenwinters {
namespace {

using testing::real_catalog;

const ColdObservations& observations() {
  static const ColdObservations read = [] {
    const DiskReader disk;
    std::string why;
    const auto text = disk.read(std::string(TENWINTERS_SOURCE_DIR) + "/tests/published/cold_observations.csv", 1u << 20u, why);
    if (!text) ADD_FAILURE() << why;
    return read_cold_observations(text.value_or(""));
  }();
  return read;
}

TEST(ColdCalibration, EveryObservationNamesWhatTheCatalogueKnows) {
  const Catalog& catalog = real_catalog().catalog;
  ASSERT_EQ(observations().fault, "");
  ASSERT_GE(observations().all.size(), 80u);
  std::set<std::string> ids;
  for (const ColdObservation& seen : observations().all) {
    EXPECT_TRUE(ids.insert(seen.id).second) << seen.id << " stands twice";
    EXPECT_TRUE(std::any_of(catalog.sources.begin(), catalog.sources.end(),
                            [&](const Source& source) { return source.id == seen.source; }))
        << seen.id << ": " << seen.source;
    EXPECT_FALSE(seen.said.empty()) << seen.id;
    for (const std::string& kind : seen.kinds)
      EXPECT_TRUE(find_type(catalog, kind) != nullptr || find_cultivar(catalog, kind) != nullptr) << seen.id << ": " << kind;
  }
}

// The sources contradict each other (28 F for four hours "begins" for some and freezes the crop for
// others), so not all can fit; taken together they must, with few constants and no line fitted by itself.
TEST(ColdCalibration, TheWholeFits) {
  std::vector<ColdFit> fits;
  for (const ColdObservation& seen : observations().all) {
    fits.push_back(fit(seen, real_catalog().catalog));
    EXPECT_LE(std::abs(fits.back().degrees), 1.5) << seen.id << " (" << seen.source << "): " << seen.said;
  }
  const ColdFitTotal sum = total(fits);
  std::printf("%d of %d observations fit; misfit %.2f C (root mean square), %+.2f C on average\n", sum.inside,
              sum.observations, sum.rms_degrees, sum.mean_degrees);
  EXPECT_GE(sum.inside * 10, sum.observations * 7);
  EXPECT_LE(sum.rms_degrees, 0.35);
  EXPECT_LE(std::abs(sum.mean_degrees), 0.15);
}

// A model half a degree off, or twice as steep, must be seen to be off: the observations hold it.
TEST(ColdCalibration, AWrongModelDoesNotFit) {
  const auto rms_of = [](const Catalog& catalog) {
    std::vector<ColdFit> fits;
    for (const ColdObservation& seen : observations().all) fits.push_back(fit(seen, catalog));
    return total(fits).rms_degrees;
  };
  const double right = rms_of(real_catalog().catalog);
  for (const double degrees : {-1.5, 1.5}) {
    Catalog moved = real_catalog().catalog;
    const auto move = [degrees](Traits& traits) {
      for (TissueCold& tissue : traits.cold) {
        tissue.hardened.best += degrees;
        tissue.unhardened.best += degrees;
      }
    };
    for (CitrusType& type : moved.types) move(type.traits);
    for (Cultivar& cultivar : moved.cultivars) move(cultivar.traits);
    EXPECT_GT(rms_of(moved), 2 * right) << degrees;
  }
  Catalog unhardening = real_catalog().catalog;
  for (CitrusType& type : unhardening.types)
    for (TissueCold& tissue : type.traits.cold) tissue.hardened.best = tissue.unhardened.best;
  EXPECT_GT(rms_of(unhardening), 2 * right);
}

}  // namespace
}  // namespace tenwinters
