// The dose and its parts, by hand.
#include <gtest/gtest.h>

#include "tenwinters/cold.h"

namespace tenwinters {
namespace {

ColdModel small_model() {
  ColdModel model;
  for_each_constant(model, [](std::string_view, std::string_view, double low, double, Fact& fact) {
    fact.best = fact.low = fact.high = low;
  });
  const auto set = [](Fact& fact, double best) { fact.best = fact.low = fact.high = best; };
  set(model.dose_width_c, 1.5);
  set(model.dose_power, 3);
  set(model.young_c, 2.5);
  set(model.grown_years, 6);
  set(model.fair_health_c, 0.5);
  set(model.poor_health_c, 1.5);
  set(model.heavy_crop_c, 0.3);
  set(model.root_c, -4);
  set(model.small_pot_c, 1);
  set(model.large_pot_c, 3);
  return model;
}

TEST(ColdInjury, FourHoursAtTheKillingPointKillHalf) {
  const ColdNumbers numbers = cold_numbers(small_model(), Lean::best);
  const std::vector<std::int16_t> hours(4, -60);
  EXPECT_EQ(injury(dose(hours, -60 + numbers.width), numbers), 0.5);
  EXPECT_EQ(injury(0, numbers), 0);
  // Twice the dose: 8 to 1; ten times: 1000 to 1.
  EXPECT_DOUBLE_EQ(injury(120, numbers), 8.0 / 9.0);
  EXPECT_DOUBLE_EQ(injury(600, numbers), 1000.0 / 1001.0);
}

TEST(ColdInjury, DoseSumsDepthsAndSkipsWarmHours) {
  const std::vector<std::int16_t> hours = {kWarm, 10, -10, -30, -31, kWarm};
  EXPECT_EQ(dose(hours, -30), 1);
  EXPECT_EQ(dose(hours, -31), 0);
  EXPECT_EQ(dose(hours, 0), 10 + 30 + 31);
  EXPECT_EQ(dose({}, 40), 0);
}

TEST(ColdInjury, TenthsRoundHalvesAway) {
  EXPECT_EQ(to_tenths(-4.44), -44);
  EXPECT_EQ(to_tenths(-4.45), -45);
  EXPECT_EQ(to_tenths(0.05), 1);
  EXPECT_EQ(to_tenths(0), 0);
  EXPECT_EQ(at_hardening(-33, 500), -17);
  EXPECT_EQ(at_hardening(33, 500), 17);
  EXPECT_EQ(at_hardening(33, 0), 0);
  EXPECT_EQ(killing_tenths({-96, -44}, 0), -44);
  EXPECT_EQ(killing_tenths({-96, -44}, 1000), -96);
  EXPECT_EQ(killing_tenths({-96, -44}, 500), -70);
}

TEST(ColdInjury, YoungAndSickTreesShift) {
  const ColdNumbers numbers = cold_numbers(small_model(), Lean::best);
  EXPECT_EQ(state_shift(numbers, 1, Health::good, false), 25);
  EXPECT_EQ(state_shift(numbers, 2, Health::good, false), 20);
  EXPECT_EQ(state_shift(numbers, 5, Health::good, false), 5);
  EXPECT_EQ(state_shift(numbers, 6, Health::good, false), 0);
  EXPECT_EQ(state_shift(numbers, 40, Health::good, false), 0);
  EXPECT_EQ(state_shift(numbers, 0, Health::good, false), 25);
  EXPECT_EQ(state_shift(numbers, 6, Health::fair, false), 5);
  EXPECT_EQ(state_shift(numbers, 6, Health::poor, true), 18);
}

TEST(ColdInjury, PotsByTheLitreUntilALongFreeze) {
  const ColdNumbers numbers = cold_numbers(small_model(), Lean::best);
  EXPECT_EQ(pot_shift(numbers, 10, false), 10);
  EXPECT_EQ(pot_shift(numbers, 19, false), 10);
  EXPECT_EQ(pot_shift(numbers, 38, false), 20);
  EXPECT_EQ(pot_shift(numbers, 57, false), 30);
  EXPECT_EQ(pot_shift(numbers, 200, false), 30);
  EXPECT_EQ(pot_shift(numbers, 200, true), 0);
}

TEST(ColdInjury, LongFreezeIsADayOnEnd) {
  std::vector<std::int16_t> hours(23, -5);
  EXPECT_FALSE(long_freeze(hours));
  hours.push_back(1);
  hours.insert(hours.end(), 23, 0);
  EXPECT_FALSE(long_freeze(hours));
  hours.push_back(0);
  EXPECT_TRUE(long_freeze(hours));
}

TEST(ColdInjury, AThawEndsAFreeze) {
  // Falls, freezes, thaws, freezes again, warms: two pieces, the mild hours going with what came before.
  const std::vector<std::int16_t> hours = {30, 10, -5, -20, 5, kWarm, kWarm, 20, 0, -15, 8};
  const std::vector<Freeze> pieces = freezes(hours);
  ASSERT_EQ(pieces.size(), 2u);
  EXPECT_EQ(pieces[0].first, 0u);
  EXPECT_EQ(pieces[0].count, 8u);
  EXPECT_EQ(pieces[1].first, 8u);
  EXPECT_EQ(pieces[1].count, 3u);
  EXPECT_TRUE(freezes({}).empty());
  const std::vector<std::int16_t> mild = {20, 5, 20};
  ASSERT_EQ(freezes(mild).size(), 1u);
  EXPECT_EQ(freezes(mild)[0].count, 3u);
}

TEST(ColdInjury, TwoNightsKillWhatOneLeft) {
  const ColdNumbers numbers = cold_numbers(small_model(), Lean::best);
  std::vector<std::int16_t> hours(4, -60);
  hours.insert(hours.end(), 6, 30);
  hours.insert(hours.end(), 4, -60);
  EXPECT_EQ(injury_of_spell(hours, -60 + numbers.width, numbers), 0.75);
  // Unbroken frost is one dose.
  const std::vector<std::int16_t> unbroken(8, -60);
  EXPECT_DOUBLE_EQ(injury_of_spell(unbroken, -60 + numbers.width, numbers), 8.0 / 9.0);
}

TEST(ColdInjury, LeanGoesHalfWay) {
  const Fact fact{-4, -6, -3, {}};
  EXPECT_EQ(lean_on(fact, Lean::best, false), -4);
  EXPECT_EQ(lean_on(fact, Lean::worse, false), -3.5);
  EXPECT_EQ(lean_on(fact, Lean::kinder, false), -5);
  EXPECT_EQ(lean_on(fact, Lean::worse, true), -5);
  EXPECT_EQ(lean_on(fact, Lean::kinder, true), -3.5);
  // Hardened is never warmer than unhardened, whatever the ends of the evidence say.
  const TissueCold crossed{{-4, -9, -1, {}}, {-3.5, -4, -3.4, {}}};
  const KillingPoint point = killing_point(crossed, Lean::worse);
  EXPECT_LE(point.hardened, point.unhardened);
}

TEST(ColdInjury, EveryConstantIsVisitedOnce) {
  std::vector<std::string_view> names;
  const ColdModel model = small_model();
  for_each_constant(model, [&](std::string_view name, std::string_view unit, double low, double high, const Fact&) {
    EXPECT_FALSE(unit.empty());
    EXPECT_LT(low, high) << name;
    names.push_back(name);
  });
  EXPECT_EQ(names.size(), sizeof(ColdModel) / sizeof(Fact));
}

}  // namespace
}  // namespace tenwinters
