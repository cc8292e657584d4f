// The cases of an unfinished interview: exact shares, and no question asked that does not apply.
#include <gtest/gtest.h>

#include "interview.h"
#include "small_catalog.h"

namespace tenwinters {
namespace {

double sum(const std::vector<Case>& cases) {
  double total = 0;
  for (const Case& one : cases) total += one.share;
  return total;
}

TEST(Interview, EnumeratesOnlyWhatIsRead) {
  const Catalog catalog = testing::small_catalog();
  const Interview nothing(catalog, {});
  EXPECT_EQ(nothing.cases(0).size(), 1u);
  EXPECT_EQ(nothing.cases(reads({Variable::sun_hours})).size(), 2u);
  const std::vector<Case> soil_and_work = nothing.cases(reads({Variable::soil, Variable::work_nights}));
  ASSERT_EQ(soil_and_work.size(), 4u);
  EXPECT_DOUBLE_EQ(soil_and_work[0].share, 0.4);
  EXPECT_DOUBLE_EQ(sum(soil_and_work), 1);
}

TEST(Interview, AsksWhatAppliesOnly) {
  const Catalog catalog = testing::small_catalog();
  const Reads moved = reads({Variable::moves_indoors});
  // Only a container may be carried in: ground once, pot twice.
  const std::vector<Case> open = Interview(catalog, {}).cases(moved);
  ASSERT_EQ(open.size(), 3u);
  double moves = 0;
  for (const Case& one : open)
    if (one.yard.moves_indoors) moves += one.share;
  EXPECT_DOUBLE_EQ(moves, 0.25 * 0.6);
  EXPECT_EQ(Interview(catalog, {{"planting", "ground"}}).cases(moved).size(), 1u);
  EXPECT_EQ(Interview(catalog, {{"planting", "pot"}}).cases(moved).size(), 2u);
}

TEST(Interview, AnAnswerHoldsOnlyWhereItsQuestionApplies) {
  const Catalog catalog = testing::small_catalog();
  const Interview ground(catalog, {{"planting", "ground"}, {"indoors", "in"}});
  EXPECT_EQ(ground.understood().count("indoors"), 0u);
  EXPECT_FALSE(ground.likeliest().moves_indoors);
  // Where planting is open the answer stands for the share that plants in pots.
  double moves = 0;
  for (const Case& one : Interview(catalog, {{"indoors", "in"}}).cases(reads({Variable::moves_indoors})))
    if (one.yard.moves_indoors) moves += one.share;
  EXPECT_DOUBLE_EQ(moves, 0.25);
}

TEST(Interview, ListsWhatIsStillToAsk) {
  const Catalog catalog = testing::small_catalog();
  const Interview interview(catalog, {{"planting", "ground"}, {"sun", "dont_know"}, {"soil", "lava"}});
  const std::vector<std::string> expected = {"sun", "soil", "room", "work", "taste", "priority"};
  EXPECT_EQ(interview.unanswered(), expected);
  EXPECT_EQ(interview.understood(), (Answers{{"planting", "ground"}}));
  EXPECT_EQ(interview.first_open(reads({Variable::moves_indoors})), "");
  EXPECT_EQ(interview.first_open(reads({Variable::room_m, Variable::taste})), "room");
}

TEST(Interview, UnevenPriorsAreBroughtToOne) {
  Catalog catalog = testing::small_catalog();
  catalog.questions[0].answers[0].prior = 3;
  catalog.questions[0].answers[1].prior = 1;
  const std::vector<Case> cases = Interview(catalog, {}).cases(reads({Variable::sun_hours}));
  EXPECT_DOUBLE_EQ(cases[0].share, 0.75);
  EXPECT_DOUBLE_EQ(sum(cases), 1);
  // Nothing known of how many: each as likely as the next.
  for (Answer& answer : catalog.questions[0].answers) answer.prior = 0;
  const std::vector<Case> even = Interview(catalog, {}).cases(reads({Variable::sun_hours}));
  ASSERT_EQ(even.size(), 2u);
  EXPECT_DOUBLE_EQ(even[0].share, 0.5);
  EXPECT_DOUBLE_EQ(even[1].share, 0.5);
}

}  // namespace
}  // namespace tenwinters
