// How many questions a household must be asked before its best three trees are settled: the most telling question
// first, the catalogue's order with the same rule for stopping, and every question. Yards are those of sample_yards():
// the same every time, by the priors; an answer "don't know" is not given.
//
//   tenwinters_questions [YARDS [THREADS]]      1,000 yards on all cores unless said
//
// Figures so far are printed every 500 yards, on the error stream, so that a run cut short is worth something.
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <mutex>
#include <set>
#include <thread>
#include <vector>

#include "../../load_real.h"
#include "../figure.h"
#include "tenwinters/certainty.h"
#include "tenwinters/prospect.h"
#include "tenwinters/sensitivity.h"

namespace tenwinters {
namespace {

using testing::RealCatalog;

std::set<std::string> best_three(const Advice& advice) {
  std::set<std::string> best;
  for (std::size_t i = 0; i < 3 && i < advice.candidates.size(); ++i)
    if (advice.candidates[i].shelf != Shelf::not_here) best.insert(advice.candidates[i].cultivar);
  return best;
}

std::string first(const Advice& advice) {
  const Candidate& front = advice.candidates.front();
  return front.shelf == Shelf::not_here ? std::string() : front.cultivar;
}

struct Tally {
  std::vector<int> asked;
  int same_three = 0, same_first = 0;

  void add(const Tally& other) {
    asked.insert(asked.end(), other.asked.begin(), other.asked.end());
    same_three += other.same_three;
    same_first += other.same_first;
  }
};
struct Way {
  Tally every, planted;  // all yards; those in which, all told, some tree is worth planting
  void add(const Way& other) {
    every.add(other.every);
    planted.add(other.planted);
  }
};
struct Tallies {
  Way telling, in_order, all;
  void add(const Tallies& other) {
    telling.add(other.telling);
    in_order.add(other.in_order);
    all.add(other.all);
  }
};

void tell(std::FILE* to, const Tallies& sum);

// The tallies of all threads, told as they grow.
class Running {
 public:
  void add(const Tallies& one) {
    const std::lock_guard<std::mutex> lock(mutex_);
    sum_.add(one);
    constexpr std::size_t kEvery = 500;
    if (sum_.all.every.asked.size() % kEvery == 0) tell(stderr, sum_);
  }
  [[nodiscard]] const Tallies& sum() const { return sum_; }

 private:
  std::mutex mutex_;
  Tallies sum_;
};

// Yards `from`, `from + step`, ... of those drawn.
void interview(const RealCatalog& real, const std::vector<SampleYard>& drawn, std::size_t from, std::size_t step, Running& running) {
  std::vector<Replay> replays;
  for (const Place& place : real.office.places) replays.push_back(make_replay(place.winters, real.catalog.cold_model));
  std::vector<ReplayMemo> memos(replays.size());
  for (std::size_t i = from; i < drawn.size(); i += step) {
    Tallies out;
    const Answers& full = drawn[i].answers;
    const auto p = static_cast<std::size_t>(drawn[i].place - real.office.places.data());
    const Place& place = real.office.places[p];
    const auto judged = [&](const Answers& answers) { return advise(real.catalog, real.office, place, answers, replays[p], memos[p]); };
    const auto sure = [&](const Answers& answers) { return how_sure(real.catalog, real.office, place, answers, replays[p], memos[p]); };
    const Advice last = judged(full);
    const auto finish = [&](Way& way, const Answers& given) {
      const Advice now = judged(given);
      Tally tally;
      tally.asked.push_back(static_cast<int>(given.size()));
      tally.same_three += best_three(now) == best_three(last) ? 1 : 0;
      tally.same_first += first(now) == first(last) ? 1 : 0;
      way.every.add(tally);
      if (!best_three(last).empty()) way.planted.add(tally);
    };
    Answers given;
    for (std::string next; !(next = sure(given).next_question).empty();) given[next] = full.at(next);
    finish(out.telling, given);
    given.clear();
    while (given.size() < full.size()) {
      const Certainty known = sure(given);
      if (known.next_question.empty()) break;
      for (const Question& question : real.catalog.questions)
        if (full.count(question.id) > 0 && given.count(question.id) == 0 &&
            std::any_of(known.questions.begin(), known.questions.end(), [&](const QuestionWorth& one) { return one.question == question.id; })) {
          given[question.id] = full.at(question.id);
          break;
        }
    }
    finish(out.in_order, given);
    finish(out.all, full);
    running.add(out);
  }
}

void print(std::FILE* to, const char* name, Tally tally) {
  if (tally.asked.empty()) return;
  std::sort(tally.asked.begin(), tally.asked.end());
  const std::size_t n = tally.asked.size();
  double sum = 0;
  for (int one : tally.asked) sum += one;
  std::fprintf(to, "%-34s mean %5.2f  median %2d  19 in 20 at most %2d  worst %2d   best three as with all: %5.1f %%, first: %5.1f %%\n", name,
              sum / static_cast<double>(n), tally.asked[n / 2], tally.asked[n * 19 / 20], tally.asked.back(),
              100.0 * tally.same_three / static_cast<double>(n), 100.0 * tally.same_first / static_cast<double>(n));
}

void tell(std::FILE* to, const Tallies& sum) {
  std::fprintf(to, "Questions to a settled choice, %zu yards:\n", sum.all.every.asked.size());
  print(to, "the most telling first", sum.telling.every);
  print(to, "in the catalogue's order", sum.in_order.every);
  print(to, "every question", sum.all.every);
  std::fprintf(to, "Of these, %zu in which some tree is worth planting:\n", sum.all.planted.asked.size());
  print(to, "the most telling first", sum.telling.planted);
  print(to, "in the catalogue's order", sum.in_order.planted);
  print(to, "every question", sum.all.planted);
}

}  // namespace
}  // namespace tenwinters

int main(int argc, char** argv) {
  using namespace tenwinters;
  const long wanted = argc > 1 ? std::strtol(argv[1], nullptr, 10) : 1000;
  const long threads_wanted = argc > 2 ? std::strtol(argv[2], nullptr, 10) : static_cast<long>(std::max(1u, std::thread::hardware_concurrency()));
  if (wanted < 1 || threads_wanted < 1) {
    std::fprintf(stderr, "tenwinters_questions: expected a number of yards, 1 or more, and of threads, 1 or more\n");
    return 2;
  }
  const auto yards = static_cast<std::size_t>(wanted);
  const testing::RealCatalog real = testing::load_real([](const std::string& fault) {
    std::fprintf(stderr, "%s\n", fault.c_str());
    std::exit(1);
  });
  const auto workers = static_cast<std::size_t>(threads_wanted);
  const std::vector<SampleYard> drawn = sample_yards(real.catalog, real.office, yards);
  Running running;
  std::vector<std::thread> threads;
  for (std::size_t w = 0; w < workers; ++w) threads.emplace_back([&, w] { interview(real, drawn, w, workers, running); });
  for (std::thread& thread : threads) thread.join();
  tell(stdout, running.sum());
  const auto mean = [](const Tally& tally) {
    double sum = 0;
    for (int one : tally.asked) sum += one;
    return tally.asked.empty() ? 0 : sum / static_cast<double>(tally.asked.size());
  };
  const Tallies& sum = running.sum();
  keep_figure("questions to a settled choice", mean(sum.telling.every), mean(sum.all.every), "questions", "all asked");
  keep_figure("the same where a tree is worth planting", mean(sum.telling.planted), mean(sum.in_order.planted), "questions", "in the catalogue's order");
}
