// What is known of a yard, and every way the rest could turn out.
#pragma once

#include <cstdint>
#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

#include "tenwinters/catalog.h"
#include "tenwinters/yard.h"

namespace tenwinters {

// The variables a rule reads, one bit each.
using Reads = std::uint32_t;
constexpr Reads reads(std::initializer_list<Variable> variables) {
  Reads bits = 0;
  for (Variable variable : variables) bits |= Reads{1} << static_cast<unsigned>(variable);
  return bits;
}

// A yard that could be, and its share of all that could be.
struct Case {
  double share = 0;
  Yard yard;
};

// The interview so far. Keeps references to the catalogue's questions.
class Interview {
 public:
  Interview(const Catalog& catalog, const Answers& answers);

  // Valid answers to questions that apply; "don't know" counts as no answer.
  [[nodiscard]] const Answers& understood() const { return understood_; }
  [[nodiscard]] std::vector<std::string> unanswered() const;

  // The yard if every open question were given its commonest answer.
  [[nodiscard]] Yard likeliest() const;

  // Every combination of answers to the open questions that bear on `what`, with its exact share;
  // the shares add up to 1. Variables outside `what` are unspecified. Always at least one case.
  [[nodiscard]] std::vector<Case> cases(Reads what) const;

  // The first open question that bears on `what`, or "".
  [[nodiscard]] std::string_view first_open(Reads what) const;

  // Open questions that can be put now: not yet met with "don't know", and their condition, if any, is settled.
  // By index in the catalogue, rising.
  [[nodiscard]] std::vector<std::size_t> askable() const;
  // Whether some question was met with "don't know".
  [[nodiscard]] bool any_declined() const;
  // What the answers of this question can set.
  [[nodiscard]] Reads sets(std::size_t question) const { return items_[question].sets; }

  // One way the open questions could go: `at` holds a number of [0, 1) per question of the catalogue, and an
  // open question gets the answer whose share of the priors, laid end to end, holds its number. `chosen`
  // becomes the index of each question's answer, -1 where it is not asked.
  [[nodiscard]] Yard drawn(const std::vector<double>& at, std::vector<int>& chosen) const;

 private:
  static constexpr int kNone = -1;
  struct Item {
    const Question* question = nullptr;
    int given = kNone;      // index of the answer given
    int condition = kNone;  // index of the question that decides whether this one is asked
    Reads sets = 0;         // what its answers can set
    double sum = 0;         // of the priors
    bool settled = false;   // given or never asked, whatever the open questions turn out to be
    bool may_apply = true;
    bool declined = false;  // met with "don't know"
  };
  // `chosen` holds an answer index per question, or kNone where not asked (or not decided yet).
  [[nodiscard]] bool applies(const Item& item, const std::vector<int>& chosen) const;
  [[nodiscard]] bool condition_open(const Item& item) const;
  // The yard once each open question that applies has the answer of this index: pick(index of the question).
  template <class Pick>
  Yard completed(std::vector<int>& chosen, const Pick& pick) const;
  [[nodiscard]] std::vector<std::size_t> bearing_on(Reads what) const;
  void walk(const std::vector<std::size_t>& order, std::size_t at, double share, const Yard& yard, std::vector<int>& chosen,
            std::vector<Case>& out) const;

  std::vector<Item> items_;
  Answers understood_;
  Yard known_;
};

}  // namespace tenwinters
