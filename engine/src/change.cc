#include "tenwinters/change.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "chooser.h"

namespace tenwinters {
namespace {

// A cultivar that can be had here, or nullptr.
const Cultivar* on_sale(const Setting& setting, std::string_view id) {
  const std::vector<std::string>& sold = setting.office.on_sale;
  return sold.empty() || contains(sold, id) ? find_cultivar(setting.catalog, id) : nullptr;
}

// One yard, ready to judge trees singly.
class Trial {
 public:
  Trial(const Setting& setting, const Answers& answers, const Replay& replay, ReplayMemo& memo)
      : interview_(setting.catalog, answers), chooser_(setting, interview_, replay, memo) {}
  [[nodiscard]] const Interview& interview() const { return interview_; }
  [[nodiscard]] Standing judge(const Cultivar& cultivar) const { return chooser_.judge(cultivar); }
  [[nodiscard]] Candidate tell(const Standing& standing) const { return chooser_.tell(standing, true); }
  [[nodiscard]] std::vector<Standing> judge_all() const { return chooser_.judge_all(); }

 private:
  Interview interview_;
  Chooser chooser_;
};

struct Alternative {
  std::size_t question;
  Change change;
};

std::vector<Alternative> alternatives(const Catalog& catalog, const Interview& interview) {
  std::vector<Alternative> out;
  for (std::size_t q = 0; q < catalog.questions.size(); ++q) {
    const Question& question = catalog.questions[q];
    const auto given = interview.understood().find(question.id);
    for (const Answer& answer : question.answers)
      if (answer.within_reach && (given == interview.understood().end() || given->second != answer.id)) out.push_back({q, {question.id, answer.id}});
  }
  return out;
}

// Looks for the fewest changes. Candidates that press the tree are asked first, so that most trials end early.
class Search {
 public:
  Search(const Setting& setting, const Answers& answers, const Cultivar& cultivar, const Replay& replay, ReplayMemo& memo)
      : setting_(setting), answers_(answers), cultivar_(cultivar), replay_(replay), memo_(memo),
        alternatives_(alternatives(setting.catalog, Interview(setting.catalog, answers))) {
    for (const Standing& one : Trial(setting, answers, replay, memo).judge_all()) order_.push_back(one.tree.cultivar);
  }

  [[nodiscard]] LeastChange run() {
    LeastChange least;
    least.cultivar = cultivar_.id;
    const Trial now(setting_, answers_, replay_, memo_);
    const Standing candidate = now.judge(cultivar_);
    least.aim = aim_ = candidate.shelf == Shelf::not_here ? Aim::grow : Aim::best_three;
    least.reached = reached(now, candidate);
    if (least.reached) return least;
    Reads alterable = 0;
    for (const Alternative& one : alternatives_) alterable |= now.interview().sets(one.question);
    for (const Passing& one : candidate.limits)
      if (one.none && (one.limit->rule->reads & alterable) == 0) least.barred.emplace_back(one.limit->rule->id);
    if (!least.barred.empty()) return least;
    for (std::size_t size = 1; size <= kMostChanges && ways_.empty(); ++size) choose(size, 0);
    // They were found in the catalogue's order, which decides between equals.
    std::stable_sort(ways_.begin(), ways_.end(), [](const WayIn& a, const WayIn& b) {
      return std::tie(a.shelf, a.place, b.points) < std::tie(b.shelf, b.place, a.points);
    });
    least.ways = std::move(ways_);
    return least;
  }

 private:
  void choose(std::size_t more, std::size_t from) {
    if (more == 0) {
      attempt();
      return;
    }
    for (std::size_t i = from; i < alternatives_.size(); ++i) {
      if (!chosen_.empty() && alternatives_[i].question == chosen_.back()->question) continue;
      chosen_.push_back(&alternatives_[i]);
      choose(more - 1, i + 1);
      chosen_.pop_back();
    }
  }
  void attempt() {
    Answers changed = answers_;
    for (const Alternative* one : chosen_) changed[one->change.question] = one->change.answer;
    const Trial trial(setting_, changed, replay_, memo_);
    // A change that is not even asked about in this yard changes nothing: a smaller set does the same.
    for (const Alternative* one : chosen_)
      if (trial.interview().understood().count(one->change.question) == 0) return;
    const Standing candidate = trial.judge(cultivar_);
    if (!reached(trial, candidate)) return;
    WayIn way;
    for (const Alternative* one : chosen_) way.changes.push_back(one->change);
    way.shelf = candidate.shelf;
    way.points = candidate.points;
    way.place = 1;
    for (const Cultivar* other : order_)
      if (other != &cultivar_ && comes_before(trial.judge(*other), candidate)) ++way.place;
    ways_.push_back(std::move(way));
  }
  [[nodiscard]] bool reached(const Trial& trial, const Standing& candidate) const {
    if (candidate.shelf == Shelf::not_here) return false;
    if (aim_ == Aim::grow) return true;
    int before = 0;
    for (const Cultivar* other : order_)
      if (other != &cultivar_ && comes_before(trial.judge(*other), candidate) && ++before == 3) return false;
    return true;
  }

  const Setting& setting_;
  const Answers& answers_;
  const Cultivar& cultivar_;
  const Replay& replay_;
  ReplayMemo& memo_;
  std::vector<Alternative> alternatives_;
  std::vector<const Cultivar*> order_;
  Aim aim_ = Aim::grow;
  std::vector<const Alternative*> chosen_;
  std::vector<WayIn> ways_;
};

int lead_of(const Standing& first, const Standing& second) {
  const bool one = first.shelf != Shelf::not_here, other = second.shelf != Shelf::not_here;
  if (one != other) return one ? kBeyondPoints : -kBeyondPoints;
  return first.points - second.points;
}

double usual_low(const Setting& setting, Spot spot) {
  std::vector<int> lows;
  for (const Winter& winter : setting.place.winters.winters) lows.push_back(winter.lowest_tenths_c);
  if (lows.empty()) return 0;
  std::sort(lows.begin(), lows.end());
  const std::size_t half = lows.size() / 2;
  const double median = lows.size() % 2 == 1 ? lows[half] : (lows[half - 1] + lows[half]) / 2.0;
  double warmer = 0;
  for (const Microclimate& microclimate : setting.catalog.microclimates)
    if (microclimate.spot == spot) warmer = microclimate.warmer_c.best;
  return median / 10 + warmer;
}

std::optional<ColdTurn> cold_turn(const Setting& setting, const Answers& answers, const Cultivar& first, const Cultivar& second,
                                  bool first_leads, double usual_low_c, const Replay& replay, ReplayMemo& memo) {
  constexpr double kStep = 0.25, kFurthest = 6;
  Catalog shifted = setting.catalog;
  const Cultivar &one = *find_cultivar(shifted, first.id), &other = *find_cultivar(shifted, second.id);
  for (double by = kStep; by <= kFurthest; by += kStep)
    for (const double warmer : {-by, by}) {
      for (std::size_t i = 0; i < shifted.microclimates.size(); ++i)
        shifted.microclimates[i].warmer_c.best = setting.catalog.microclimates[i].warmer_c.best + warmer;
      const Setting then{shifted, setting.office, setting.place};
      const Trial trial(then, answers, replay, memo);
      const Standing a = trial.judge(one), b = trial.judge(other);
      if (a.shelf == Shelf::not_here && b.shelf == Shelf::not_here) continue;
      if (comes_before(a, b) == first_leads) continue;
      const Standing& led = first_leads ? a : b;
      return ColdTurn{warmer, usual_low_c + warmer, led.shelf == Shelf::not_here};
    }
  return std::nullopt;
}

}  // namespace

std::optional<Candidate> candidate_in_full(const Catalog& catalog, const Office& office, const Place& place, const Answers& answers,
                                           std::string_view cultivar, const Replay& replay, ReplayMemo& memo) {
  const Setting setting{catalog, office, place};
  const Cultivar* tree = on_sale(setting, cultivar);
  if (tree == nullptr) return std::nullopt;
  const Trial trial(setting, answers, replay, memo);
  return trial.tell(trial.judge(*tree));
}

std::optional<LeastChange> least_change(const Catalog& catalog, const Office& office, const Place& place, const Answers& answers,
                                        std::string_view cultivar, const Replay& replay, ReplayMemo& memo) {
  const Setting setting{catalog, office, place};
  const Cultivar* tree = on_sale(setting, cultivar);
  if (tree == nullptr) return std::nullopt;
  return Search(setting, answers, *tree, replay, memo).run();
}

std::optional<Comparison> compare(const Catalog& catalog, const Office& office, const Place& place, const Answers& answers,
                                  std::string_view first, std::string_view second, const Replay& replay, ReplayMemo& memo) {
  const Setting setting{catalog, office, place};
  const Cultivar *one = on_sale(setting, first), *other = on_sale(setting, second);
  if (one == nullptr || other == nullptr) return std::nullopt;
  const Trial now(setting, answers, replay, memo);
  const Standing a_now = now.judge(*one), b_now = now.judge(*other);
  Comparison out{now.tell(a_now), now.tell(b_now), comes_before(a_now, b_now), lead_of(a_now, b_now), 0, {}, {}};
  out.usual_low_c = usual_low(setting, now.interview().likeliest().spot);
  for (const Question& question : catalog.questions) {
    const auto given = now.interview().understood().find(question.id);
    for (const Answer& answer : question.answers) {
      if (given != now.interview().understood().end() && given->second == answer.id) continue;
      Answers changed = answers;
      changed[question.id] = answer.id;
      const Trial trial(setting, changed, replay, memo);
      if (trial.interview().understood().count(question.id) == 0) continue;
      const Standing a = trial.judge(*one), b = trial.judge(*other);
      if (a.shelf == Shelf::not_here && b.shelf == Shelf::not_here) continue;
      if (comes_before(a, b) != out.first_leads) out.turns.push_back({{question.id, answer.id}, !out.first_leads, lead_of(a, b)});
    }
  }
  std::stable_sort(out.turns.begin(), out.turns.end(), [](const Turn& a, const Turn& b) { return std::abs(a.lead) < std::abs(b.lead); });
  if (one != other) out.cold = cold_turn(setting, answers, *one, *other, out.first_leads, out.usual_low_c, replay, memo);
  return out;
}

}  // namespace tenwinters
