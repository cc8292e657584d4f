// The least change, applied, does what it says, and none smaller does; what decides between two trees turns their order.
#include "tenwinters/change.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "../real_place.h"
#include "tenwinters/prospect.h"
#include "tenwinters/sensitivity.h"

namespace tenwinters {
namespace {

using testing::real_catalog;
using Here = testing::RealPlace;

LeastChange least_change_of(Here& here, const Answers& answers, const std::string& cultivar) {
  const auto found = least_change(real_catalog().catalog, real_catalog().office, here.place, answers, cultivar, here.replay, here.memo);
  EXPECT_TRUE(found.has_value()) << cultivar;
  return found.value_or(LeastChange{});
}

// 1 = first; 0 = it does not grow.
int place_of(const Advice& advice, const std::string& cultivar) {
  for (std::size_t i = 0; i < advice.candidates.size(); ++i)
    if (advice.candidates[i].cultivar == cultivar) return advice.candidates[i].shelf == Shelf::not_here ? 0 : static_cast<int>(i) + 1;
  return 0;
}
bool reached(const Advice& advice, const std::string& cultivar, Aim aim) {
  const int place = place_of(advice, cultivar);
  return place > 0 && (aim == Aim::grow || place <= 3);
}

bool within_reach(const Change& change) {
  const Question* question = find_question(real_catalog().catalog, change.question);
  return question != nullptr && std::any_of(question->answers.begin(), question->answers.end(),
                                            [&](const Answer& answer) { return answer.id == change.answer && answer.within_reach; });
}

// Where its changes stand in the catalogue.
std::vector<std::pair<std::size_t, std::size_t>> order_of(const WayIn& way) {
  const std::vector<Question>& questions = real_catalog().catalog.questions;
  std::vector<std::pair<std::size_t, std::size_t>> out;
  for (const Change& change : way.changes)
    for (std::size_t q = 0; q < questions.size(); ++q)
      for (std::size_t a = 0; a < questions[q].answers.size(); ++a)
        if (questions[q].id == change.question && questions[q].answers[a].id == change.answer) out.emplace_back(q, a);
  return out;
}

// Yards of both places with one cultivar each, drawn with a fixed seed.
template <class See>
void for_yards(std::size_t count, See see) {
  std::vector<Here> places;
  for (std::size_t p = 0; p < real_catalog().office.places.size(); ++p) places.emplace_back(p);
  std::mt19937 dice(5);
  const std::vector<SampleYard> yards = sample_yards(real_catalog().catalog, real_catalog().office, count);
  ASSERT_EQ(yards.size(), count);
  for (std::size_t i = 0; i < yards.size(); ++i) {
    const std::vector<Cultivar>& all = real_catalog().catalog.cultivars;
    see(places[i % places.size()], yards[i].answers, all[dice() % all.size()].id);
  }
}

TEST(LeastChange, AppliedDoesWhatItSays) {
  int shown = 0, barred = 0, none = 0, equals = 0;
  for_yards(2000, [&](Here& here, const Answers& answers, const std::string& cultivar) {
    const LeastChange least = least_change_of(here, answers, cultivar);
    if (least.reached) {
      EXPECT_TRUE(reached(here.advise(answers), cultivar, Aim::best_three));
      EXPECT_TRUE(least.ways.empty());
      return;
    }
    barred += least.barred.empty() ? 0 : 1;
    none += least.ways.empty() ? 1 : 0;
    for (std::size_t w = 1; w < least.ways.size(); ++w) {
      const WayIn &a = least.ways[w - 1], &b = least.ways[w];
      // Equals stand in the catalogue's order, by whatever library they were sorted.
      if (a.shelf == b.shelf && a.place == b.place && a.points == b.points) {
        EXPECT_LT(order_of(a), order_of(b)) << cultivar;
        ++equals;
      }
    }
    for (const WayIn& way : least.ways) {
      EXPECT_EQ(way.changes.size(), least.ways.front().changes.size());
      Answers changed = answers;
      for (const Change& change : way.changes) {
        EXPECT_TRUE(within_reach(change)) << change.question << "=" << change.answer;
        changed[change.question] = change.answer;
      }
      const Advice then = here.advise(changed);
      EXPECT_TRUE(reached(then, cultivar, least.aim)) << cultivar;
      EXPECT_EQ(place_of(then, cultivar), way.place) << cultivar;
      ++shown;
    }
  });
  // The sample must hold some of each kind.
  EXPECT_GT(shown, 500);
  EXPECT_GT(barred, 50);
  EXPECT_GT(none, 50);
  EXPECT_GT(equals, 50);
}

// Every set of at most `size` answers within reach, tried by the whole choice.
bool any_set_reaches(Here& here, const Answers& answers, const std::string& cultivar, Aim aim, std::size_t size, std::size_t from) {
  const std::vector<Question>& questions = real_catalog().catalog.questions;
  if (reached(here.advise(answers), cultivar, aim)) return true;
  if (size == 0) return false;
  for (std::size_t q = from; q < questions.size(); ++q)
    for (const Answer& answer : questions[q].answers) {
      if (!answer.within_reach) continue;
      Answers changed = answers;
      changed[questions[q].id] = answer.id;
      if (any_set_reaches(here, changed, cultivar, aim, size - 1, q + 1)) return true;
    }
  return false;
}

TEST(LeastChange, NoSmallerSetDoes) {
  int seen[kMostChanges + 1] = {};
  for_yards(60, [&](Here& here, const Answers& answers, const std::string& cultivar) {
    const LeastChange least = least_change_of(here, answers, cultivar);
    if (least.reached) return;
    // Where nothing was found every pair is tried; all triples would take minutes.
    const std::size_t smaller = least.ways.empty() ? 2 : least.ways.front().changes.size() - 1;
    ++seen[least.ways.empty() ? 0 : least.ways.front().changes.size()];
    EXPECT_FALSE(any_set_reaches(here, answers, cultivar, least.aim, smaller, 0)) << cultivar;
  });
  EXPECT_GT(seen[1] + seen[2] + seen[3], 5);
}

TEST(LeastChange, NeverAgainstARuleOrACaution) {
  Office office = real_catalog().office;
  office.rules.push_back({});
  office.rules.back().id = "test_rule";
  office.rules.back().forbids = {"meyer"};
  Here here(0);
  const auto least = least_change(real_catalog().catalog, office, here.place, {}, "meyer", here.replay, here.memo);
  ASSERT_TRUE(least.has_value());
  EXPECT_TRUE(least->ways.empty());
  EXPECT_EQ(least->barred, std::vector<std::string>{"rule"});
  // Asked to leave out fruit that acts on medicines, no pot and no spot brings such fruit in.
  const LeastChange grapefruit = least_change_of(here, {{"sun", "full"}, {"medicine", "leave_out"}}, "marsh");
  EXPECT_TRUE(grapefruit.ways.empty());
  EXPECT_EQ(grapefruit.barred, std::vector<std::string>{"medicine"});
  EXPECT_FALSE(least_change(real_catalog().catalog, office, here.place, {}, "no_such_tree", here.replay, here.memo).has_value());
}

TEST(LeastChange, ACandidateInFullIsThatOfTheAdvice) {
  int refused = 0;
  for_yards(20, [&](Here& here, const Answers& answers, const std::string& cultivar) {
    const auto full = candidate_in_full(real_catalog().catalog, real_catalog().office, here.place, answers, cultivar, here.replay, here.memo);
    ASSERT_TRUE(full.has_value());
    for (const Candidate& one : here.advise(answers).candidates) {
      if (one.cultivar != cultivar) continue;
      EXPECT_EQ(one.points, full->points);
      EXPECT_EQ(one.shelf, full->shelf);
      EXPECT_EQ(one.prospect.good_harvests.best, full->prospect.good_harvests.best);
      EXPECT_LE(full->prospect.good_harvests.low, one.prospect.good_harvests.low);
      EXPECT_GE(full->prospect.good_harvests.high, one.prospect.good_harvests.high);
      if (one.shelf != Shelf::not_here) {
        EXPECT_EQ(full->prospect.good_harvests.low, one.prospect.good_harvests.low);
      } else {
        ++refused;
      }
    }
  });
  EXPECT_GT(refused, 3);
}

TEST(Comparison, EveryTurnTurnsTheOrder) {
  int turns = 0, colds = 0;
  for_yards(60, [&](Here& here, const Answers& answers, const std::string& cultivar) {
    const Advice now = here.advise(answers);
    const std::string other = now.candidates[0].cultivar == cultivar ? now.candidates[1].cultivar : now.candidates[0].cultivar;
    const auto two = compare(real_catalog().catalog, real_catalog().office, here.place, answers, cultivar, other, here.replay, here.memo);
    ASSERT_TRUE(two.has_value());
    const auto leads = [&](const Advice& advice) {
      for (const Candidate& candidate : advice.candidates) {
        if (candidate.cultivar == cultivar) return true;
        if (candidate.cultivar == other) return false;
      }
      ADD_FAILURE() << cultivar;
      return false;
    };
    EXPECT_EQ(two->first_leads, leads(now));
    for (const Turn& turn : two->turns) {
      Answers changed = answers;
      changed[turn.change.question] = turn.change.answer;
      EXPECT_NE(leads(here.advise(changed)), two->first_leads) << turn.change.question << "=" << turn.change.answer;
      ++turns;
    }
    if (!two->cold) return;
    // The same by moving every spot in the catalogue.
    Catalog shifted = real_catalog().catalog;
    for (Microclimate& spot : shifted.microclimates) spot.warmer_c.best += two->cold->warmer_c;
    EXPECT_NE(leads(advise(shifted, real_catalog().office, here.place, answers)), two->first_leads);
    EXPECT_NEAR(two->cold->usual_low_c - two->usual_low_c, two->cold->warmer_c, 1e-9);
    ++colds;
  });
  EXPECT_GT(turns, 10);
  EXPECT_GT(colds, 2);
}

}  // namespace
}  // namespace tenwinters
