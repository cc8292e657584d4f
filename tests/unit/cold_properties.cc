// What must hold for every cultivar: colder, longer, less hardened, younger, sicker never hurts less;
// protection never hurts more; more work never loses a tree; more winters know better.
#include "../one_night.h"
#include "../real_catalog.h"
#include "tenwinters/prospect.h"

namespace tenwinters {
namespace {

using namespace testing;

const Catalog& catalog() { return real_catalog().catalog; }
constexpr Tissue kTissues[] = {Tissue::leaf, Tissue::wood, Tissue::trunk, Tissue::fruit, Tissue::bloom};

// Not less than before, in any tissue, at any lean.
void expect_worse(const NightResult& mild, const NightResult& hard, const std::string& what) {
  for (const Tissue tissue : kTissues) {
    const Interval& a = mild.injury[static_cast<std::size_t>(tissue)];
    const Interval& b = hard.injury[static_cast<std::size_t>(tissue)];
    EXPECT_LE(a.best, b.best) << what << ", " << name_of(tissue);
    EXPECT_LE(a.low, b.low) << what << ", " << name_of(tissue);
    EXPECT_LE(a.high, b.high) << what << ", " << name_of(tissue);
  }
}

TEST(ColdProperties, ColderLongerLessHardened) {
  for (const Cultivar& cultivar : catalog().cultivars) {
    const NightTree tree = tree_of(cultivar.traits);
    for (const double hardening : {0.0, 0.5, 1.0}) {
      NightResult before = lived_through(tree, {0, 4, hardening, false}, catalog());
      for (int half = 1; half <= 28; ++half) {
        const NightResult colder = lived_through(tree, {-half / 2.0, 4, hardening, false}, catalog());
        expect_worse(before, colder, cultivar.id + " colder");
        before = colder;
      }
    }
    for (const double air : {-3.0, -6.0, -9.0}) {
      NightResult before = lived_through(tree, {air, 1, 0.5, false}, catalog());
      for (int hours = 2; hours <= 14; ++hours) {
        const NightResult longer = lived_through(tree, {air, hours, 0.5, false}, catalog());
        expect_worse(before, longer, cultivar.id + " longer");
        before = longer;
      }
      before = lived_through(tree, {air, 5, 1, false}, catalog());
      for (int tenth = 9; tenth >= 0; --tenth) {
        const NightResult softer = lived_through(tree, {air, 5, tenth / 10.0, false}, catalog());
        expect_worse(before, softer, cultivar.id + " less hardened");
        before = softer;
      }
    }
  }
}

TEST(ColdProperties, YoungerSickerCroppedPottedTenderStock) {
  for (const Cultivar& cultivar : catalog().cultivars) {
    for (const double air : {-3.0, -5.0, -7.0, -10.0}) {
      const OneNight night{air, 5, 0.6, false};
      NightTree tree = tree_of(cultivar.traits);
      NightResult before = lived_through(tree, night, catalog());
      for (int age = 9; age >= 1; --age) {
        tree.age = age;
        const NightResult younger = lived_through(tree, night, catalog());
        expect_worse(before, younger, cultivar.id + " younger");
        before = younger;
      }
      tree.health = Health::fair;
      const NightResult fair = lived_through(tree, night, catalog());
      expect_worse(before, fair, cultivar.id + " fair health");
      tree.health = Health::poor;
      const NightResult poor = lived_through(tree, night, catalog());
      expect_worse(fair, poor, cultivar.id + " poor health");
      tree.heavy_crop = true;
      const NightResult cropped = lived_through(tree, night, catalog());
      expect_worse(poor, cropped, cultivar.id + " heavy crop");
      tree.container_l = 95;
      const NightResult potted = lived_through(tree, night, catalog());
      expect_worse(cropped, potted, cultivar.id + " potted");
      tree.container_l = 19;
      expect_worse(potted, lived_through(tree, night, catalog()), cultivar.id + " smaller pot");
    }
    for (const Rootstock& stock : catalog().rootstocks) {
      NightTree tree = tree_of(cultivar.traits);
      tree.rootstock = &stock;
      NightTree other = tree;
      for (const Rootstock& hardier : catalog().rootstocks) {
        if (hardier.cold_gain_c.best < stock.cold_gain_c.best) continue;
        other.rootstock = &hardier;
        const OneNight night{-6, 5, 0.7, false};
        EXPECT_LE(killed(other, Tissue::leaf, night, catalog()), killed(tree, Tissue::leaf, night, catalog()))
            << cultivar.id << " on " << hardier.id << " against " << stock.id;
      }
    }
  }
}

TEST(ColdProperties, ProtectionNeverHurts) {
  for (const Cultivar& cultivar : catalog().cultivars) {
    for (const double litres : {0.0, 57.0}) {
      NightTree bare = tree_of(cultivar.traits);
      bare.container_l = litres;
      for (const Protection& protection : catalog().protections) {
        NightTree covered = bare;
        covered.protections = {&protection};
        for (const bool windy : {false, true}) {
          for (const double air : {-2.5, -5.0, -8.0}) {
            const OneNight night{air, 6, 0.5, windy};
            expect_worse(lived_through(covered, night, catalog()), lived_through(bare, night, catalog()),
                         cultivar.id + " without " + protection.id);
          }
        }
      }
      // Every step that is named helps, and is not in place already.
      const NightResult hard = lived_through(bare, {-6, 6, 0.4, false}, catalog());
      for (const NightStep& step : hard.steps) {
        double most = 0;
        for (const double saved : step.saves) {
          EXPECT_GE(saved, 0) << step.id;
          most = std::max(most, saved);
        }
        EXPECT_GT(most, 0) << step.id;
      }
    }
  }
}

Planting planting_of(const Cultivar& cultivar, const Place& place) {
  Planting planting;
  planting.cultivar = &cultivar;
  planting.rootstock = find_rootstock(catalog(), "carrizo");
  planting.protection = find_protection(catalog(), "none");
  planting.region = place.region;
  return planting;
}

TEST(ColdProperties, TenYearsAnswerToSpotStockAndWork) {
  for (const Place& place : real_catalog().office.places) {
    const Replay replay = make_replay(place.winters, catalog().cold_model);
    ReplayMemo memo;
    for (const Cultivar& cultivar : catalog().cultivars) {
      Planting planting = planting_of(cultivar, place);
      ASSERT_NE(planting.rootstock, nullptr);
      const Prospect open = expected_prospect(planting, replay, memo);
      EXPECT_GE(open.alive_at_ten.best, 0);
      EXPECT_LE(open.alive_at_ten.best, 1);
      EXPECT_LE(open.good_harvests.best + open.crops_lost.best, 10);
      EXPECT_EQ(open.work_nights.best, 0);

      planting.warmer_c = -2;
      EXPECT_LE(expected_prospect(planting, replay, memo).alive_at_ten.best, open.alive_at_ten.best) << cultivar.id;
      planting.warmer_c = 2;
      EXPECT_GE(expected_prospect(planting, replay, memo).good_harvests.best, open.good_harvests.best) << cultivar.id;
      planting.warmer_c = 0;
      planting.rootstock = find_rootstock(catalog(), "trifoliate_orange");
      EXPECT_GE(expected_prospect(planting, replay, memo).alive_at_ten.best, open.alive_at_ten.best) << cultivar.id;
      planting.rootstock = find_rootstock(catalog(), "carrizo");

      planting.protection = find_protection(catalog(), "cover_lamp");
      Prospect less = open;
      for (const double nights : {0.0, 1.0, 2.0, 4.0, 30.0}) {
        planting.work_nights = nights;
        const Prospect more = expected_prospect(planting, replay, memo);
        EXPECT_GE(more.alive_at_ten.best, less.alive_at_ten.best) << cultivar.id << ", nights " << nights;
        EXPECT_GE(more.good_harvests.best, less.good_harvests.best - 1e-12) << cultivar.id << ", nights " << nights;
        EXPECT_LE(more.work_nights.best, nights + 1e-12) << cultivar.id;
        less = more;
      }
    }
  }
}

TEST(ColdProperties, MoreWintersNarrowTheInterval) {
  for (const Place& place : real_catalog().office.places) {
    Winters once = place.winters, twice = place.winters, four_times = place.winters;
    for (int copy = 1; copy < 4; ++copy) {
      Winters& to = four_times;
      to.winters.insert(to.winters.end(), once.winters.begin(), once.winters.end());
    }
    twice.winters.insert(twice.winters.end(), once.winters.begin(), once.winters.end());
    const Replay short_record = make_replay(once, catalog().cold_model), longer = make_replay(twice, catalog().cold_model),
                 longest = make_replay(four_times, catalog().cold_model);
    ReplayMemo a, b, c;
    int strictly = 0;
    for (const Cultivar& cultivar : catalog().cultivars) {
      const Planting planting = planting_of(cultivar, place);
      const Prospect few = prospect(planting, short_record, a), more = prospect(planting, longer, b),
                     many = prospect(planting, longest, c);
      for (Interval Prospect::*part : {&Prospect::alive_at_ten, &Prospect::good_harvests, &Prospect::crops_lost}) {
        const Interval &x = few.*part, &y = more.*part, &z = many.*part;
        EXPECT_NEAR(x.best, y.best, 1e-12);
        EXPECT_LE(y.high - y.low, x.high - x.low + 1e-12) << cultivar.id;
        EXPECT_LE(z.high - z.low, y.high - y.low + 1e-12) << cultivar.id;
        strictly += z.high - z.low < x.high - x.low ? 1 : 0;
      }
    }
    EXPECT_GT(strictly, static_cast<int>(catalog().cultivars.size()));
  }
}

TEST(ColdProperties, NoRecordNoAnswer) {
  const Replay replay = make_replay({}, catalog().cold_model);
  ReplayMemo memo;
  const Prospect none = prospect(planting_of(catalog().cultivars.front(), real_catalog().office.places.front()), replay, memo);
  EXPECT_EQ(none.alive_at_ten.high, 0);
  EXPECT_EQ(none.ripe_from_month, 0);
}

// A winter without frost costs nothing; a cool climate ripens nothing.
TEST(ColdProperties, FrostFreeAndSunless) {
  Winters mild;
  mild.latitude_deg = 28;
  for (int year = 2000; year < 2010; ++year) {
    Winter winter;
    winter.year = year;
    winter.heat_units.fill(400);
    mild.winters.push_back(winter);
  }
  Winters cool = mild;
  for (Winter& winter : cool.winters) winter.heat_units.fill(20);
  const Replay warm = make_replay(mild, catalog().cold_model), cold = make_replay(cool, catalog().cold_model);
  ReplayMemo a, b;
  for (const Cultivar& cultivar : catalog().cultivars) {
    const Planting planting = planting_of(cultivar, real_catalog().office.places.front());
    const Prospect here = prospect(planting, warm, a), there = prospect(planting, cold, b);
    EXPECT_EQ(here.alive_at_ten.best, 1) << cultivar.id;
    EXPECT_EQ(here.crops_lost.best, 0) << cultivar.id;
    EXPECT_GT(here.good_harvests.best, 3) << cultivar.id;
    EXPECT_NE(here.ripe_from_month, 0) << cultivar.id;
    EXPECT_EQ(there.alive_at_ten.best, 1) << cultivar.id;
    EXPECT_EQ(there.good_harvests.best, 0) << cultivar.id;
    EXPECT_EQ(there.ripe_from_month, 0) << cultivar.id;
  }
}

}  // namespace
}  // namespace tenwinters
