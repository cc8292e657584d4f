// What the trade says of choosing a citrus tree, asked of the real catalogue and engine.
// Every fact here is common practice, no source, unless a source stands beside it.
#include <gtest/gtest.h>

#include <algorithm>
#include <map>

#include "../real_catalog.h"
#include "tenwinters/advise.h"

namespace tenwinters {
namespace {

using testing::real_catalog;

// A good dooryard whose household answers every question.
Answers dooryard() {
  return {{"sun", "full"},      {"drainage", "good"}, {"planting", "ground"}, {"spot", "open"},         {"room", "medium"},
          {"soil", "acid_or_neutral"}, {"winter_work", "few_nights"}, {"company", "none"},     {"taste", "sweet"},       {"use", "fresh"},
          {"seeds", "any"},     {"season", "any"},    {"thorns", "do_not_mind"}, {"medicine", "include"}, {"pets", "no_pets"},
          {"priority", "balanced"}};
}
Answers dooryard(std::initializer_list<std::pair<const char*, const char*>> changes) {
  Answers answers = dooryard();
  for (const auto& [question, answer] : changes) answers[question] = answer;
  return answers;
}

Advice ask(const Answers& answers, std::size_t place = 0) {
  const auto& real = real_catalog();
  EXPECT_TRUE(check_answers(real.catalog, answers).empty());
  return advise(real.catalog, real.office, real.office.places.at(place), answers);
}

bool says(const std::vector<Reason>& reasons, std::string_view id) {
  return std::any_of(reasons.begin(), reasons.end(), [&](const Reason& one) { return one.id == id; });
}
const Limit* limit(const std::vector<Limit>& limits, std::string_view id) {
  for (const Limit& one : limits)
    if (one.id == id) return &one;
  return nullptr;
}
const Candidate& candidate(const Advice& advice, std::string_view id) {
  for (const Candidate& one : advice.candidates)
    if (one.cultivar == id) return one;
  ADD_FAILURE() << "no cultivar " << id;
  return advice.candidates.front();
}
const Cultivar& cultivar(const Candidate& one) { return *find_cultivar(real_catalog().catalog, one.cultivar); }

// Common practice, no source: eight hours of sun, or the first answer is no.
TEST(Choice, UnderEightHoursOfSunIsANoFirst) {
  for (const char* sun : {"most", "half", "little"}) {
    const Advice advice = ask(dooryard({{"sun", sun}}));
    const Limit* spot = limit(advice.yard, "sun");
    ASSERT_NE(spot, nullptr) << sun;
    EXPECT_EQ(spot->verdict, Verdict::fail) << sun;
    for (const Candidate& one : advice.candidates) ASSERT_EQ(one.shelf, Shelf::not_here) << one.cultivar;
  }
  EXPECT_EQ(limit(ask(dooryard()).yard, "sun"), nullptr);
}

// Common practice, no source: citrus does not stand in water.
TEST(Choice, BadDrainageIsANoFirst) {
  const Advice wet = ask(dooryard({{"drainage", "standing"}}));
  ASSERT_NE(limit(wet.yard, "drainage"), nullptr);
  EXPECT_EQ(limit(wet.yard, "drainage")->verdict, Verdict::fail);
  for (const Candidate& one : wet.candidates) ASSERT_EQ(one.shelf, Shelf::not_here) << one.cultivar;
  EXPECT_EQ(limit(ask(dooryard({{"drainage", "slow"}})).yard, "drainage"), nullptr) << "slow is a note, not a no";
  EXPECT_TRUE(says(ask(dooryard({{"drainage", "slow"}})).notes, "drainage_slow"));
  const Advice pot = ask(dooryard({{"drainage", "standing"}, {"planting", "pot_large"}, {"indoors", "stays_out"}}));
  EXPECT_EQ(limit(pot.yard, "drainage"), nullptr) << "a container keeps the roots out of it";
}

// Common practice, no source: a full-size tree wants 20 US gallons (75.7 l) or more; less is a warning.
TEST(Choice, ContainersUnderTwentyGallonsAreWarnedOf) {
  const Answers small = dooryard({{"planting", "pot_small"}, {"indoors", "carried_in"}}),
                large = dooryard({{"planting", "pot_large"}, {"indoors", "carried_in"}});
  int warned = 0;
  for (const Candidate& one : ask(small).candidates) {
    const Rootstock* stock = find_rootstock(real_catalog().catalog, one.rootstock);
    const bool full_size = cultivar(one).traits.height_m.best * stock->size_share.best >= 2.4;  // above arm's reach
    EXPECT_EQ(says(one.notes, "container_small"), full_size) << one.cultivar;
    warned += full_size ? 1 : 0;
  }
  EXPECT_GT(warned, 20);
  for (const Candidate& one : ask(large).candidates) EXPECT_FALSE(says(one.notes, "container_small")) << one.cultivar;
}

// Common practice, no source: tangelos and tangerines are told to have a partner.
TEST(Choice, TangelosAndTangerinesAreToldToHaveAPartner) {
  const Advice alone = ask(dooryard());
  int told = 0;
  for (const Candidate& one : alone.candidates) {
    const Cultivar& tree = cultivar(one);
    if (tree.type != "tangelo" && tree.type != "tangerine") continue;
    if (tree.traits.sets_fruit.is == SetsFruit::without_pollen) continue;  // a seedless exception says so itself
    EXPECT_TRUE(says(one.notes, "partner_needed") || says(one.notes, "partner_needed_any") || says(one.notes, "partner_helps")) << one.cultivar;
    ++told;
  }
  EXPECT_GE(told, 5);
}

// Common practice, no source: the rest by type are self-fertile.
TEST(Choice, TheRestByTypeNeedNoPartner) {
  for (const char* type : {"kumquat", "calamondin", "satsuma", "sweet_orange", "grapefruit", "lemon", "key_lime", "tahiti_lime"}) {
    const CitrusType* found = find_type(real_catalog().catalog, type);
    ASSERT_NE(found, nullptr) << type;
    EXPECT_NE(found->traits.sets_fruit.is, SetsFruit::partner_needed) << type;
  }
}

// Common practice, no source: navel oranges and satsumas set without pollen.
TEST(Choice, NavelAndSatsumaSetWithoutPollen) {
  const Catalog& catalog = real_catalog().catalog;
  EXPECT_EQ(find_type(catalog, "satsuma")->traits.sets_fruit.is, SetsFruit::without_pollen);
  const Cultivar* navel = find_cultivar(catalog, "washington_navel");
  ASSERT_NE(navel, nullptr);
  EXPECT_EQ(navel->traits.sets_fruit.is, SetsFruit::without_pollen);
}

// Common practice, no source: two trees of one self-incompatible cultivar do not help each other.
TEST(Choice, TwoOfAKindAreNoPartners) {
  for (const char* company : {"none", "same_kind"}) {
    const Advice advice = ask(dooryard({{"company", company}}));
    int needy = 0;
    for (const Candidate& one : advice.candidates) {
      if (cultivar(one).traits.sets_fruit.is != SetsFruit::partner_needed) continue;
      EXPECT_TRUE(says(one.notes, "partner_needed") || says(one.notes, "partner_needed_any")) << one.cultivar << ' ' << company;
      ++needy;
    }
    EXPECT_GT(needy, 0);
  }
  // And no partner that is named shares the tree's own incompatibility, or is the tree itself.
  for (const Candidate& one : ask(dooryard()).candidates)
    for (const Reason& note : one.notes) {
      if (note.id != "partner_needed") continue;
      EXPECT_EQ((", " + note.args[0].id + ",").find(", " + cultivar(one).name + ","), std::string::npos) << one.cultivar;
      for (const std::string& bad : cultivar(one).not_partners)
        if (const Cultivar* other = find_cultivar(real_catalog().catalog, bad); other != nullptr) {
          EXPECT_EQ((", " + note.args[0].id + ",").find(", " + other->name + ","), std::string::npos) << one.cultivar;
        }
    }
}

// Common practice, no source: hardiest to least, kumquat, calamondin and satsuma before mandarins,
// those before oranges and grapefruit, those before lemons, limes last.
TEST(Choice, ColdGroundSuitsTheHardyTypes) {
  const std::size_t inland = 1;
  const Advice advice = ask(dooryard({{"winter_work", "no_work"}}), inland);
  std::map<std::string, std::pair<double, int>> alive;
  for (const Candidate& one : advice.candidates) {
    auto& [sum, count] = alive[cultivar(one).type];
    sum += one.prospect.alive_at_ten.best;
    ++count;
  }
  const auto mean = [&](const char* type) { return alive.at(type).first / alive.at(type).second; };
  for (const char* hardy : {"kumquat", "calamondin", "satsuma"})
    for (const char* next : {"sweet_orange", "grapefruit", "pomelo"}) EXPECT_GE(mean(hardy), mean(next)) << hardy << ' ' << next;
  for (const char* orange : {"sweet_orange", "grapefruit"})
    for (const char* tender : {"lemon", "key_lime", "tahiti_lime"}) EXPECT_GE(mean(orange), mean(tender)) << orange << ' ' << tender;
  EXPECT_EQ(candidate(advice, advice.candidates.front().cultivar).shelf, Shelf::will_do);
  for (const Candidate& one : advice.candidates)
    if (cultivar(one).type == "key_lime") {
      EXPECT_EQ(one.shelf, Shelf::not_here) << one.cultivar;
    }
}

// Common practice, no source: behind trifoliate stocks for acid ground, sour orange, Cleopatra or rough
// lemon on limy ground.
TEST(Choice, LimyGroundTurnsTheStocksRound) {
  for (const Candidate& one : ask(dooryard({{"soil", "limy"}})).candidates) {
    if (limit(one.limits, "stock") != nullptr || limit(one.limits, "soil") != nullptr) continue;
    EXPECT_NE(find_rootstock(real_catalog().catalog, one.rootstock)->lime.is, Fitness::poor) << one.cultivar;
  }
}

// Common practice, no source: colder or wetter or darker alone never admits more trees.
TEST(Choice, AWorseSpotNeverAdmitsMore) {
  const auto admitted = [](const Advice& advice) {
    return std::count_if(advice.candidates.begin(), advice.candidates.end(), [](const Candidate& one) { return one.shelf != Shelf::not_here; });
  };
  for (std::size_t place : {std::size_t{0}, std::size_t{1}}) {
    const auto open = admitted(ask(dooryard(), place));
    EXPECT_GT(open, 0);
    EXPECT_LE(admitted(ask(dooryard({{"spot", "low_pocket"}}), place)), open);
    EXPECT_GE(admitted(ask(dooryard({{"spot", "south_wall"}}), place)), open);
    EXPECT_LE(admitted(ask(dooryard({{"winter_work", "no_work"}}), place)), open);
    EXPECT_LE(admitted(ask(dooryard({{"room", "small"}}), place)), open);
  }
}

// An office's rule is a no whatever the score, and the body to ask is named by the rule.
TEST(Choice, ALocalRuleRulesOut) {
  const Office& office = real_catalog().office;
  ASSERT_FALSE(office.rules.empty());
  int ruled_out = 0;
  for (const Candidate& one : ask(dooryard()).candidates)
    for (const LocalRule& rule : office.rules)
      for (const std::string& id : rule.forbids)
        if (id == one.cultivar || id == cultivar(one).type) {
          ASSERT_NE(limit(one.limits, "rule"), nullptr) << one.cultivar;
          EXPECT_EQ(one.shelf, Shelf::not_here);
          ++ruled_out;
        }
  EXPECT_GT(ruled_out, 0);
}

// Fruit that may change how medicines act is left out when a household asks, and warned of when not.
TEST(Choice, MedicineFruitIsLeftOutOrWarnedOf) {
  const Advice left_out = ask(dooryard({{"medicine", "leave_out"}})), included = ask(dooryard());
  int fruit = 0;
  for (const Candidate& one : left_out.candidates) {
    const auto& hazards = cultivar(one).traits.hazards.are;
    const bool acts = std::find(hazards.begin(), hazards.end(), Hazard::furanocoumarins) != hazards.end();
    EXPECT_EQ(limit(one.limits, "medicine") != nullptr, acts) << one.cultivar;
    if (!acts) continue;
    ++fruit;
    std::size_t grave = 0;
    for (const std::string& id : candidate(included, one.cultivar).cautions) {
      const Caution* caution = find_caution(real_catalog().catalog, id);
      grave += std::count(caution->when.begin(), caution->when.end(), Situation::medicine) > 0 ? 1u : 0u;
    }
    EXPECT_GT(grave, 0u) << one.cultivar;
  }
  EXPECT_GT(fruit, 5);
}

}  // namespace
}  // namespace tenwinters
