// What a yard is planned from: advise() asked once for every way to grow a tree here, with pollen of other
// kinds about and without, and the answers put together as trees on offer.
#include <algorithm>
#include <cmath>
#include <map>

#include "choice.h"
#include "tenwinters/plan.h"
#include "tenwinters/prospect.h"

namespace tenwinters {
namespace {

// Of a tree that must have a partner and has none, most of what it is worth is lost; our judgement.
constexpr int kAloneLossQuarters = 3;

// The question that sets a variable, and what each of its answers makes of a yard.
struct Asked {
  const Question* question = nullptr;
  std::vector<std::pair<std::string, Yard>> answers;
};
Asked asked_for(const Catalog& catalog, Variable variable) {
  for (const Question& question : catalog.questions) {
    Asked out{&question, {}};
    for (const Answer& answer : question.answers) {
      Yard yard;
      bool sets = false;
      for (const auto& [which, text] : answer.sets)
        if (which == variable) sets = set_variable(yard, which, text);
      if (sets) out.answers.emplace_back(answer.id, yard);
    }
    if (!out.answers.empty()) return out;
  }
  return {};
}

bool given(const Answers& answers, const Asked& asked) {
  if (asked.question == nullptr) return true;
  const auto at = answers.find(asked.question->id);
  return at != answers.end() && std::any_of(asked.answers.begin(), asked.answers.end(),
                                            [&](const auto& answer) { return answer.first == at->second; });
}

// One way to grow trees: answers for advise(), and what the plan must know of them.
struct Way {
  Answers answers;
  double room_m = 30;       // the crown is kept to this width
  double container_l = 0;
};

int centimetres(double metres) { return static_cast<int>(std::floor(metres * 100 + 0.5)); }

class Offer {
 public:
  Offer(const Catalog& catalog, const Office& office, const Place& place, const Answers& answers)
      : catalog_(catalog), office_(office), place_(place), answers_(answers), replay_(make_replay(place.winters, catalog.cold_model)),
        company_(asked_for(catalog, Variable::company)) {
    if (company_.question != nullptr) {
      const auto at = answers.find(company_.question->id);
      for (const auto& [id, yard] : company_.answers) {
        if (at != answers.end() && at->second == id && yard.company == Company::other_kind) others_near_ = true;
        if (yard.company == Company::other_kind) with_others_ = id;
        if (yard.company == Company::none) without_ = id;
      }
    }
  }

  PlanProblem make(const std::vector<ExistingTree>& existing) {
    PlanProblem problem;
    problem.plot.sun_from_north = place_.winters.latitude_deg < 0;
    const Advice as_given = advise_for(office_, answers_);
    problem.spot = as_given.yard;
    problem.notes = as_given.notes;
    if (!given(answers_, company_)) problem.notes.push_back({"plan_neighbours", {}});

    const std::vector<Way> all = ways(answers_);
    for (const Way& way : all)
      for (PlanTree& tree : grown(office_, way)) problem.trees.push_back(std::move(tree));
    problem.trees.erase(std::remove_if(problem.trees.begin(), problem.trees.end(),
                                       [&](const PlanTree& tree) { return stands_already(tree.id, existing); }),
                        problem.trees.end());
    drop_outdone(problem.trees);
    const std::vector<Way> in_ground = existing.empty() ? std::vector<Way>() : ways(grounded());
    int slot = 0;
    for (const ExistingTree& old : existing) {
      std::vector<PlanTree> kept = keep(old, in_ground, ++slot);
      if (std::any_of(kept.begin(), kept.end(), [](const PlanTree& tree) { return tree.points == 0; }))
        problem.notes.push_back({"plan_existing_poor", {arg("tree", ArgKind::cultivar, old.cultivar)}});
      std::move(kept.begin(), kept.end(), std::back_inserter(problem.trees));
    }
    return problem;
  }

 private:
  static bool stands_already(const std::string& id, const std::vector<ExistingTree>& existing) {
    return std::any_of(existing.begin(), existing.end(), [&](const ExistingTree& old) { return old.cultivar == id; });
  }

  Advice advise_for(const Office& office, const Answers& answers) {
    return advise(catalog_, office, place_, answers, replay_, memo_);
  }

  // In the ground at every width that the question on room offers; in every pot that may be meant, carried
  // in or not. A pot's crown is small, so the widest room will do.
  [[nodiscard]] std::vector<Way> ways(const Answers& given_answers) const {
    const Asked room = asked_for(catalog_, Variable::room_m), pot = asked_for(catalog_, Variable::container_l),
                  indoors = asked_for(catalog_, Variable::moves_indoors);
    std::vector<Way> out;
    std::vector<std::pair<Answers, double>> plantings;  // answers, litres
    if (pot.question == nullptr) plantings.emplace_back(given_answers, 0);
    for (const auto& [id, yard] : pot.answers) {
      if (given(given_answers, pot) && given_answers.at(pot.question->id) != id) continue;
      Answers answers = given_answers;
      answers[pot.question->id] = id;
      if (yard.container_l <= 0 || indoors.question == nullptr || given(given_answers, indoors)) {
        plantings.emplace_back(std::move(answers), yard.container_l);
        continue;
      }
      for (const auto& carried : indoors.answers) {
        answers[indoors.question->id] = carried.first;
        plantings.emplace_back(answers, yard.container_l);
      }
    }
    for (const auto& [answers, litres] : plantings) {
      if (room.question == nullptr) {
        out.push_back({answers, 30, litres});
        continue;
      }
      const auto widest = std::max_element(room.answers.begin(), room.answers.end(),
                                           [](const auto& a, const auto& b) { return a.second.room_m < b.second.room_m; });
      for (auto at = room.answers.begin(); at != room.answers.end(); ++at) {
        if (litres > 0 && at != widest) continue;
        Way way{answers, at->second.room_m, litres};
        way.answers[room.question->id] = at->first;
        out.push_back(std::move(way));
      }
    }
    return out;
  }

  // The answers, but for a tree in the ground: an old one stands there whatever is meant for the new ones.
  [[nodiscard]] Answers grounded() const {
    Answers answers = answers_;
    const Asked pot = asked_for(catalog_, Variable::container_l);
    for (const auto& [id, yard] : pot.answers)
      if (yard.container_l <= 0) answers[pot.question->id] = id;
    return answers;
  }

  // Every cultivar that does, grown this way.
  std::vector<PlanTree> grown(const Office& office, const Way& way) {
    std::vector<PlanTree> out;
    Answers answers = way.answers;
    const auto ask = [&](const std::string& company) {
      if (!company.empty()) answers[company_.question->id] = company;
      return advise_for(office, answers);
    };
    const Advice with = ask(with_others_);
    if (others_near_ || with_others_.empty() || without_.empty()) {
      for (const Candidate& candidate : with.candidates)
        if (candidate.shelf != Shelf::not_here) out.push_back(tree_of(candidate, way, candidate.points, 0, 0));
      return out;
    }
    const Advice alone = ask(without_);
    std::map<std::string_view, const Candidate*> with_pollen;
    for (const Candidate& candidate : with.candidates) with_pollen[candidate.cultivar] = &candidate;
    for (const Candidate& candidate : alone.candidates) {
      const Candidate& partnered = *with_pollen.at(candidate.cultivar);
      const bool does_alone = candidate.shelf != Shelf::not_here, does_with = partnered.shelf != Shelf::not_here;
      const bool needs = find_cultivar(catalog_, candidate.cultivar)->traits.sets_fruit.is == SetsFruit::partner_needed;
      if (needs) {
        const int loss = std::max(partnered.points - candidate.points, (partnered.points * kAloneLossQuarters + 3) / 4);
        if (does_with) out.push_back(tree_of(partnered, way, partnered.points, std::min(loss, partnered.points), 0));
      } else if (does_alone && !does_with) {  // seeds make it a no: then it is worth nothing
        out.push_back(tree_of(candidate, way, candidate.points, 0, candidate.points));
      } else if (does_alone) {
        const int gain = partnered.points - candidate.points;
        out.push_back(gain >= 0 ? tree_of(partnered, way, partnered.points, gain, 0) : tree_of(candidate, way, candidate.points, 0, -gain));
      }
    }
    return out;
  }

  [[nodiscard]] PlanTree tree_of(const Candidate& candidate, const Way& way, int points, int alone_loss, int seed_loss) const {
    const Cultivar& cultivar = *find_cultivar(catalog_, candidate.cultivar);
    const Rootstock* stock = find_rootstock(catalog_, candidate.rootstock);
    const Protection* habit = find_protection(catalog_, candidate.protection);
    Rootstock middling;
    middling.size_share.best = 1;
    Tree size;
    size.cultivar = &cultivar;
    size.stock = stock == nullptr ? &middling : stock;
    Yard yard;
    const double natural = full_spread_m(size, yard);
    yard.container_l = way.container_l;
    const double kept = std::min(full_spread_m(size, yard), way.room_m);
    PlanTree tree;
    tree.id = cultivar.id;
    tree.type = cultivar.type;
    tree.rootstock = candidate.rootstock;
    tree.protection = candidate.protection;
    tree.points = points;
    tree.alone_loss = alone_loss;
    tree.seed_loss = seed_loss;
    const bool needs = cultivar.traits.sets_fruit.is == SetsFruit::partner_needed;
    tree.needs_partner = needs && !others_near_;
    tree.partner_near = needs && others_near_;
    tree.ripe = months_of(candidate.prospect.ripe_from_month, candidate.prospect.ripe_to_month);
    tree.bloom = months_of(cultivar.traits.bloom.from_month, cultivar.traits.bloom.to_month);
    tree.pollen = cultivar.traits.pollen.is;
    tree.partners = cultivar.partners;
    tree.not_partners = cultivar.not_partners;
    tree.work_tenths = static_cast<int>(std::floor(candidate.prospect.work_nights.best * 10 + 0.5));
    tree.crown_cm = centimetres(kept);
    tree.natural_cm = centimetres(natural);
    // A crown kept narrow is kept as low in proportion.
    tree.height_cm = centimetres(full_height_m(size) * (natural > 0 ? kept / natural : 1));
    tree.container = way.container_l > 0;
    tree.carried = tree.container && habit != nullptr && habit->container_only;
    tree.cautions = candidate.cautions;
    return tree;
  }

  // An existing tree in the ground, at every width it may be pruned to. One that would not be planted here
  // any more may stay, but is worth next to nothing.
  std::vector<PlanTree> keep(const ExistingTree& old, const std::vector<Way>& in_ground, int slot) {
    const Cultivar* cultivar = find_cultivar(catalog_, old.cultivar);
    if (cultivar == nullptr) return {};
    Office only = office_;
    only.on_sale = {old.cultivar};
    if (!old.rootstock.empty()) only.rootstocks_on_sale = {old.rootstock};
    std::vector<PlanTree> out;
    for (const Way& way : in_ground)
      for (PlanTree& tree : grown(only, way)) out.push_back(std::move(tree));
    drop_outdone(out);
    if (out.empty()) {
      Candidate candidate;
      candidate.cultivar = old.cultivar;
      candidate.rootstock = old.rootstock;
      candidate.protection = "none";
      const PlanTree whole = tree_of(candidate, {}, 0, 0, 0);
      for (int quarters : {4, 3, 2}) {
        PlanTree pruned = whole;
        pruned.points = quarters - 2;  // nobody prunes without a reason
        pruned.crown_cm = whole.crown_cm * quarters / 4;
        pruned.height_cm = whole.height_cm * quarters / 4;
        out.push_back(std::move(pruned));
      }
    }
    for (PlanTree& tree : out) {
      tree.existing = true;
      tree.slot = slot;
      tree.fixed = old.fixed;
      tree.x_cm = old.x_cm;
      tree.y_cm = old.y_cm;
      if (old.rootstock.empty()) tree.rootstock.clear();
    }
    return out;
  }

  // Takes out what another way to grow the same kind matches or beats in every respect that a plan weighs.
  static void drop_outdone(std::vector<PlanTree>& trees) {
    std::stable_sort(trees.begin(), trees.end(), [](const PlanTree& a, const PlanTree& b) { return a.id < b.id; });
    const auto no_worse = [](const PlanTree& a, const PlanTree& b) {
      return a.id == b.id && a.crown_cm <= b.crown_cm && a.points >= b.points && a.alone_loss <= b.alone_loss &&
             a.seed_loss <= b.seed_loss && (b.ripe & ~a.ripe) == 0 && a.work_tenths <= b.work_tenths && a.carried <= b.carried;
    };
    std::vector<PlanTree> kept;
    for (std::size_t i = 0; i < trees.size(); ++i) {
      bool outdone = false;
      for (std::size_t j = 0; j < trees.size() && !outdone; ++j)
        outdone = j != i && no_worse(trees[j], trees[i]) && (j < i || !no_worse(trees[i], trees[j]));
      if (!outdone) kept.push_back(trees[i]);
    }
    trees = std::move(kept);
  }

  const Catalog& catalog_;
  const Office& office_;
  const Place& place_;
  const Answers& answers_;
  Replay replay_;
  ReplayMemo memo_;
  Asked company_;
  std::string with_others_, without_;  // answers to the question on company
  bool others_near_ = false;
};

}  // namespace

PlanProblem yard_offer(const Catalog& catalog, const Office& office, const Place& place, const Answers& answers,
                       const std::vector<ExistingTree>& existing) {
  return Offer(catalog, office, place, answers).make(existing);
}

}  // namespace tenwinters
