// The choice: one yard, known or partly known, and the judgement of each tree in it.
#pragma once

#include <vector>

#include "criteria.h"
#include "interview.h"
#include "limit_rules.h"
#include "notes.h"
#include "plantings.h"
#include "stock.h"
#include "tenwinters/prospect.h"

namespace tenwinters {

// One way the unanswered questions could go, ready to be judged: its yard and which planting it makes.
struct JudgedCase {
  double share = 0;
  Yard yard;
  std::vector<std::size_t> slots;  // by habit; none if the rule does not look at the winters
};

struct CriterionPlan {
  const CriterionRule* rule = nullptr;
  double weight = 0;  // mean over the priorities, of 100
  int of = 0;         // the same in whole points
  bool open = false;
  std::vector<JudgedCase> cases;  // shares weighted by the criterion's weight; they add up to 1
};

struct LimitPlan {
  const LimitRule* rule = nullptr;
  std::string_view open_question;
  std::vector<JudgedCase> cases;
};

// Whole numbers in the proportions of `values`, adding up to `total`; each is `values[i]` rounded down
// or up, the largest remainders going up, ties to the earlier.
std::vector<int> round_to_total(const std::vector<double>& values, int total);

struct ChoicePlan {
  std::vector<CriterionPlan> criteria;
  std::vector<LimitPlan> limits;
};

// A limit that not every case passes.
struct Passing {
  const LimitPlan* limit = nullptr;
  double chance = 0;                    // share of the cases that pass
  bool none = true;                     // not one does
  const JudgedCase* failing = nullptr;  // the first that does not
};

// Where one tree stands: enough to put it in order, and all that telling the rest takes.
struct Standing {
  Tree tree;
  Stocks stocks;                // that may carry it here
  std::size_t habit = 0;        // how it would be cared for: index for Chooser::slots()
  Shelf shelf = Shelf::not_here;
  int points = 0;
  double good_harvests = 0;     // expected, of ten years
  std::vector<double> exact;    // points by criterion, before rounding
  std::vector<Passing> limits;  // only those that not every case passes
};
// The order of candidates: shelf, then points, then id.
bool comes_before(const Standing& a, const Standing& b);
// The first three of these that grow, in their order; fewer if fewer do.
std::vector<const Standing*> best_three(const std::vector<Standing>& standings);

// While the yard is not known, any stock that may still be chosen counts for a limit that goes by the stock.
bool passes(const LimitPlan& limit, const Tree& tree, const Stocks& stocks, const Yard& yard, const Prospect& prospect);

// Everything about the yard that is the same for every tree, worked out once.
class Chooser {
 public:
  Chooser(const Setting& setting, const Interview& interview, const Replay& replay, ReplayMemo& memo)
      : setting_(setting), interview_(interview), household_(describe(interview)), replay_(replay), memo_(memo) {
    none_.id = "none";
    if (const Protection* none = find_protection(setting.catalog, "none")) none_ = *none;
    habits_.push_back(&none_);
    for (const Protection& protection : setting.catalog.protections)
      if (protection.id != "none" && !protection.container_only) habits_.push_back(&protection);
    middling_.size_share.best = 1;
    middling_.fruit_quality.is = Fitness::good;
    plan_criteria();
    plan_limits();
    for (const Protection* habit : habits_) likely_slots_.push_back(slot(household_.likeliest, *habit));
    for (const Limit& limit : yard_limits(interview)) spot_fails_ = spot_fails_ || limit.verdict == Verdict::fail;
  }

  [[nodiscard]] Standing judge(const Cultivar& cultivar) const;
  // Every cultivar on sale, in the order of candidates.
  [[nodiscard]] std::vector<Standing> judge_all() const;
  // Of a tree that will not grow here low and high are the best figure, unless `in_full`: intervals take longer than
  // all else, and most trees of a cold place are refused.
  [[nodiscard]] Candidate tell(const Standing& standing, bool in_full = false) const;

  // What the winters do to one tree, by planting, worked out when first asked for. Best figures only:
  // intervals are for what is shown, and take far longer.
  class Prospects {
   public:
    Prospects(const Chooser& chooser, const Tree& tree)
        : chooser_(chooser), tree_(tree), replayed_(planting_of({}, tree), chooser.replay_, chooser.memo_), known_(chooser.cares_.all().size()) {}
    const Prospect& at(std::size_t slot) {
      if (known_[slot] == nullptr) known_[slot] = &of(chooser_.cares_.all()[slot]);
      return *known_[slot];
    }
    [[nodiscard]] const Prospect& of(const Care& care) const { return replayed_.expected(planting_of(care, tree_)); }

   private:
    const Chooser& chooser_;
    Tree tree_;
    TreeProspects replayed_;
    std::vector<const Prospect*> known_;
  };

  // The plantings a yard makes, by habit; new ones are taken up, so ask before Prospects are made.
  std::vector<std::size_t> slots(const Yard& yard);
  // Points of 100 that each criterion can give, in the order of criteria().
  [[nodiscard]] std::vector<double> weights(Priority priority) const;
  [[nodiscard]] const std::vector<CriterionPlan>& criteria() const { return plan_.criteria; }
  [[nodiscard]] const std::vector<LimitPlan>& limits() const { return plan_.limits; }
  // Where a tree that passes its limits stands, from the care it has and what the winters do then.
  [[nodiscard]] Shelf shelf(std::size_t slot, Prospects& prospects, double work_nights) const;
  // What ten years may do to the tree in the likeliest yard, by record and by evidence.
  [[nodiscard]] ProspectParts parts(const Tree& tree, std::size_t habit) const {
    return prospect_parts(planting_of(cares_.all()[likely_slots_[habit]], tree), replay_, memo_);
  }

 private:
  std::size_t slot(const Yard& yard, const Protection& habit) { return cares_.slot(care_in(yard, habit, setting_.catalog, none_)); }
  void add_case(std::vector<JudgedCase>& cases, double share, const Yard& yard, bool winters);
  void plan_criteria();
  void plan_limits();
  [[nodiscard]] Standing stand(Tree tree, const Stocks& stocks) const;
  [[nodiscard]] double likely_value(const Tree& tree, const Prospect& prospect, bool winters) const;
  [[nodiscard]] const Rootstock* best_stock(Tree tree, const Stocks& stocks) const;
  [[nodiscard]] bool suits(const Tree& tree) const;
  [[nodiscard]] std::size_t best_habit(const Tree& tree, Prospects& prospects) const;
  [[nodiscard]] Passing passing(const LimitPlan& limit, const Standing& standing, Prospects& prospects) const;
  [[nodiscard]] double mean_of(Interval Prospect::*figure, std::size_t habit, Prospects& prospects) const;
  [[nodiscard]] Prospect blend(const Standing& standing, Prospects& prospects, bool in_full) const;
  [[nodiscard]] const std::vector<JudgedCase>* winter_cases() const;

  const Setting& setting_;
  const Interview& interview_;
  Household household_;
  Protection none_;
  Rootstock middling_;
  const Replay& replay_;
  ReplayMemo& memo_;                       // remembers, changes nothing
  std::vector<const Protection*> habits_;  // what may be done in place; first none
  CareList cares_;
  ChoicePlan plan_;
  std::vector<std::size_t> likely_slots_;  // the likeliest yard's planting, by habit
  bool spot_fails_ = false;                // a no for every tree
};

}  // namespace tenwinters
