// The choice on a small catalogue: limits, shelves, exact contributions, and what "don't know" does.
#include <gtest/gtest.h>

#include <random>

#include "small_catalog.h"

namespace tenwinters {
namespace {

using testing::find_candidate;
using testing::find_limit;
using testing::has_note;
using testing::small_advice;

Answers full() {
  return {{"sun", "full"}, {"planting", "ground"}, {"soil", "acid"}, {"room", "wide"}, {"work", "none"}, {"taste", "sweet"}, {"priority", "balanced"}};
}
Answers with(Answers answers, const std::string& question, const std::string& answer) {
  answers[question] = answer;
  return answers;
}

TEST(Advise, ContributionsAddUpForEveryYard) {
  const Catalog catalog = testing::small_catalog();
  const Office office = testing::small_office();
  std::mt19937 random(7);
  for (int yard = 0; yard < 400; ++yard) {
    Answers answers;
    for (const Question& question : catalog.questions) {
      const std::size_t pick = random() % (question.answers.size() + 1);
      if (pick < question.answers.size()) answers[question.id] = question.answers[pick].id;
    }
    for (const Candidate& candidate : small_advice(catalog, office, answers).candidates) {
      int points = 0, of = 0;
      for (const Contribution& one : candidate.contributions) {
        EXPECT_LE(0, one.points);
        EXPECT_LE(one.points, one.of);
        points += one.points;
        of += one.of;
      }
      EXPECT_EQ(points, candidate.points);
      EXPECT_EQ(of, 100);
    }
  }
}

TEST(Advise, TheHardyTreeLeads) {
  const Advice advice = small_advice(testing::small_catalog(), testing::small_office(), full());
  ASSERT_EQ(advice.candidates.size(), 3u);
  EXPECT_EQ(advice.candidates[0].cultivar, "brave");
  EXPECT_EQ(advice.candidates[0].shelf, Shelf::will_do);
  const Candidate& tender = *find_candidate(advice, "tender");
  EXPECT_EQ(tender.shelf, Shelf::not_here);
  const Limit* cold = find_limit(tender.limits, "cold");
  ASSERT_NE(cold, nullptr);
  EXPECT_EQ(cold->verdict, Verdict::fail);
}

TEST(Advise, WorkMovesATreeToTheSecondShelf) {
  Catalog catalog = testing::small_catalog();
  // Killed in its wood in the colder half of the winters unless covered.
  catalog.cultivars = {testing::small_cultivar("between", -1)};
  const Office office = testing::small_office();
  const Advice idle = small_advice(catalog, office, full());
  const Advice busy = small_advice(catalog, office, with(full(), "work", "some"));
  EXPECT_EQ(idle.candidates[0].shelf, Shelf::not_here);
  EXPECT_EQ(idle.candidates[0].protection, "none");
  EXPECT_EQ(busy.candidates[0].shelf, Shelf::with_work);
  EXPECT_EQ(busy.candidates[0].protection, "cover");
  EXPECT_GT(busy.candidates[0].prospect.good_harvests.best, idle.candidates[0].prospect.good_harvests.best);
  EXPECT_EQ(busy.candidates[0].cautions, (std::vector<std::string>{"b_cover"}));
}

TEST(Advise, TheSpotIsSettledFirst) {
  const Catalog catalog = testing::small_catalog();
  const Office office = testing::small_office();
  const Advice shade = small_advice(catalog, office, with(full(), "sun", "part"));
  ASSERT_EQ(shade.yard.size(), 1u);
  EXPECT_EQ(shade.yard[0].id, "sun");
  EXPECT_EQ(shade.yard[0].verdict, Verdict::fail);
  EXPECT_EQ(shade.yard[0].reason.id, "sun_short");
  for (const Candidate& candidate : shade.candidates) EXPECT_EQ(candidate.shelf, Shelf::not_here);
  EXPECT_EQ(shade.candidates[0].cultivar, "brave") << "the order still says what would do best";

  Answers unasked = full();
  unasked.erase("sun");
  const Advice open = small_advice(catalog, office, unasked);
  ASSERT_EQ(open.yard.size(), 1u);
  EXPECT_EQ(open.yard[0].verdict, Verdict::unknown);
  EXPECT_DOUBLE_EQ(open.yard[0].chance, 0.6);
  EXPECT_EQ(open.yard[0].reason.id, "find_out");
  EXPECT_EQ(open.candidates[0].shelf, Shelf::will_do);
}

TEST(Advise, TheStockFollowsTheSoil) {
  const Catalog catalog = testing::small_catalog();
  const Office office = testing::small_office();
  EXPECT_EQ(small_advice(catalog, office, full()).candidates[0].rootstock, "acid_stock");
  const Advice limy = small_advice(catalog, office, with(full(), "soil", "limy"));
  EXPECT_EQ(limy.candidates[0].rootstock, "lime_stock");
  EXPECT_EQ(find_limit(limy.candidates[0].limits, "soil"), nullptr);

  Office poor = office;
  poor.rootstocks_on_sale = {"acid_stock"};
  const Advice stuck = small_advice(catalog, poor, with(full(), "soil", "limy"));
  const Limit* soil = find_limit(stuck.candidates[0].limits, "soil");
  ASSERT_NE(soil, nullptr);
  EXPECT_EQ(soil->reason.id, "soil_unfit");
  // A container is filled with whatever mix suits the stock.
  const Advice pot = small_advice(catalog, poor, with(with(full(), "soil", "limy"), "planting", "pot"));
  EXPECT_EQ(find_limit(pot.candidates[0].limits, "soil"), nullptr);
  EXPECT_TRUE(has_note(pot.notes, "soil_in_container"));
}

TEST(Advise, RulesAndUnfitStocksRuleOut) {
  Catalog catalog = testing::small_catalog();
  Office office = testing::small_office();
  office.rules = {{"no_brave", {"brave"}, {{"en", "No."}}, {{"en", "Ask."}}, "Ordinance 1", "2030-01-01"}};
  for (Rootstock& stock : catalog.rootstocks) stock.unfit_for = {"mild"};
  const Advice advice = small_advice(catalog, office, full());
  const Limit* rule = find_limit(find_candidate(advice, "brave")->limits, "rule");
  ASSERT_NE(rule, nullptr);
  EXPECT_EQ(rule->reason.args[0].id, "no_brave");
  const Limit* stock = find_limit(find_candidate(advice, "mild")->limits, "stock");
  ASSERT_NE(stock, nullptr);
  EXPECT_EQ(stock->verdict, Verdict::fail);
  office.rules[0].forbids = {"kind"};
  for (const Candidate& candidate : small_advice(catalog, office, full()).candidates)
    EXPECT_NE(find_limit(candidate.limits, "rule"), nullptr) << candidate.cultivar;
  office.rules[0].forbids = {"acid_stock"};
  EXPECT_EQ(find_candidate(small_advice(catalog, office, full()), "brave")->rootstock, "lime_stock");
}

// "Don't know" is the mean over the answers, weighted by their priors: checked on one criterion and one
// limit against the answers one by one, to the rounding of whole points.
TEST(Advise, DontKnowIsTheMeanOfTheAnswers) {
  const Catalog catalog = testing::small_catalog();
  const Office office = testing::small_office();
  Answers unasked = full();
  unasked.erase("room");
  const Advice wide = small_advice(catalog, office, with(full(), "room", "wide"));
  const Advice narrow = small_advice(catalog, office, with(full(), "room", "narrow"));
  const Advice open = small_advice(catalog, office, unasked);
  const auto points = [](const Advice& advice) {
    for (const Contribution& one : find_candidate(advice, "brave")->contributions)
      if (one.criterion == "room") return one.points;
    return -1;
  };
  EXPECT_NEAR(points(open), (points(wide) + points(narrow)) / 2.0, 1);
  EXPECT_EQ(find_limit(find_candidate(wide, "brave")->limits, "room"), nullptr);
  EXPECT_EQ(find_limit(find_candidate(narrow, "brave")->limits, "room")->verdict, Verdict::fail);
  const Limit* room = find_limit(find_candidate(open, "brave")->limits, "room");
  ASSERT_NE(room, nullptr);
  EXPECT_EQ(room->verdict, Verdict::unknown);
  EXPECT_DOUBLE_EQ(room->chance, 0.5);

  // The headline, too: half the households work, half do not.
  Answers idle = full(), either = full();
  either.erase("work");
  const double none = find_candidate(small_advice(catalog, office, idle), "brave")->prospect.alive_at_ten.best;
  const double some = find_candidate(small_advice(catalog, office, with(idle, "work", "some")), "brave")->prospect.alive_at_ten.best;
  const double mean = find_candidate(small_advice(catalog, office, either), "brave")->prospect.alive_at_ten.best;
  EXPECT_LE(std::min(none, some), mean);
  EXPECT_LE(mean, std::max(none, some));
}

TEST(Advise, DontKnowEqualsNoAnswer) {
  const Catalog catalog = testing::small_catalog();
  const Office office = testing::small_office();
  Answers missing = full(), said = full();
  missing.erase("taste");
  said["taste"] = "dont_know";
  const Advice a = small_advice(catalog, office, missing), b = small_advice(catalog, office, said);
  EXPECT_EQ(a.answers, b.answers);
  EXPECT_EQ(a.unanswered, b.unanswered);
  ASSERT_EQ(a.candidates.size(), b.candidates.size());
  for (std::size_t i = 0; i < a.candidates.size(); ++i) {
    EXPECT_EQ(a.candidates[i].cultivar, b.candidates[i].cultivar);
    EXPECT_EQ(a.candidates[i].points, b.candidates[i].points);
  }
}

TEST(Advise, CommonWeightsScaleOut) {
  const Catalog catalog = testing::small_catalog();
  Catalog scaled = catalog;
  for (Criterion& criterion : scaled.criteria) criterion.weight *= 7;
  const Office office = testing::small_office();
  for (const Answers& answers : {full(), Answers{}}) {
    const Advice a = small_advice(catalog, office, answers), b = small_advice(scaled, office, answers);
    for (std::size_t i = 0; i < a.candidates.size(); ++i) {
      EXPECT_EQ(a.candidates[i].cultivar, b.candidates[i].cultivar);
      EXPECT_EQ(a.candidates[i].points, b.candidates[i].points);
    }
  }
}

TEST(Advise, SmallContainersAreWarnedOf) {
  const Catalog catalog = testing::small_catalog();
  const Advice pot = small_advice(catalog, testing::small_office(), with(with(full(), "planting", "pot"), "indoors", "in"));
  EXPECT_TRUE(has_note(pot.candidates[0].notes, "container_small"));
  EXPECT_EQ(find_limit(pot.candidates[0].limits, "room"), nullptr);
}

TEST(Advise, PartnersAreNamed) {
  Catalog catalog = testing::small_catalog();
  Cultivar& brave = catalog.cultivars[0];
  brave.traits.sets_fruit.is = SetsFruit::partner_needed;
  brave.partners = {"mild", "tender"};
  brave.not_partners = {"tender"};
  const Office office = testing::small_office();
  const Candidate alone = *find_candidate(small_advice(catalog, office, full()), "brave");
  ASSERT_TRUE(has_note(alone.notes, "partner_needed"));
  EXPECT_EQ(alone.notes[0].args[0].id, "mild");
  // Bees need both trees in bloom at once.
  catalog.cultivars[1].traits.bloom = {7, 8, {}};
  EXPECT_TRUE(has_note(find_candidate(small_advice(catalog, office, full()), "brave")->notes, "partner_needed_any"));
}

TEST(Advise, DiseasesOfTheRegionAreToldOfTreesThatCatchThem) {
  Catalog catalog = testing::small_catalog();
  catalog.cultivars[0].traits.canker.is = catalog.cultivars[0].traits.scab.is = Tolerance::susceptible;
  Office office = testing::small_office();
  const auto diseases = [&](const std::string& id) {
    std::vector<std::string> out;
    const Advice advice = small_advice(catalog, office, full());
    for (const Reason& note : find_candidate(advice, id)->notes)
      if (note.id == "disease") out.push_back(note.args.at(0).id);
    return out;
  };
  EXPECT_TRUE(diseases("brave").empty());
  office.diseases_present = {"canker", "greening"};
  EXPECT_EQ(diseases("brave"), std::vector<std::string>{"disease.canker"});
  EXPECT_TRUE(diseases("mild").empty());  // stands both moderately
  office.diseases_present.emplace_back("scab");
  EXPECT_EQ(diseases("brave"), (std::vector<std::string>{"disease.canker", "disease.scab"}));
}

TEST(Advise, CautionsStandWhateverTheScore) {
  Catalog catalog = testing::small_catalog();
  catalog.cultivars[2].traits.hazards.are = {Hazard::furanocoumarins};
  const Advice advice = small_advice(catalog, testing::small_office(), full());
  const Candidate& tender = *find_candidate(advice, "tender");
  EXPECT_EQ(tender.shelf, Shelf::not_here);
  EXPECT_EQ(tender.cautions, (std::vector<std::string>{"a_medicine"}));
}

TEST(Advise, NoRecordNoPromise) {
  Office office = testing::small_office();
  office.places[0].winters.winters.clear();
  for (const Candidate& candidate : small_advice(testing::small_catalog(), office, full()).candidates) {
    EXPECT_EQ(candidate.shelf, Shelf::not_here);
    EXPECT_EQ(find_limit(candidate.limits, "cold")->reason.id, "cold_no_record");
  }
}

TEST(Advise, EmptyCataloguesAreNoFault) {
  const Advice advice = small_advice(Catalog{}, testing::small_office(), {{"sun", "full"}});
  EXPECT_TRUE(advice.candidates.empty());
  EXPECT_TRUE(advice.answers.empty());
  Catalog bare;
  bare.cultivars = {testing::small_cultivar("lonely", -6)};
  const Advice one = small_advice(bare, testing::small_office(), {});
  ASSERT_EQ(one.candidates.size(), 1u);
  EXPECT_EQ(one.candidates[0].rootstock, "");
  EXPECT_EQ(one.candidates[0].points, 0);
}

}  // namespace
}  // namespace tenwinters
