// What the trade knows of cold and citrus, held against the model on the real catalogue.
// Every figure here is common practice, no source.
#include <algorithm>

#include "../one_night.h"
#include "../real_catalog.h"

namespace tenwinters {
namespace {

using namespace testing;

const Catalog& catalog() { return real_catalog().catalog; }

NightTree type_tree(const std::string& id) {
  const CitrusType* type = find_type(catalog(), id);
  EXPECT_NE(type, nullptr) << id;
  return tree_of(type->traits);
}

// Common practice, no source: fruit of every kind is lost at 26-28 F held several hours.
TEST(ColdTrade, FruitOfEveryKindIsLostInTheUpperTwenties) {
  for (const CitrusType& type : catalog().types) {
    if (type.id == "trifoliate") continue;  // nobody grows it for its fruit
    const NightTree tree = tree_of(type.traits);
    EXPECT_GE(killed(tree, Tissue::fruit, {f(26), 4, 0.5, false}, catalog()), 0.55) << type.id << " at 26 F";
    EXPECT_GE(killed(tree, Tissue::fruit, {f(27), 6, 0.5, false}, catalog()), 0.5) << type.id << " at 27 F";
    EXPECT_GE(killed(tree, Tissue::fruit, {f(28), 9, 0.5, false}, catalog()), 0.3) << type.id << " at 28 F";
    EXPECT_LE(killed(tree, Tissue::fruit, {f(28), 1, 0.5, false}, catalog()), 0.05) << type.id << ", an hour at 28 F";
    EXPECT_LE(killed(tree, Tissue::fruit, {f(31), 12, 0.5, false}, catalog()), 0.05) << type.id << " at 31 F";
  }
}

// Common practice, no source: small fruit freezes before large.
TEST(ColdTrade, LargeFruitTakesLongest) {
  const auto lost = [](const char* id) { return killed(type_tree(id), Tissue::fruit, {f(27), 4, 0.5, false}, catalog()); };
  EXPECT_LT(lost("sweet_orange"), lost("satsuma"));
  EXPECT_LT(lost("grapefruit"), lost("sweet_orange"));
  EXPECT_LE(lost("pomelo"), lost("grapefruit"));
}

// Common practice, no source: a tree that does not bear 24-25 F for a night comes through one hour of it
// after three or four hours at 29 F.
TEST(ColdTrade, AnHourAtTheBottomIsNotANight) {
  for (const char* id : {"lemon", "mandarin_lime", "grapefruit", "sweet_orange"}) {
    const NightTree tree = type_tree(id);
    const double hardening = std::string(id) == "sweet_orange" || std::string(id) == "grapefruit" ? 0.1 : 0.4;
    EXPECT_GE(killed(tree, Tissue::leaf, {f(24.5), 9, hardening, false}, catalog()), 0.5) << id << ", a night";
    NightAir air = air_of({f(29), 4, hardening, false});
    air.tenths_c.push_back(static_cast<std::int16_t>(to_tenths(f(24.5))));
    const NightResult hour = night(air, {&tree, 1}, catalog()).trees.front();
    EXPECT_LE(hour.injury[static_cast<std::size_t>(Tissue::leaf)].best, 0.12) << id << ", an hour";
    EXPECT_LE(hour.injury[static_cast<std::size_t>(Tissue::wood)].best, 0.02) << id << ", an hour";
  }
}

// Common practice, no source: weeks of slow cooling carry a satsuma to about 19 F; a plunge from the 40s
// to the teens within three days burns or kills it.
TEST(ColdTrade, SlowCoolingCarriesASatsumaToNineteen) {
  const NightTree satsuma = type_tree("satsuma");
  const NightResult slow = lived_through(satsuma, {f(19), 5, 0.9, false}, catalog());
  EXPECT_LE(slow.injury[static_cast<std::size_t>(Tissue::wood)].best, 0.05);
  EXPECT_LE(slow.injury[static_cast<std::size_t>(Tissue::trunk)].best, 0.02);
  EXPECT_LE(slow.injury[static_cast<std::size_t>(Tissue::leaf)].best, 0.20);
  EXPECT_NE(slow.outcome, NightOutcome::killed);

  for (const double low : {13.0, 15.0, 17.0}) {
    const NightResult plunge = lived_through(satsuma, {f(low), 5, 0.1, false}, catalog());
    EXPECT_GE(plunge.injury[static_cast<std::size_t>(Tissue::leaf)].best, 0.9) << low << " F";
    EXPECT_GE(plunge.injury[static_cast<std::size_t>(Tissue::wood)].best, 0.5) << low << " F";
    EXPECT_GE(plunge.outcome, NightOutcome::cut_back) << low << " F";
  }
}

// Common practice, no source: a cold-hardy rootstock takes a tree of the upper 20s to the mid or low 20s.
TEST(ColdTrade, AHardyStockIsWorthSomeDegrees) {
  const Rootstock* trifoliate = find_rootstock(catalog(), "trifoliate_orange");
  const Rootstock* rough_lemon = find_rootstock(catalog(), "rough_lemon");
  ASSERT_TRUE(trifoliate != nullptr && rough_lemon != nullptr);
  NightTree tree = type_tree("sweet_orange");
  tree.rootstock = rough_lemon;
  const double tender = in_f(bears_to_c(tree, Tissue::leaf, 0.1, 0.5, catalog()));
  tree.rootstock = trifoliate;
  const double hardy = in_f(bears_to_c(tree, Tissue::leaf, 0.1, 0.5, catalog()));
  EXPECT_GE(tender - hardy, 1.8);
  EXPECT_GE(tender, 24.5);
  EXPECT_LE(tender, 29);
  EXPECT_GE(hardy, 20);
  EXPECT_LE(hardy, 25.5);
  // In a tree that has not hardened it is worth nothing.
  const double growing = killed(tree, Tissue::leaf, {f(25), 4, 0, false}, catalog());
  tree.rootstock = rough_lemon;
  EXPECT_EQ(killed(tree, Tissue::leaf, {f(25), 4, 0, false}, catalog()), growing);
}

// Common practice, no source: younger and sicker trees are tenderer, by degrees that matter.
TEST(ColdTrade, YoungAndSickTreesAreTenderer) {
  for (const CitrusType& type : catalog().types) {
    NightTree tree = tree_of(type.traits);
    const double grown = bears_to_c(tree, Tissue::leaf, 0.5, 0.5, catalog());
    tree.age = 1;
    const double young = bears_to_c(tree, Tissue::leaf, 0.5, 0.5, catalog());
    EXPECT_GE(young - grown, 1.5) << type.id;
    EXPECT_LE(young - grown, 3.5) << type.id;
    tree.age = 10;
    tree.health = Health::poor;
    const double sick = bears_to_c(tree, Tissue::leaf, 0.5, 0.5, catalog());
    EXPECT_GT(sick - grown, 0.4) << type.id;
  }
}

// Common practice, no source: hardy to about 20 F kumquat, calamondin, satsuma; low 20s mandarin, tangerine,
// tangelo; mid 20s orange, pomelo, grapefruit; upper 20s lemon; about 29 F lime.
TEST(ColdTrade, HardyToAsTheTradeHasIt) {
  struct Line {
    const char* type;
    double from_f, to_f;
  };
  constexpr Line kLines[] = {{"kumquat", 17.5, 21.5},    {"calamondin", 17.5, 22}, {"satsuma", 17.5, 22},
                             {"mandarin", 19.5, 24},     {"tangerine", 20, 24.5},  {"tangelo", 20.5, 24.5},
                             {"sweet_orange", 21.5, 26}, {"pomelo", 22, 26},       {"grapefruit", 22, 26},
                             {"lemon", 25, 29},          {"tahiti_lime", 26.5, 30}, {"key_lime", 27.5, 31}};
  for (const Line& line : kLines) {
    // The first leaves of an ordinary grown tree, half hardened, in four hours.
    const double bears = in_f(bears_to_c(type_tree(line.type), Tissue::leaf, 0.1, 0.5, catalog()));
    EXPECT_GE(bears, line.from_f) << line.type;
    EXPECT_LE(bears, line.to_f) << line.type;
  }
}

// Common practice, no source: the order in which the trade lists the types, hardiest first.
TEST(ColdTrade, TypesStandInTheTradesOrder) {
  std::vector<const CitrusType*> types;
  for (const CitrusType& type : catalog().types) types.push_back(&type);
  std::sort(types.begin(), types.end(), [](const auto* a, const auto* b) { return a->trade_order < b->trade_order; });
  for (const Tissue tissue : {Tissue::leaf, Tissue::wood, Tissue::trunk}) {
    for (std::size_t i = 1; i < types.size(); ++i) {
      const double hardier = bears_to_c(tree_of(types[i - 1]->traits), tissue, 0.5, 0.7, catalog());
      const double tenderer = bears_to_c(tree_of(types[i]->traits), tissue, 0.5, 0.7, catalog());
      EXPECT_LE(hardier, tenderer) << types[i - 1]->id << " before " << types[i]->id << ", " << name_of(tissue);
    }
  }
}

// Common practice, no source: wind takes away what cover and spot are worth; a pot's roots feel the cold
// that the ground keeps off; carried in, the tree is safe from it.
TEST(ColdTrade, WindPotsAndCarryingIn) {
  const Protection* cover = find_protection(catalog(), "cover");
  const Protection* carry = find_protection(catalog(), "carry_in");
  ASSERT_TRUE(cover != nullptr && carry != nullptr);
  NightTree tree = type_tree("sweet_orange");
  const OneNight still{f(20), 6, 0.6, false}, windy{f(20), 6, 0.6, true};
  const double bare = killed(tree, Tissue::leaf, still, catalog());
  tree.protections = {cover};
  const double saved_still = bare - killed(tree, Tissue::leaf, still, catalog());
  const double saved_windy = bare - killed(tree, Tissue::leaf, windy, catalog());
  EXPECT_GT(saved_still, 0.1);
  EXPECT_LT(saved_windy, saved_still);

  NightTree potted = type_tree("satsuma");
  const OneNight hard{f(19), 6, 0.9, false};
  const double ground = killed(potted, Tissue::trunk, hard, catalog());
  potted.container_l = 19;
  const double pot = killed(potted, Tissue::trunk, hard, catalog());
  potted.container_l = 95;
  const double large_pot = killed(potted, Tissue::trunk, hard, catalog());
  EXPECT_LT(ground, 0.05);
  EXPECT_GT(pot, 0.5);
  EXPECT_LT(large_pot, pot);
  potted.container_l = 19;
  potted.protections = {carry};
  EXPECT_LT(killed(potted, Tissue::trunk, hard, catalog()), 0.02);
  EXPECT_LT(killed(potted, Tissue::fruit, hard, catalog()), 0.05);
}

}  // namespace
}  // namespace tenwinters
