// Start here. Which citrus for this yard, and will it live?
//
//   tenwinters::Answers answers{{"sun", "full"}, {"planting", "ground"}, {"taste", "sweet"}};
//   tenwinters::Advice advice = tenwinters::advise(catalog, office, office.places[0], answers);
//   for (const auto& c : advice.candidates)            // best first; ties by id
//     if (c.shelf == tenwinters::Shelf::will_do) use(c.cultivar, c.points);
//
// Pure and deterministic: same arguments, same bytes, native or WebAssembly. Never throws.
#pragma once

#include <string>
#include <vector>

#include "tenwinters/catalog.h"
#include "tenwinters/office.h"
#include "tenwinters/yard.h"

namespace tenwinters {

struct Replay;      // prospect.h
struct ReplayMemo;

// How to print an argument of a reason: the edge converts units and looks up words.
enum class ArgKind {
  celsius, celsius_difference, metres, litres, hours, percent, count, years, months, word, cultivar, type,
  rootstock, question, answer, place, protection, text
};
template <> struct Names<ArgKind> {
  static constexpr std::string_view list[] = {"celsius",  "celsius_difference", "metres", "litres",   "hours", "percent",
                                              "count",    "years",              "months", "word",     "cultivar", "type",
                                              "rootstock", "question",          "answer", "place",    "protection", "text"};
};

struct Arg {
  std::string name;
  ArgKind kind = ArgKind::count;
  double number = 0;       // for the numeric kinds, in the unit of the kind; months: from*100 + to
  std::string id;          // for the others

  bool operator==(const Arg&) const = default;
};

// Why, as data; the words live in catalog/words/*.yaml under reasons.<id>.
struct Reason {
  std::string id;
  std::vector<Arg> args;

  bool operator==(const Reason&) const = default;
};

// What ten years of this place's winters would do to one tree, replayed from the record.
// Of a candidate that will not grow here low and high are the best figure; candidate_in_full() (change.h) tells them.
struct Interval {
  double best = 0, low = 0, high = 0;

  bool operator==(const Interval&) const = default;
};
struct Prospect {
  Interval alive_at_ten;       // chance, 0..1
  Interval good_harvests;      // expected, of ten years
  Interval work_nights;        // nights a winter that ask for work
  Interval crops_lost;         // expected in ten years, fruit lost to cold
  int ripe_from_month = 0, ripe_to_month = 0;  // local window; 0 = never ripens here

  bool operator==(const Prospect&) const = default;
};

// What became of a hard limit.
enum class Verdict { pass, unknown, fail };
template <> struct Names<Verdict> {
  static constexpr std::string_view list[] = {"pass", "unknown", "fail"};
};

struct Limit {
  std::string id;              // sun, drainage, room, rule, thorns, medicine, use, seeds, cold, soil, stock
  Verdict verdict = Verdict::pass;
  double chance = 1;           // of passing, over the answers not given
  Reason reason;               // of the fail, or of what to find out

  bool operator==(const Limit&) const = default;
};

struct Contribution {
  std::string criterion;
  int points = 0;              // contributions add up to Candidate::points exactly
  int of = 0;                  // the most this criterion could give
  Reason reason;

  bool operator==(const Contribution&) const = default;
};

enum class Shelf { will_do, with_work, not_here };
template <> struct Names<Shelf> {
  static constexpr std::string_view list[] = {"will_do", "with_work", "not_here"};
};

struct Candidate {
  std::string cultivar, rootstock, protection;   // ids; the best rootstock and habit for this yard
  Shelf shelf = Shelf::not_here;
  int points = 0;                                // 0..100
  Prospect prospect;
  std::vector<Contribution> contributions;       // in the order of Catalog::criteria
  std::vector<Limit> limits;                     // only those that fail or are unknown
  std::vector<Reason> notes;                     // partner, container, soil, seeds: what a buyer must know
  std::vector<std::string> cautions;             // caution ids that concern this household and tree

  bool operator==(const Candidate&) const = default;
};

struct Advice {
  std::string place;
  Answers answers;                               // as understood
  std::vector<std::string> unanswered;           // question ids that still apply
  std::vector<Limit> yard;                       // limits of the spot itself (sun, drainage), first and honest
  std::vector<Candidate> candidates;             // shelf, then points, then id
  std::vector<Reason> notes;                     // for the whole yard

  bool operator==(const Advice&) const = default;
};

// The criteria the engine knows; catalog/model.yaml gives their weights.
inline constexpr std::string_view kCriteria[] = {"harvest", "taste", "use", "seeds", "season",
                                                 "room",    "work",  "thorns", "ornament"};

// A fault in a set of answers: unknown question or answer.
struct AnswerFault {
  std::string question, answer, nearest;         // nearest valid name, or ""
  bool question_unknown = false;
};
[[nodiscard]] std::vector<AnswerFault> check_answers(const Catalog& catalog, const Answers& answers);

// Questions that still apply and have no answer, in the order of the catalogue. One whose condition is open applies.
[[nodiscard]] std::vector<std::string> open_questions(const Catalog& catalog, const Answers& answers);

// Faulty answers are left out (check them first).
[[nodiscard]] Advice advise(const Catalog& catalog, const Office& office, const Place& place, const Answers& answers);

// The same, for many yards of one place: `replay` is make_replay(place.winters, catalog.cold_model), and
// `memo` belongs to it.
[[nodiscard]] Advice advise(const Catalog& catalog, const Office& office, const Place& place, const Answers& answers,
                            const Replay& replay, ReplayMemo& memo);

}  // namespace tenwinters
