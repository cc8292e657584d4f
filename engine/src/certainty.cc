#include "tenwinters/certainty.h"

#include <tuple>

#include "order.h"
#include "scenarios.h"
#include "tenwinters/decide.h"

namespace tenwinters {
namespace {

// ln 2, to turn the small-sample correction into bits.
constexpr double kNat = 0.6931471805599453;
// Below this many bits nothing is told that the sampling might not have made up.
constexpr double kLeastBits = 0.02;

// Information, in bits, that knowing the group tells about whether something happened, from counts. Counts from
// a sample show some where there is none: the mean excess is taken off (Miller, 1955; memory).
double bits_told(const std::vector<int>& group, const std::vector<char>& happened, int groups) {
  std::vector<std::vector<double>> counts(static_cast<std::size_t>(groups), std::vector<double>(2, 0));
  double yes = 0;
  for (std::size_t i = 0; i < group.size(); ++i) {
    counts[static_cast<std::size_t>(group[i])][happened[i] != 0 ? 1 : 0] += 1;
    yes += happened[i] != 0 ? 1 : 0;
  }
  const auto total = static_cast<double>(group.size());
  if (yes == 0 || yes == total) return 0;
  int seen = 0;
  for (const std::vector<double>& row : counts) seen += row[0] + row[1] > 0 ? 1 : 0;
  return information_gain(counts) - (seen - 1) / (2 * total * kNat);
}

std::vector<int> answers_to(const std::vector<Scenario>& scenarios, std::size_t question) {
  std::vector<int> group;
  for (const Scenario& scenario : scenarios) group.push_back(scenario.chosen[question] + 1);  // 0: not asked
  return group;
}

// Low, middle and high third of a range of -1..1.
int third(double x) { return x < -1.0 / 3 ? 0 : x < 1.0 / 3 ? 1 : 2; }

bool among(const BestThree& three, int tree) { return three[0] == tree || three[1] == tree || three[2] == tree; }

// A tree stands among three once; a place left empty may stand there more than once.
bool same_trees(const BestThree& a, const BestThree& b) {
  const auto all_among = [](const BestThree& these, const BestThree& those) {
    return among(those, these[0]) && among(those, these[1]) && among(those, these[2]);
  };
  return all_among(a, b) && all_among(b, a);
}

// Answers to these may make another stock or another care the best, which the scenarios hold fast.
constexpr Reads kCareReads = kWinterReads | reads({Variable::soil, Variable::drainage, Variable::room_m});

// The chance, per cent, that the answer to one question changes the best three, each answer judged anew.
double change_by(const Setting& setting, const Answers& answers, const Question& question, const std::vector<Standing>& trees,
                 const Replay& replay, ReplayMemo& memo) {
  const auto best = [](const std::vector<Standing>& all) {
    std::vector<std::string_view> ids;
    for (const Standing* one : best_three(all)) ids.push_back(one->tree.cultivar->id);
    put_in_order(ids);
    return ids;
  };
  const std::vector<std::string_view> now = best(trees);
  double changed = 0, sum = 0;
  for (const Answer& answer : question.answers) {
    Answers given = answers;
    given[question.id] = answer.id;
    const Interview interview(setting.catalog, given);
    sum += answer.prior;
    if (best(Chooser(setting, interview, replay, memo).judge_all()) != now) changed += answer.prior;
  }
  return sum > 0 ? 100 * changed / sum : 0;
}

// Which variables the choice looks at at all.
Reads read_by_choice() {
  Reads all = kSpotReads;
  for (const CriterionRule& rule : criterion_rules()) all |= rule.reads;
  for (const LimitRule& rule : limit_rules()) all |= rule.reads;
  return all | reads({Variable::priority});
}

template <class T>
void most_bits_first(std::vector<T>& all) {
  put_in_order(all, [](const T& a, const T& b) { return a.bits > b.bits; });
}

std::vector<Driver> drivers(const Catalog& catalog, const std::vector<std::size_t>& open, const std::vector<Scenario>& scenarios,
                            const std::vector<BestThree>& outcomes, const std::vector<Standing>& trees,
                            const std::vector<CriterionPlan>& criteria) {
  std::vector<Driver> out;
  if (trees.empty()) return out;
  std::vector<char> leads;
  for (const BestThree& three : outcomes) leads.push_back(three[0] == 0 ? 1 : 0);
  const auto add = [&](DriverKind kind, std::string_view id, const std::vector<int>& group, int groups) {
    const double bits = bits_told(group, leads, groups);
    if (bits >= kLeastBits) out.push_back({kind, std::string(id), bits});
  };
  const auto thirds = [&](auto&& coordinate) {
    std::vector<int> group;
    for (std::size_t s = 0; s < scenarios.size(); ++s) group.push_back(third(coordinate(s)));
    return group;
  };
  for (std::size_t q : open) add(DriverKind::question, catalog.questions[q].id, answers_to(scenarios, q), static_cast<int>(catalog.questions[q].answers.size()) + 1);
  add(DriverKind::winters, "", thirds([&](std::size_t s) { return scenarios[s].winters; }), 3);
  for (std::size_t c = 0; c < criteria.size(); ++c)
    add(DriverKind::weight, criteria[c].rule->id, thirds([&](std::size_t s) { return scenarios[s].stretch[c]; }), 3);
  // Of the trees, the leader itself and the two that press it.
  for (std::size_t t = 0; t < trees.size() && t < 3; ++t) {
    add(DriverKind::hardiness, trees[t].tree.cultivar->id, thirds([&](std::size_t s) { return leaning_of(s, t, Leaning::hardiness); }), 3);
    add(DriverKind::figures, trees[t].tree.cultivar->id, thirds([&](std::size_t s) { return leaning_of(s, t, Leaning::figures); }), 3);
  }
  most_bits_first(out);
  return out;
}

}  // namespace

Certainty how_sure(const Catalog& catalog, const Office& office, const Place& place, const Answers& answers, const Replay& replay,
                   ReplayMemo& memo) {
  const Setting setting{catalog, office, place};
  const Interview interview(catalog, answers);
  Chooser chooser(setting, interview, replay, memo);
  const std::vector<Scenario> scenarios = make_scenarios(chooser, interview, catalog.questions.size());
  const std::vector<Standing> trees = chooser.judge_all();
  const Outcomes outcomes = play_out(chooser, interview, trees, scenarios);
  const auto per_cent = [](int count) { return 100.0 * count / kScenarios; };

  Certainty sure;
  int none = 0;
  std::vector<int> first(trees.size(), 0), three(trees.size(), 0);
  for (const BestThree& best : outcomes.swayed) {
    if (best[0] == kNoTree) ++none;
    else ++first[static_cast<std::size_t>(best[0])];
    for (int tree : best)
      if (tree != kNoTree) ++three[static_cast<std::size_t>(tree)];
  }
  sure.none = per_cent(none);
  for (std::size_t t = 0; t < trees.size(); ++t)
    if (three[t] > 0) sure.trees.push_back({trees[t].tree.cultivar->id, per_cent(first[t]), per_cent(three[t])});

  BestThree now{kNoTree, kNoTree, kNoTree};
  const std::vector<const Standing*> leaders = best_three(trees);
  for (std::size_t t = 0; t < leaders.size(); ++t) now[t] = static_cast<int>(leaders[t] - trees.data());
  int changed = 0;
  std::vector<char> in_play(trees.size(), 0);
  for (const BestThree& best : outcomes.asked) {
    if (!same_trees(best, now)) ++changed;
    for (int tree : best)
      if (tree != kNoTree) in_play[static_cast<std::size_t>(tree)] = 1;
  }
  sure.change = per_cent(changed);

  const Reads read = read_by_choice();
  std::vector<std::size_t> open;
  for (std::size_t q : interview.askable())
    if ((interview.sets(q) & read) != 0) open.push_back(q);
  for (std::size_t q : open) {
    const std::vector<int> group = answers_to(scenarios, q);
    const int groups = static_cast<int>(catalog.questions[q].answers.size()) + 1;
    double bits = 0;
    std::vector<char> happened(scenarios.size());
    for (std::size_t t = 0; t < trees.size(); ++t) {
      if (in_play[t] == 0) continue;
      for (std::size_t s = 0; s < scenarios.size(); ++s) happened[s] = among(outcomes.asked[s], static_cast<int>(t)) ? 1 : 0;
      bits += bits_told(group, happened, groups);
    }
    sure.questions.push_back({catalog.questions[q].id, bits});
  }
  most_bits_first(sure.questions);
  for (QuestionWorth& question : sure.questions) question.bits = std::max(0.0, question.bits);
  // What the household does not know stays open, so then the chance of a change may never fall: a question must
  // itself tell something to be asked.
  const bool worth_asking = !sure.questions.empty() && (!interview.any_declined() || sure.questions.front().bits >= kLeastBits);
  if (worth_asking && sure.change >= kSettledPercent) sure.next_question = sure.questions.front().question;
  if (sure.change < kSettledPercent)
    for (std::size_t q : open) {
      if ((interview.sets(q) & kCareReads) == 0) continue;
      const double change = change_by(setting, answers, catalog.questions[q], trees, replay, memo);
      if (change < kSettledPercent || change <= sure.change) continue;
      sure.change = change;
      sure.next_question = catalog.questions[q].id;
    }
  sure.drivers = drivers(catalog, open, scenarios, outcomes.swayed, trees, chooser.criteria());
  return sure;
}

}  // namespace tenwinters
