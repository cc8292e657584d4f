// What holds for the choice in every yard: order and names of the catalogue do not matter, a limit lifted bars nobody,
// and the swing that a household names weighs most.
#include <gtest/gtest.h>

#include <algorithm>

#include "../real_catalog.h"
#include "criteria.h"
#include "tenwinters/prospect.h"
#include "tenwinters/rank.h"
#include "tenwinters/sensitivity.h"
#include "wire/wire.h"

namespace tenwinters {
namespace {

using testing::real_catalog;

// The disk, its folders listed the other way round.
class Backwards : public FileReader {
 public:
  [[nodiscard]] std::optional<std::string> read(const std::string& path, std::size_t limit, std::string& why) const override {
    return disk_.read(path, limit, why);
  }
  [[nodiscard]] std::vector<std::string> list(const std::string& folder) const override {
    std::vector<std::string> names = disk_.list(folder);
    std::reverse(names.begin(), names.end());
    return names;
  }
  [[nodiscard]] std::vector<std::string> folders(const std::string& folder) const override { return disk_.folders(folder); }

 private:
  DiskReader disk_;
};

TEST(ChoiceProperties, TheOrderOfFilesDoesNotMatter) {
  const std::string root = std::string(TENWINTERS_SOURCE_DIR) + "/catalog";
  const LoadedCatalog turned = load_catalog(Backwards{}, root);
  ASSERT_GT(turned.catalog.cultivars.size(), 100u);
  EXPECT_EQ(catalog_to_json(turned.catalog), catalog_to_json(real_catalog().catalog));
}

// Every cultivar under another name that keeps the order of names.
std::string renamed(const std::string& id) { return "x_" + id; }

TEST(ChoiceProperties, NamesDoNotMatter) {
  Catalog catalog = real_catalog().catalog;
  Office office = real_catalog().office;
  const auto rename_all = [&](std::vector<std::string>& ids) {
    for (std::string& id : ids)
      if (find_cultivar(real_catalog().catalog, id) != nullptr) id = renamed(id);
  };
  for (Cultivar& cultivar : catalog.cultivars) {
    cultivar.id = renamed(cultivar.id);
    rename_all(cultivar.partners);
    rename_all(cultivar.not_partners);
  }
  for (Rootstock& stock : catalog.rootstocks) rename_all(stock.unfit_for);
  for (LocalRule& rule : office.rules) rename_all(rule.forbids);
  rename_all(office.on_sale);
  for (const SampleYard& yard : sample_yards(real_catalog().catalog, real_catalog().office, 6))
    for (std::size_t place = 0; place < office.places.size(); ++place) {
      const Advice was = advise(real_catalog().catalog, real_catalog().office, real_catalog().office.places[place], yard.answers);
      const Advice is = advise(catalog, office, office.places[place], yard.answers);
      ASSERT_EQ(is.candidates.size(), was.candidates.size());
      for (std::size_t i = 0; i < was.candidates.size(); ++i) {
        EXPECT_EQ(is.candidates[i].cultivar, renamed(was.candidates[i].cultivar));
        EXPECT_EQ(is.candidates[i].points, was.candidates[i].points);
        EXPECT_EQ(is.candidates[i].shelf, was.candidates[i].shelf);
      }
    }
}

TEST(ChoiceProperties, ALimitLiftedBarsNobody) {
  // Each pair: a stricter answer and one that lifts the limit it sets.
  const std::vector<std::pair<Answers, Answers>> lifted = {
      {{{"medicine", "leave_out"}}, {{"medicine", "include"}}},
      {{{"thorns", "avoid"}}, {{"thorns", "do_not_mind"}}},
      {{{"seeds", "none"}}, {{"seeds", "any"}}},
      {{{"room", "small"}}, {{"room", "wide"}}},
  };
  int more = 0;
  for (const SampleYard& yard : sample_yards(real_catalog().catalog, real_catalog().office, 30)) {
    const Place& place = real_catalog().office.places[1];
    const Replay replay = make_replay(place.winters, real_catalog().catalog.cold_model);
    ReplayMemo memo;
    const auto grows = [&](const Answers& changed) {
      Answers answers = yard.answers;
      answers["sun"] = "full";
      answers["drainage"] = "good";
      for (const auto& [question, answer] : changed) answers[question] = answer;
      std::vector<std::string> ids;
      for (const Candidate& candidate : advise(real_catalog().catalog, real_catalog().office, place, answers, replay, memo).candidates)
        if (candidate.shelf != Shelf::not_here) ids.push_back(candidate.cultivar);
      std::sort(ids.begin(), ids.end());
      return ids;
    };
    for (const auto& [strict, free] : lifted) {
      const std::vector<std::string> before = grows(strict), after = grows(free);
      EXPECT_TRUE(std::includes(after.begin(), after.end(), before.begin(), before.end())) << strict.begin()->first;
      more += after.size() > before.size() ? 1 : 0;
    }
    // A rule of the office, taken away.
    Office ruled = real_catalog().office;
    ruled.rules.push_back({});
    ruled.rules.back().id = "test_rule";
    ruled.rules.back().forbids = {"satsuma"};
    for (const Candidate& candidate : advise(real_catalog().catalog, ruled, place, yard.answers, replay, memo).candidates) {
      if (candidate.shelf == Shelf::not_here) continue;
      const auto now = grows(yard.answers);
      EXPECT_TRUE(std::binary_search(now.begin(), now.end(), candidate.cultivar));
    }
  }
  EXPECT_GT(more, 20);
}

TEST(ChoiceProperties, TheOrderAloneIsThatOfTheAdvice) {
  int n = 0;
  for (const SampleYard& yard : sample_yards(real_catalog().catalog, real_catalog().office, 12)) {
    Answers answers = yard.answers;
    // Every third is half answered.
    if (++n % 3 == 0)
      for (const char* open : {"spot", "winter_work", "planting", "indoors", "company"}) answers.erase(open);
    const Replay replay = make_replay(yard.place->winters, real_catalog().catalog.cold_model);
    ReplayMemo memo;
    const Ranking order = rank_trees(real_catalog().catalog, real_catalog().office, *yard.place, answers, replay, memo);
    const Advice advice = advise(real_catalog().catalog, real_catalog().office, *yard.place, answers, replay, memo);
    EXPECT_EQ(order.answers, advice.answers);
    EXPECT_EQ(order.unanswered, advice.unanswered);
    ASSERT_EQ(order.trees.size(), advice.candidates.size());
    for (std::size_t i = 0; i < order.trees.size(); ++i) {
      EXPECT_EQ(order.trees[i].cultivar, advice.candidates[i].cultivar);
      EXPECT_EQ(order.trees[i].shelf, advice.candidates[i].shelf);
      EXPECT_EQ(order.trees[i].points, advice.candidates[i].points);
      EXPECT_EQ(order.trees[i].good_harvests, advice.candidates[i].prospect.good_harvests.best);
    }
  }
}

TEST(ChoiceProperties, TheNamedSwingWeighsMost) {
  // Rank-order centroids of three, (1 + 1/2 + 1/3) / 3 and so on: Barron & Barrett, Management Science 42(11), 1996.
  constexpr double kFirst = 11.0 / 18, kOthers = (5.0 / 18 + 2.0 / 18) / 2;
  const std::vector<Criterion> criteria = {{"harvest", 40}, {"taste", 14}, {"use", 10}, {"seeds", 7}, {"season", 7},
                                           {"room", 6},     {"work", 8},   {"thorns", 4}, {"ornament", 4}};
  const std::vector<double> eating = stated_weights(criteria, Priority::eating);
  EXPECT_NEAR(eating[0], 86 * kOthers, 1e-9);
  EXPECT_NEAR(eating[1] + eating[2] + eating[3] + eating[4], 86 * kFirst, 1e-9);
  EXPECT_NEAR(eating[1] / eating[2], 1.4, 1e-9);
  EXPECT_NEAR(eating[6], 86 * kOthers, 1e-9);
  EXPECT_NEAR(eating[5], 6, 1e-9);
  EXPECT_NEAR(stated_weights(criteria, Priority::little_work)[6], 86 * kFirst, 1e-9);
  for (std::size_t p = 0; p < names_of<Priority>().size(); ++p) {
    const std::vector<double> weights = stated_weights(criteria, static_cast<Priority>(p));
    double sum = 0;
    for (double weight : weights) sum += weight;
    EXPECT_NEAR(sum, 100, 1e-9);
  }
  EXPECT_NEAR(stated_weights(criteria, Priority::balanced)[0], 40, 1e-9);
}

}  // namespace
}  // namespace tenwinters
