#include "chooser.h"

#include <cmath>
#include <tuple>

#include "order.h"

namespace tenwinters {
namespace {

constexpr double kNoWork = 0.5;        // nights a winter below which nobody calls it work
constexpr double kLimitPenalty = 100;  // more than every point there is
constexpr double kVirusProne = 3;      // points by which a stock that dies of tristeza, which aphids carry, must win
constexpr double kPlainer = 1;         // points by which a way through a freeze must win for each caution it brings

}  // namespace

std::vector<int> round_to_total(const std::vector<double>& values, int total) {
  std::vector<int> whole;
  std::vector<std::pair<double, std::size_t>> remainders;
  for (std::size_t i = 0; i < values.size(); ++i) {
    const double down = std::floor(values[i]);
    whole.push_back(static_cast<int>(down));
    total -= static_cast<int>(down);
    remainders.emplace_back(down - values[i], i);
  }
  put_in_order(remainders);
  for (std::size_t i = 0; i < remainders.size() && total > 0; ++i, --total) ++whole[remainders[i].second];
  return whole;
}

std::vector<std::size_t> Chooser::slots(const Yard& yard) {
  std::vector<std::size_t> out;
  for (const Protection* habit : habits_) out.push_back(slot(yard, *habit));
  return out;
}

std::vector<double> Chooser::weights(Priority priority) const {
  std::vector<Criterion> judged;
  for (const CriterionPlan& criterion : plan_.criteria) {
    judged.push_back({std::string(criterion.rule->id), 0});
    for (const Criterion& stated : setting_.catalog.criteria)
      if (stated.id == criterion.rule->id) judged.back().weight = stated.weight;
  }
  return stated_weights(judged, priority);
}

// Yards that a rule cannot tell apart are one case.
void Chooser::add_case(std::vector<JudgedCase>& cases, double share, const Yard& yard, bool winters) {
  JudgedCase one{share, yard, {}};
  if (winters) {
    one.slots = slots(yard);
    // These act through the winters alone.
    const Yard any;
    one.yard.spot = any.spot;
    one.yard.work_nights = any.work_nights;
    one.yard.moves_indoors = any.moves_indoors;
  }
  for (JudgedCase& met : cases)
    if (met.yard == one.yard && met.slots == one.slots) {
      met.share += share;
      return;
    }
  cases.push_back(std::move(one));
}

void Chooser::plan_criteria() {
  for (const Criterion& stated : setting_.catalog.criteria)
    for (const CriterionRule& rule : criterion_rules())
      if (rule.id == stated.id) plan_.criteria.push_back({&rule, 0, 0, false, {}});
  std::vector<std::vector<double>> by_priority;
  for (std::size_t p = 0; p < names_of<Priority>().size(); ++p) by_priority.push_back(weights(static_cast<Priority>(p)));

  std::vector<double> means;
  for (std::size_t c = 0; c < plan_.criteria.size(); ++c) {
    CriterionPlan& criterion = plan_.criteria[c];
    criterion.open = !interview_.first_open(criterion.rule->reads).empty();
    // The weight may hang together with what the criterion reads, so both are averaged at once.
    for (Case& one : interview_.cases(criterion.rule->reads | reads({Variable::priority}))) {
      const double weight = one.share * by_priority[static_cast<std::size_t>(one.yard.priority)][c];
      criterion.weight += weight;
      one.yard.priority = Priority::balanced;
      if (weight <= 0) continue;
      add_case(criterion.cases, weight, one.yard, criterion.rule->winters);
    }
    for (JudgedCase& one : criterion.cases) one.share /= criterion.weight;
    means.push_back(criterion.weight);
  }
  double sum = 0;
  for (double mean : means) sum += mean;
  const std::vector<int> whole = round_to_total(means, sum > 0 ? 100 : 0);
  for (std::size_t c = 0; c < plan_.criteria.size(); ++c) plan_.criteria[c].of = whole[c];
}

void Chooser::plan_limits() {
  for (const LimitRule& rule : limit_rules()) {
    LimitPlan limit{&rule, interview_.first_open(rule.reads), {}};
    for (const Case& one : interview_.cases(rule.reads)) add_case(limit.cases, one.share, one.yard, rule.winters);
    plan_.limits.push_back(std::move(limit));
  }
}

// Points of the criteria that read (or do not read) the winters, in the likeliest yard, less a hundred
// for each limit it would break.
double Chooser::likely_value(const Tree& tree, const Prospect& prospect, bool winters) const {
  const Yard& yard = household_.likeliest;
  double value = 0;
  for (const CriterionPlan& criterion : plan_.criteria)
    if (criterion.rule->winters == winters) value += criterion.weight * criterion.rule->value(tree, yard, prospect);
  for (const LimitPlan& limit : plan_.limits)
    if (limit.rule->winters == winters && !limit.rule->passes(tree, yard, prospect)) value -= kLimitPenalty;
  return value;
}

// The stock with the most points in the likeliest yard, of equals the first. A hardier or stronger stock never does
// worse in a winter, so one that another outdoes in these and gives no more points elsewhere need not be replayed.
// Nor, where a tree is left to itself, one that would not lead even if it stood the winters like the last that was
// replayed, which is no tenderer; but a tree that is carried in may gain by being tender, for it is carried in sooner.
const Rootstock* Chooser::best_stock(Tree tree, const Stocks& stocks) const {
  const Prospect unread;
  std::vector<double> elsewhere;
  std::vector<std::pair<double, std::size_t>> hardiest;
  for (std::size_t i = 0; i < stocks.usable.size(); ++i) {
    tree.stock = stocks.usable[i];
    elsewhere.push_back(likely_value(tree, unread, false) - (tree.stock->tristeza.is == Fitness::poor ? kVirusProne : 0));
    hardiest.emplace_back(-tree.stock->cold_gain_c.best, i);
  }
  put_in_order(hardiest);
  const auto outdone = [&](std::size_t i) {
    for (std::size_t j = 0; j < stocks.usable.size(); ++j) {
      const Rootstock &mine = *stocks.usable[i], &other = *stocks.usable[j];
      const bool no_worse = elsewhere[j] >= elsewhere[i] && other.cold_gain_c.best >= mine.cold_gain_c.best &&
                            other.size_share.best >= mine.size_share.best;
      const bool better = elsewhere[j] > elsewhere[i] || other.cold_gain_c.best > mine.cold_gain_c.best ||
                          other.size_share.best > mine.size_share.best || j < i;
      if (j != i && no_worse && better) return true;
    }
    return false;
  };
  const bool left_to_itself = cares_.all()[likely_slots_.front()].protection == &none_;
  const Prospect* hardier = nullptr;
  std::size_t best = stocks.usable.size();
  double most = 0;
  const auto leads = [&](double total, std::size_t i) { return best == stocks.usable.size() || total > most || (total == most && i < best); };
  for (const auto& [gain, i] : hardiest) {
    if (outdone(i)) continue;
    tree.stock = stocks.usable[i];
    if (left_to_itself && hardier != nullptr && !leads(elsewhere[i] + likely_value(tree, *hardier, true), i)) continue;
    hardier = &Prospects(*this, tree).of(cares_.all()[likely_slots_.front()]);
    const double total = elsewhere[i] + likely_value(tree, *hardier, true);
    if (!leads(total, i)) continue;
    best = i;
    most = total;
  }
  return stocks.usable[best];
}

std::size_t Chooser::best_habit(const Tree& tree, Prospects& prospects) const {
  std::size_t best = 0;
  double most = 0;
  for (std::size_t habit = 0; habit < habits_.size(); ++habit) {
    if (habit > 0 && likely_slots_[habit] == likely_slots_.front()) continue;
    const double burden = kPlainer * static_cast<double>(habits_[habit]->cautions.size());
    const double value = likely_value(tree, prospects.at(likely_slots_[habit]), true) - burden;
    if (habit > 0 && value <= most) continue;
    best = habit;
    most = value;
  }
  return best;
}

bool passes(const LimitPlan& limit, const Tree& tree, const Stocks& stocks, const Yard& yard, const Prospect& prospect) {
  if (limit.rule->passes(tree, yard, prospect)) return true;
  return limit.rule->by_stock && limit.cases.size() > 1 && std::any_of(stocks.usable.begin(), stocks.usable.end(), [&](const Rootstock* stock) {
    Tree other = tree;
    other.stock = stock;
    return limit.rule->passes(other, yard, prospect);
  });
}

Passing Chooser::passing(const LimitPlan& limit, const Standing& standing, Prospects& prospects) const {
  static const Prospect unread;
  Passing out{&limit, 0, true, nullptr};
  for (const JudgedCase& one : limit.cases) {
    const Prospect& seen = limit.rule->winters ? prospects.at(one.slots[standing.habit]) : unread;
    if (passes(limit, standing.tree, standing.stocks, one.yard, seen)) {
      out.chance += one.share;
      out.none = false;
    } else if (out.failing == nullptr) {
      out.failing = &one;
    }
  }
  return out;
}

// The cases that differ in what the winters do, or nullptr if there is only the likeliest yard.
const std::vector<JudgedCase>* Chooser::winter_cases() const {
  for (const LimitPlan& limit : plan_.limits)
    if (limit.rule->winters && limit.cases.size() > 1) return &limit.cases;
  return nullptr;
}

// The best figure, over the yards that could be.
double Chooser::mean_of(Interval Prospect::*figure, std::size_t habit, Prospects& prospects) const {
  const std::vector<JudgedCase>* cases = winter_cases();
  if (cases == nullptr) return (prospects.at(likely_slots_[habit]).*figure).best;
  double mean = 0;
  for (const JudgedCase& one : *cases) mean += one.share * (prospects.at(one.slots[habit]).*figure).best;
  return mean;
}

// The mean over the yards that could be. The interval is that of the likeliest yard, stretched to hold
// the best figure of every other.
Prospect Chooser::blend(const Standing& standing, Prospects& prospects, bool in_full) const {
  const std::size_t likely = likely_slots_[standing.habit];
  Prospect mean = in_full ? prospect(planting_of(cares_.all()[likely], standing.tree), replay_, memo_) : prospects.at(likely);
  const std::vector<JudgedCase>* cases = winter_cases();
  if (cases == nullptr) return mean;
  for (Interval Prospect::*part : kTenYearFigures) {
    Interval& blended = mean.*part;
    blended.best = 0;
    for (const JudgedCase& one : *cases) {
      const double seen = (prospects.at(one.slots[standing.habit]).*part).best;
      blended.best += one.share * seen;
      blended.low = std::min(blended.low, seen);
      blended.high = std::max(blended.high, seen);
    }
  }
  return mean;
}

Shelf Chooser::shelf(std::size_t slot, Prospects& prospects, double work_nights) const {
  if (work_nights > kNoWork) return Shelf::with_work;
  const Care& care = cares_.all()[slot];
  if (care.protection == &none_) return Shelf::will_do;
  Care idle = care;
  idle.protection = &none_;
  idle.work_nights = 0;
  idle.moves_indoors = false;
  return lives(prospects.at(slot)) && !lives(prospects.of(idle)) ? Shelf::with_work : Shelf::will_do;
}

Standing Chooser::judge(const Cultivar& cultivar) const {
  Tree tree;
  tree.setting = &setting_;
  tree.cultivar = &cultivar;
  tree.type = find_type(setting_.catalog, cultivar.type);
  tree.habit = &none_;
  tree.forbidden_by = forbidding(setting_.office, cultivar.id);
  if (tree.forbidden_by == nullptr) tree.forbidden_by = forbidding(setting_.office, cultivar.type);
  const Stocks stocks = stocks_for(setting_, cultivar, middling_);
  tree.stock_fits = stocks.fits;
  tree.stock = stocks.usable.front();
  tree.stock = best_stock(tree, stocks);
  Standing out = stand(tree, stocks);
  if (out.shelf != Shelf::not_here || spot_fails_) return out;
  // The best stock was chosen for a tree left to itself. A smaller tree can be covered where a larger
  // one cannot, so before a no the smallest that suits the yard is tried too.
  if (household_.likeliest.work_nights <= 0) return out;
  const Rootstock* smallest = nullptr;
  for (const Rootstock* stock : stocks.usable) {
    Tree other = tree;
    other.stock = stock;
    if (suits(other) && (smallest == nullptr || stock->size_share.best < smallest->size_share.best)) smallest = stock;
  }
  if (smallest == nullptr || smallest == out.tree.stock) return out;
  tree.stock = smallest;
  Standing smaller = stand(tree, stocks);
  return smaller.shelf != Shelf::not_here ? smaller : out;
}

// Whether the likeliest yard has no limit, but those of its winters, that the tree breaks.
bool Chooser::suits(const Tree& tree) const {
  const Prospect unread;
  return std::all_of(plan_.limits.begin(), plan_.limits.end(), [&](const LimitPlan& limit) {
    return limit.rule->winters || limit.rule->passes(tree, household_.likeliest, unread);
  });
}

// The tree on its stock, cared for in the best way.
Standing Chooser::stand(Tree tree, const Stocks& stocks) const {
  Prospects prospects(*this, tree);
  Standing out;
  out.habit = best_habit(tree, prospects);
  tree.habit = cares_.all()[likely_slots_[out.habit]].protection;
  out.tree = tree;
  out.stocks = stocks;

  bool barred = spot_fails_;
  for (const LimitPlan& limit : plan_.limits) {
    const Passing passed = passing(limit, out, prospects);
    if (passed.failing == nullptr) continue;
    barred = barred || passed.chance < 0.5;
    out.limits.push_back(passed);
  }
  double sum = 0;
  for (const CriterionPlan& criterion : plan_.criteria) {
    double value = 0;
    for (const JudgedCase& one : criterion.cases)
      value += one.share * criterion.rule->value(tree, one.yard, prospects.at(criterion.rule->winters ? one.slots[out.habit] : likely_slots_[out.habit]));
    out.exact.push_back(criterion.of * std::clamp(value, 0.0, 1.0));
    sum += out.exact.back();
  }
  out.points = static_cast<int>(std::floor(sum + 0.5));
  out.good_harvests = mean_of(&Prospect::good_harvests, out.habit, prospects);
  if (!barred) out.shelf = shelf(likely_slots_[out.habit], prospects, mean_of(&Prospect::work_nights, out.habit, prospects));
  return out;
}

Candidate Chooser::tell(const Standing& standing, bool in_full) const {
  const Tree& tree = standing.tree;
  Prospects prospects(*this, tree);
  Candidate out;
  out.cultivar = tree.cultivar->id;
  out.rootstock = tree.stock->id;
  out.protection = tree.habit->id;
  out.shelf = standing.shelf;
  out.points = standing.points;
  out.prospect = blend(standing, prospects, in_full || standing.shelf != Shelf::not_here);
  for (const Passing& one : standing.limits) {
    Reason why;
    if (one.none) {
      const bool winters = one.limit->rule->winters;
      why = one.limit->rule->reason(tree, one.failing->yard, winters ? prospects.at(one.failing->slots[standing.habit]) : Prospect{});
    }
    out.limits.push_back(settle(one.limit->rule->id, one.chance, false, one.none, one.limit->open_question, std::move(why)));
  }
  const std::vector<int> points = round_to_total(standing.exact, standing.points);
  const Prospect& likely = prospects.at(likely_slots_[standing.habit]);
  for (std::size_t c = 0; c < plan_.criteria.size(); ++c) {
    const CriterionPlan& criterion = plan_.criteria[c];
    const Prospect& seen = criterion.rule->winters ? out.prospect : likely;
    out.contributions.push_back({std::string(criterion.rule->id), points[c], criterion.of,
                                 criterion.rule->reason(tree, household_.likeliest, seen, criterion.open)});
  }
  out.notes = tree_notes(tree, household_, out.prospect);
  out.cautions = tree_cautions(tree, household_);
  return out;
}

bool comes_before(const Standing& a, const Standing& b) {
  return std::tie(a.shelf, b.points, a.tree.cultivar->id) < std::tie(b.shelf, a.points, b.tree.cultivar->id);
}

std::vector<const Standing*> best_three(const std::vector<Standing>& standings) {
  std::vector<const Standing*> best;
  for (const Standing& one : standings)
    if (one.shelf != Shelf::not_here && best.size() < 3) best.push_back(&one);
  return best;
}

std::vector<Standing> Chooser::judge_all() const {
  std::vector<Standing> all;
  const std::vector<std::string>& sold = setting_.office.on_sale;
  for (const Cultivar& cultivar : setting_.catalog.cultivars)
    if (sold.empty() || contains(sold, cultivar.id)) all.push_back(judge(cultivar));
  put_in_order(all, comes_before);
  return all;
}

}  // namespace tenwinters
