// Which figures the rankings hang on: against moving one figure of one cultivar and asking advise() again.
#include "tenwinters/sensitivity.h"

#include <gtest/gtest.h>

#include <cmath>

#include "small_catalog.h"

namespace tenwinters {
namespace {

const Answers kYard{{"sun", "full"}, {"planting", "ground"}, {"soil", "acid"}, {"room", "wide"}, {"work", "some"}, {"taste", "sour"}, {"priority", "balanced"}};

// Five cultivars close together, so that a figure can carry one past others.
Catalog close_catalog() {
  Catalog catalog = testing::small_catalog();
  catalog.cultivars.clear();
  const Taste tastes[] = {Taste::sweet, Taste::sweet_tart, Taste::sour, Taste::sweet_tart, Taste::sweet};
  for (int i = 0; i < 5; ++i) {
    Cultivar one = testing::small_cultivar("c" + std::to_string(i), -9);
    one.traits.taste.is = tastes[i];
    one.traits.bearing_age_years = {3.0 + i, 2, 9, {}};
    catalog.cultivars.push_back(std::move(one));
  }
  return catalog;
}

// How many stand before it, of those level with it half.
double place_of(const Advice& advice, const std::string& id, const Candidate& as) {
  double before = 0;
  for (const Candidate& other : advice.candidates) {
    if (other.cultivar == id) continue;
    const bool ahead = other.shelf != as.shelf ? other.shelf < as.shelf : other.points > as.points;
    before += ahead ? 1 : other.shelf == as.shelf && other.points == as.points ? 0.5 : 0;
  }
  return before;
}

// The further of the ways, each given as a catalogue with that one figure moved.
double furthest(const Catalog& catalog, const Office& office, const std::string& id, const std::vector<Catalog>& moved) {
  const Advice base = testing::small_advice(catalog, office, kYard);
  const double before = place_of(base, id, *testing::find_candidate(base, id));
  double most = 0;
  for (const Catalog& one : moved) {
    const Advice now = testing::small_advice(one, office, kYard);
    most = std::max(most, std::abs(place_of(base, id, *testing::find_candidate(now, id)) - before));
  }
  return most;
}

const FigureEffect* effect_of(const std::vector<FigureEffect>& effects, const std::string& cultivar, const std::string& trait) {
  for (const FigureEffect& one : effects)
    if (one.cultivar == cultivar && one.trait == trait) return &one;
  return nullptr;
}

TEST(Sensitivity, EachFigureMovesItsCultivarAsFarAsAdviseSays) {
  const Catalog catalog = close_catalog();
  const Office office = testing::small_office();
  const SampleYard yard{&office.places[0], kYard};
  const std::vector<FigureEffect> effects = sensitivity(catalog, office, std::span(&yard, 1));
  double moves = 0;
  for (std::size_t i = 0; i < catalog.cultivars.size(); ++i) {
    const std::string& id = catalog.cultivars[i].id;
    // A number goes to both ends of its evidence.
    std::vector<Catalog> ages(2, catalog);
    ages[0].cultivars[i].traits.bearing_age_years.best = 2;
    ages[1].cultivars[i].traits.bearing_age_years.best = 9;
    const FigureEffect* age = effect_of(effects, id, "bearing_age_years");
    ASSERT_NE(age, nullptr);
    EXPECT_DOUBLE_EQ(age->places, furthest(catalog, office, id, ages)) << id;
    EXPECT_EQ(age->yards, age->places >= 1 ? 1 : 0);
    // A word goes to its neighbours in the list, where it has them.
    std::vector<Catalog> tastes;
    for (const int step : {-1, 1}) {
      const int taste = static_cast<int>(catalog.cultivars[i].traits.taste.is) + step;
      if (taste < 0 || taste >= static_cast<int>(names_of<Taste>().size())) continue;
      tastes.push_back(catalog);
      tastes.back().cultivars[i].traits.taste.is = static_cast<Taste>(taste);
    }
    const FigureEffect* taste = effect_of(effects, id, "taste");
    ASSERT_NE(taste, nullptr);
    EXPECT_DOUBLE_EQ(taste->places, furthest(catalog, office, id, tastes)) << id;
    moves += age->places + taste->places;
    // One that nothing is known to depart from moves nothing.
    EXPECT_EQ(effect_of(effects, id, "height_m")->places, 0);
  }
  EXPECT_GT(moves, 3) << "a catalogue that nothing moves shows nothing";
  for (std::size_t i = 1; i < effects.size(); ++i) EXPECT_GE(effects[i - 1].places, effects[i].places);
}

TEST(Sensitivity, OfCultivarsOnSaleAlone) {
  const Catalog catalog = close_catalog();
  Office office = testing::small_office();
  office.on_sale = {"c1", "c3"};
  const SampleYard yard{&office.places[0], kYard};
  const std::vector<FigureEffect> effects = sensitivity(catalog, office, std::span(&yard, 1));
  EXPECT_NE(effect_of(effects, "c1", "taste"), nullptr);
  EXPECT_NE(effect_of(effects, "c3", "taste"), nullptr);
  // Nobody is moved past what is not sold.
  for (const FigureEffect& one : effects) {
    EXPECT_TRUE(one.cultivar == "c1" || one.cultivar == "c3") << one.cultivar;
    EXPECT_LE(one.places, 1) << one.cultivar << " " << one.trait;
  }
}

TEST(Sensitivity, WithoutAPlaceThereIsNoSample) {
  EXPECT_TRUE(sample_yards(close_catalog(), Office{}, 5).empty());
}

}  // namespace
}  // namespace tenwinters
