// The paper key: what it claims of itself is measured again, and none of its length does better.
#include "tenwinters/key.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>

#include "../real_catalog.h"
#include "tenwinters/prospect.h"
#include "tenwinters/sensitivity.h"

namespace tenwinters {
namespace {

using testing::real_catalog;
using Three = std::vector<std::string>;

struct Seen {
  Answers answers;
  Three best;  // empty: nothing is worth planting
};

// The sample of the key, judged by the whole choice.
const std::vector<Seen>& sample(std::size_t place) {
  static std::map<std::size_t, std::vector<Seen>> known;
  std::vector<Seen>& out = known[place];
  if (!out.empty()) return out;
  const testing::RealCatalog& real = real_catalog();
  const Place& here = real.office.places[place];
  const Replay replay = make_replay(here.winters, real.catalog.cold_model);
  ReplayMemo memo;
  for (const SampleYard& yard : sample_yards(real.catalog, real.office, std::size_t{2} * kKeyYards)) {
    const Advice advice = advise(real.catalog, real.office, here, yard.answers, replay, memo);
    Seen seen{advice.answers, {}};
    for (const Candidate& candidate : advice.candidates)
      if (candidate.shelf != Shelf::not_here && seen.best.size() < 3) seen.best.push_back(candidate.cultivar);
    out.push_back(std::move(seen));
  }
  return out;
}

PaperKey key_of(std::size_t place, int steps = kKeySteps) {
  const testing::RealCatalog& real = real_catalog();
  const Place& here = real.office.places[place];
  const Replay replay = make_replay(here.winters, real.catalog.cold_model);
  ReplayMemo memo;
  return paper_key(real.catalog, real.office, here, {}, replay, memo, steps);
}

bool says_yes(const Answers& answers, const std::string& question, const std::vector<std::string>& wanted) {
  const auto answer = answers.find(question);
  return answer != answers.end() && std::find(wanted.begin(), wanted.end(), answer->second) != wanted.end();
}

double agreement(const PaperKey& key, std::size_t from, const std::vector<Seen>& yards) {
  int agree = 0;
  for (std::size_t i = from; i < from + kKeyYards; ++i) {
    const KeyNode* node = &key.nodes[0];
    int steps = 0;
    for (; !node->question.empty(); ++steps)
      node = &key.nodes[static_cast<std::size_t>(says_yes(yards[i].answers, node->question, node->answers) ? node->yes : node->no)];
    EXPECT_LE(steps, kKeySteps);
    const Three& best = yards[i].best;
    agree += node->trees.empty() ? best.empty() : std::find(best.begin(), best.end(), node->trees[0]) != best.end();
  }
  return 100.0 * agree / kKeyYards;
}

TEST(PaperKey, AgreesAsOftenAsItSays) {
  for (std::size_t place = 0; place < real_catalog().office.places.size(); ++place) {
    const PaperKey key = key_of(place);
    EXPECT_NEAR(agreement(key, 0, sample(place)), key.agrees_fitted, 1e-9);
    EXPECT_NEAR(agreement(key, kKeyYards, sample(place)), key.agrees_fresh, 1e-9);
    // Better than saying the same to everybody, and not only on the yards it was fitted to.
    EXPECT_GT(key.agrees_fresh, key_of(place, 0).agrees_fresh + 10);
    for (const KeyNode& node : key.nodes) EXPECT_GE(node.yards, kKeyEnd);
  }
}

TEST(PaperKey, StepsArePartingsOfTheCatalogue) {
  for (const KeyNode& node : key_of(0).nodes) {
    if (node.question.empty()) continue;
    const Question* question = find_question(real_catalog().catalog, node.question);
    ASSERT_NE(question, nullptr);
    EXPECT_TRUE(std::find(question->splits.begin(), question->splits.end(), node.answers) != question->splits.end());
  }
}

// The best that one label does for these yards.
int best_end(const std::vector<const Seen*>& yards) {
  std::map<std::string, int> often;
  int none = 0, most = 0;
  for (const Seen* yard : yards) {
    none += yard->best.empty() ? 1 : 0;
    for (const std::string& tree : yard->best) most = std::max(most, ++often[tree]);
  }
  return std::max(none, most);
}

// Every key of so many steps, one by one.
int best_of_all(const std::vector<const Seen*>& yards, int steps) {
  int best = best_end(yards);
  if (steps == 0) return best;
  for (const Question& question : real_catalog().catalog.questions)
    for (const std::vector<std::string>& answers : question.splits) {
      std::vector<const Seen*> yes, no;
      for (const Seen* yard : yards) (says_yes(yard->answers, question.id, answers) ? yes : no).push_back(yard);
      if (static_cast<int>(std::min(yes.size(), no.size())) < kKeyEnd) continue;
      best = std::max(best, best_of_all(yes, steps - 1) + best_of_all(no, steps - 1));
    }
  return best;
}

TEST(PaperKey, NoKeyOfItsLengthDoesBetter) {
  std::vector<const Seen*> yards;
  for (std::size_t i = 0; i < kKeyYards; ++i) yards.push_back(&sample(1)[i]);
  for (int steps : {0, 1, 2}) EXPECT_NEAR(key_of(1, steps).agrees_fitted, 100.0 * best_of_all(yards, steps) / kKeyYards, 1e-9) << steps;
}

}  // namespace
}  // namespace tenwinters
