// The picker has every word that a reason may ask for, and none that only paper says.
#include <gtest/gtest.h>

#include <set>

#include "../real_place.h"
#include "render/site.h"
#include "tenwinters/sensitivity.h"

namespace tenwinters {
namespace {

using testing::real_catalog;

TEST(Picker, HasEveryWordOfEveryReason) {
  const Catalog& catalog = real_catalog().catalog;
  std::vector<testing::RealPlace> places;
  for (std::size_t i = 0; i < real_catalog().office.places.size(); ++i) places.emplace_back(i);
  std::set<std::string> asked;
  const auto note = [&](const Reason& reason) {
    for (const Arg& arg : reason.args)
      if (arg.kind == ArgKind::word) asked.insert("enums." + arg.id);
  };
  for (const SampleYard& yard : sample_yards(catalog, real_catalog().office, 150)) {
    for (testing::RealPlace& place : places) {
      const Advice advice = place.advise(yard.answers);
      for (const Reason& reason : advice.notes) note(reason);
      for (const Limit& limit : advice.yard) note(limit.reason);
      for (const Candidate& one : advice.candidates) {
        for (const Reason& reason : one.notes) note(reason);
        for (const Limit& limit : one.limits) note(limit.reason);
        for (const Contribution& part : one.contributions) note(part.reason);
      }
    }
  }
  EXPECT_GT(asked.size(), 15u);
  for (const std::string& key : asked) EXPECT_TRUE(picker_says(key, NamedWords(""))) << key;
  EXPECT_TRUE(picker_says("cautions.acid_fruit.sign", NamedWords("")));  // once left out: the picker then showed the key
  EXPECT_FALSE(picker_says("cautions.acid_fruit.how", NamedWords("")));
  EXPECT_FALSE(picker_says("reasons.plan_carry.one", NamedWords("")));
  EXPECT_TRUE(picker_says("cautions.acid_fruit.text", NamedWords("")));
  EXPECT_FALSE(picker_says("ui.change", NamedWords("say('ui.changes')")));
  EXPECT_TRUE(picker_says("ui.change", NamedWords("say('ui.change')")));
}

}  // namespace
}  // namespace tenwinters
