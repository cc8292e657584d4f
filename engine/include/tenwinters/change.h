// What would have to change: the least that brings a tree in, and what decides between two trees.
//
//   LeastChange least = least_change(catalog, office, place, answers, "meyer", replay, memo);
//   for (const auto& way : least.ways) offer(way.changes, way.points);       // each of the fewest changes there can be
//   Comparison two = compare(catalog, office, place, answers, "meyer", "owari", replay, memo);
//
// Pure and deterministic, like advise(). Faulty answers are left out. `replay` and `memo` as for advise().
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "tenwinters/advise.h"

namespace tenwinters {

// One candidate of the advice, its intervals told even if it will not grow here. nullopt as for least_change().
[[nodiscard]] std::optional<Candidate> candidate_in_full(const Catalog& catalog, const Office& office, const Place& place,
                                                         const Answers& answers, std::string_view cultivar, const Replay& replay,
                                                         ReplayMemo& memo);

// An answer put in the place of another, or of none.
struct Change {
  std::string question, answer;
};

enum class Aim { grow, best_three };   // a tree that is ruled out is to grow here; another to reach the best three
template <> struct Names<Aim> {
  static constexpr std::string_view list[] = {"grow", "best_three"};
};

struct WayIn {
  std::vector<Change> changes;         // in the order of the catalogue's questions
  Shelf shelf = Shelf::not_here;       // of the tree once they are made
  int points = 0, place = 0;           // place: 1 = first of all candidates
};

inline constexpr std::size_t kMostChanges = 3;

struct LeastChange {
  std::string cultivar;
  Aim aim = Aim::grow;
  bool reached = false;                // nothing need change
  std::vector<WayIn> ways;             // all of the same, smallest size; best place first; empty if none of kMostChanges does
  std::vector<std::string> barred;     // limits that fail now and that no answer within reach touches, such as "rule"
};

// Only answers within reach are proposed: what a household can do, never what it wishes, what a caution asks of it,
// or what a rule forbids. nullopt: the cultivar is not in the catalogue or not on sale here.
[[nodiscard]] std::optional<LeastChange> least_change(const Catalog& catalog, const Office& office, const Place& place,
                                                      const Answers& answers, std::string_view cultivar, const Replay& replay,
                                                      ReplayMemo& memo);

// One answer that, given instead, turns the order of two trees.
struct Turn {
  Change change;
  bool first_leads = false;            // then: by shelf, then points, then id
  int lead = 0;                        // points of the first over the second then; +-kBeyondPoints if only one of them grows
};
inline constexpr int kBeyondPoints = 101;

// How much colder (less than 0) or warmer still nights at the spot would have to be for the order to turn.
struct ColdTurn {
  double warmer_c = 0;                 // steps of 0.25 C, at most 6 C either way
  double usual_low_c = 0;              // the spot's median lowest night of a winter then
  bool ruled_out = false;              // there, the tree that led grows no more
};

struct Comparison {
  Candidate first, second;
  bool first_leads = false;            // as in Turn, now
  int lead = 0;
  double usual_low_c = 0;              // the spot's median lowest night of a winter, now
  std::vector<Turn> turns;             // those nearest to level first
  std::optional<ColdTurn> cold;        // the nearest
};

// nullopt if one of the two is not in the catalogue or not on sale here.
[[nodiscard]] std::optional<Comparison> compare(const Catalog& catalog, const Office& office, const Place& place,
                                                const Answers& answers, std::string_view first, std::string_view second,
                                                const Replay& replay, ReplayMemo& memo);

}  // namespace tenwinters
