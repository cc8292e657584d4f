// nearest_name, set_variable, check_answers.
#include <gtest/gtest.h>

#include "small_catalog.h"
#include "tenwinters/names.h"
#include "tenwinters/yard.h"

namespace tenwinters {
namespace {

TEST(NearestName, FindsSlips) {
  const std::string_view words[] = {"none", "few", "some", "many"};
  EXPECT_EQ(nearest_name("sume", words), "some");
  EXPECT_EQ(nearest_name("mnay", words), "many");  // two neighbours swapped count one
  EXPECT_EQ(nearest_name("nonee", words), "none");
}

TEST(NearestName, LeavesOtherWordsAlone) {
  const std::string_view words[] = {"none", "few", "some", "many"};
  EXPECT_EQ(nearest_name("quite_a_lot", words), "");
  EXPECT_EQ(nearest_name("", words), "");
  EXPECT_EQ(nearest_name("xy", words), "");
  EXPECT_EQ(nearest_name(std::string(100000, 'n'), words), "");
}

TEST(NearestName, TiesGoToTheEarlier) {
  const std::string_view words[] = {"bat", "cat"};
  EXPECT_EQ(nearest_name("rat", words), "bat");
}

TEST(SetVariable, ReadsNumbersExactly) {
  Yard yard;
  EXPECT_TRUE(set_variable(yard, Variable::room_m, "4.6"));
  EXPECT_EQ(yard.room_m, 4.6);
  EXPECT_TRUE(set_variable(yard, Variable::container_l, "0"));
  EXPECT_EQ(yard.container_l, 0);
  EXPECT_TRUE(set_variable(yard, Variable::sun_hours, "16"));
  EXPECT_EQ(yard.sun_hours, 16);
}

TEST(SetVariable, SaysWhatFits) {
  for (const char* text : {"", "16.5", "-1", "1e1", "+3", "3h", "nan", "inf", ".5", "5.", "1.2.3", "0x8", "1234567890123456"}) {
    Yard yard;
    std::string expected;
    EXPECT_FALSE(set_variable(yard, Variable::sun_hours, text, &expected)) << text;
    EXPECT_EQ(expected, "a number from 0 to 16 (hours)") << text;
    EXPECT_EQ(yard.sun_hours, 8) << text;
  }
  Yard yard;
  std::string expected;
  EXPECT_FALSE(set_variable(yard, Variable::moves_indoors, "yes", &expected));
  EXPECT_EQ(expected, "true or false");
  EXPECT_FALSE(set_variable(yard, Variable::drainage, "bad", &expected));
  EXPECT_EQ(expected, "one of good, slow, standing");
}

TEST(SetVariable, KnowsEveryVariable) {
  // One text that fits each, in the order of Variable.
  const char* fits[] = {"town", "7", "slow", "limy", "95", "true", "3", "4", "same_kind", "sour", "juice",
                        "few", "winter", "true", "true", "true", "eating"};
  ASSERT_EQ(std::size(fits), names_of<Variable>().size());
  for (std::size_t i = 0; i < std::size(fits); ++i) {
    Yard yard;
    EXPECT_TRUE(set_variable(yard, static_cast<Variable>(i), fits[i])) << names_of<Variable>()[i];
    EXPECT_NE(yard, Yard{}) << names_of<Variable>()[i];
  }
}

TEST(CheckAnswers, NamesTheNearest) {
  const Catalog catalog = testing::small_catalog();
  const std::vector<AnswerFault> faults = check_answers(catalog, {{"sunn", "full"}, {"sun", "ful"}, {"taste", "dont_know"}, {"soil", "lava"}});
  ASSERT_EQ(faults.size(), 3u);
  EXPECT_EQ(faults[0].question, "soil");
  EXPECT_EQ(faults[0].nearest, "");
  EXPECT_EQ(faults[1].question, "sun");
  EXPECT_EQ(faults[1].nearest, "full");
  EXPECT_FALSE(faults[1].question_unknown);
  EXPECT_EQ(faults[2].question, "sunn");
  EXPECT_EQ(faults[2].nearest, "sun");
  EXPECT_TRUE(faults[2].question_unknown);
}

}  // namespace
}  // namespace tenwinters
