#include "tenwinters/key.h"

#include <algorithm>
#include <cstdint>
#include <map>
#include <tuple>

#include "chooser.h"
#include "tenwinters/sensitivity.h"

namespace tenwinters {
namespace {

constexpr int kNothing = 0;  // the label of a yard where nothing is worth planting; a tree's is its index and 1

struct Split {
  const Question* question;
  const std::vector<std::string>* answers;
};

struct SeenYard {
  std::uint64_t yes = 0;       // bit i: split i is answered with yes
  std::vector<int> labels;     // the engine's best three, or kNothing
};

std::vector<Split> splits_of(const Catalog& catalog, const Answers& given) {
  std::vector<Split> out;
  for (const Question& question : catalog.questions)
    if (given.count(question.id) == 0)
      for (const std::vector<std::string>& answers : question.splits)
        if (out.size() < 64) out.push_back({&question, &answers});
  return out;
}

std::uint64_t answered(const std::vector<Split>& splits, const Answers& answers) {
  std::uint64_t yes = 0;
  for (std::size_t i = 0; i < splits.size(); ++i) {
    const auto answer = answers.find(splits[i].question->id);
    if (answer != answers.end() && contains(*splits[i].answers, answer->second)) yes |= std::uint64_t{1} << i;
  }
  return yes;
}

// The best key for the yards that answered some splits in a given way.
class Fit {
 public:
  Fit(const std::vector<SeenYard>& yards, std::size_t splits, std::size_t labels) : yards_(yards), splits_(splits), counts_(labels, 0) {}

  // How many yards agree, at most, in `steps` more steps; and the split to take, -1 to stop.
  struct Best {
    int agree = 0, split = -1;
  };
  Best best(std::uint64_t yes, std::uint64_t no, int steps, const std::vector<int>& here) {
    if (steps == 0) return {count(here).front().first, -1};
    const auto at = known_.find(std::tuple(yes, no, steps));
    if (at != known_.end()) return at->second;
    Best found{count(here).front().first, -1};
    if (found.agree < static_cast<int>(here.size()))
      for (std::size_t s = 0; s < splits_; ++s) {
        const std::uint64_t bit = std::uint64_t{1} << s;
        if (((yes | no) & bit) != 0) continue;
        const auto [in, out] = part(here, s);
        if (static_cast<int>(std::min(in.size(), out.size())) < kKeyEnd) continue;
        const int agree = best(yes | bit, no, steps - 1, in).agree + best(yes, no | bit, steps - 1, out).agree;
        if (agree > found.agree) found = {agree, static_cast<int>(s)};
      }
    return known_[std::tuple(yes, no, steps)] = found;
  }

  // Labels of these yards, the most frequent first, then the earlier: how often, and which.
  std::vector<std::pair<int, int>> count(const std::vector<int>& here) {
    std::vector<int> met;
    for (int yard : here)
      for (int label : yards_[static_cast<std::size_t>(yard)].labels)
        if (counts_[static_cast<std::size_t>(label)]++ == 0) met.push_back(label);
    std::vector<std::pair<int, int>> out;
    for (int label : met) {
      out.emplace_back(counts_[static_cast<std::size_t>(label)], label);
      counts_[static_cast<std::size_t>(label)] = 0;
    }
    std::sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return std::tie(b.first, a.second) < std::tie(a.first, b.second); });
    if (out.empty()) out.emplace_back(0, kNothing);
    return out;
  }

  [[nodiscard]] std::pair<std::vector<int>, std::vector<int>> part(const std::vector<int>& here, std::size_t split) const {
    std::pair<std::vector<int>, std::vector<int>> parts;
    for (int yard : here) ((yards_[static_cast<std::size_t>(yard)].yes >> split & 1) != 0 ? parts.first : parts.second).push_back(yard);
    return parts;
  }

 private:
  const std::vector<SeenYard>& yards_;
  std::size_t splits_;
  std::vector<int> counts_;  // by label; all zero between counts
  std::map<std::tuple<std::uint64_t, std::uint64_t, int>, Best> known_;  // by splits answered yes and no, and steps left
};

class Writer {
 public:
  Writer(const Catalog& catalog, const std::vector<Split>& splits, Fit& fit, PaperKey& key) : catalog_(catalog), splits_(splits), fit_(fit), key_(key) {}

  int write(std::uint64_t yes, std::uint64_t no, int steps, const std::vector<int>& here) {
    const auto at = key_.nodes.size();
    key_.nodes.emplace_back();
    const Fit::Best best = fit_.best(yes, no, steps, here);
    KeyNode node;
    node.yards = static_cast<int>(here.size());
    node.agrees = here.empty() ? 0 : 100.0 * best.agree / static_cast<double>(here.size());
    if (best.split >= 0) {
      const auto s = static_cast<std::size_t>(best.split);
      const std::uint64_t bit = std::uint64_t{1} << s;
      const auto [in, out] = fit_.part(here, s);
      node.question = splits_[s].question->id;
      node.answers = *splits_[s].answers;
      node.yes = write(yes | bit, no, steps - 1, in);
      node.no = write(yes, no | bit, steps - 1, out);
    } else {
      const auto labels = fit_.count(here);
      if (labels.front().second != kNothing)
        for (const auto& [often, label] : labels)
          if (label != kNothing && node.trees.size() < 3) node.trees.push_back(catalog_.cultivars[static_cast<std::size_t>(label - 1)].id);
    }
    key_.nodes[at] = std::move(node);
    return static_cast<int>(at);
  }

 private:
  const Catalog& catalog_;
  const std::vector<Split>& splits_;
  Fit& fit_;
  PaperKey& key_;
};

}  // namespace

PaperKey paper_key(const Catalog& catalog, const Office& office, const Place& place, const Answers& answers, const Replay& replay,
                   ReplayMemo& memo, int steps) {
  const Setting setting{catalog, office, place};
  const std::vector<Split> splits = splits_of(catalog, answers);
  std::vector<SeenYard> fitted, fresh;
  for (SampleYard& yard : sample_yards(catalog, office, 2 * static_cast<std::size_t>(kKeyYards))) {
    for (const auto& [question, answer] : answers) yard.answers[question] = answer;
    const Interview interview(catalog, yard.answers);
    SeenYard seen;
    seen.yes = answered(splits, interview.understood());
    const std::vector<Standing> standings = Chooser(setting, interview, replay, memo).judge_all();
    for (const Standing* one : best_three(standings)) seen.labels.push_back(static_cast<int>(one->tree.cultivar - catalog.cultivars.data()) + 1);
    if (seen.labels.empty()) seen.labels.push_back(kNothing);
    (fitted.size() < static_cast<std::size_t>(kKeyYards) ? fitted : fresh).push_back(std::move(seen));
  }

  PaperKey key;
  key.place = place.id;
  key.yards = static_cast<int>(fitted.size());
  Fit fit(fitted, splits.size(), catalog.cultivars.size() + 1);
  std::vector<int> all;
  for (int i = 0; i < key.yards; ++i) all.push_back(i);
  Writer(catalog, splits, fit, key).write(0, 0, std::clamp(steps, 0, 8), all);

  // Where a yard ends, and whether that agrees with the engine.
  const auto agrees = [&](const SeenYard& yard) {
    const KeyNode* node = &key.nodes.front();
    while (!node->question.empty()) {
      bool yes = false;
      for (std::size_t s = 0; s < splits.size(); ++s)
        if (splits[s].question->id == node->question && *splits[s].answers == node->answers) yes = (yard.yes >> s & 1) != 0;
      node = &key.nodes[static_cast<std::size_t>(yes ? node->yes : node->no)];
    }
    if (node->trees.empty()) return contains(yard.labels, kNothing);
    for (int label : yard.labels)
      if (label != kNothing && catalog.cultivars[static_cast<std::size_t>(label - 1)].id == node->trees.front()) return true;
    return false;
  };
  const auto share = [&](const std::vector<SeenYard>& yards, bool planted) {
    int of = 0, agree = 0;
    for (const SeenYard& yard : yards) {
      if (planted && contains(yard.labels, kNothing)) continue;
      ++of;
      agree += agrees(yard) ? 1 : 0;
    }
    return of == 0 ? 0 : 100.0 * agree / of;
  };
  key.agrees_fitted = share(fitted, false);
  key.agrees_fresh = share(fresh, false);
  key.planted_fresh = share(fresh, true);
  return key;
}

}  // namespace tenwinters
