// Methods of choosing: weights from stated priorities, values that add up, how sure a first place is, and
// what an answer is worth before it is given.
//
//   std::vector<int> weights = swing_weights({100, 80, 70});            // {40, 32, 28}: add up to 100
//   double gain = information_gain({{2, 3}, {4, 0}, {3, 2}});           // 0.247 bits: answers x outcomes
//   auto drawn = simplex_weights(4096, 3);                              // every weighting, evenly
//   Acceptability sure = acceptability({scores}, drawn);                // sure.rank[0][0]: chance of being first
//
// Pure, and from exact operations only (+ - * / on doubles, in a fixed order), so that every build gets
// the same bits. Empty or faulty input gives an empty or zero result, said with each function.
#pragma once

#include <cstddef>
#include <utility>
#include <vector>

namespace tenwinters {

// Weights of n criteria of which only the order of importance is known, most important first; each set
// adds up to 1. Empty for n = 0. (Barron & Barrett, Management Science 42(11), 1996.)
[[nodiscard]] std::vector<double> rank_order_centroid_weights(std::size_t n);
[[nodiscard]] std::vector<double> rank_sum_weights(std::size_t n);
[[nodiscard]] std::vector<double> rank_reciprocal_weights(std::size_t n);

// Swing weighting (Goodwin & Wright, Decision Analysis for Management Judgment, chapter 3). A person says
// for each criterion how much the swing from its worst to its best level matters beside the most important
// swing, which counts 100. Returns whole weights in proportion that add up to `total` (largest remainders
// first, ties to the earlier). Swings below 0 count 0; if none is above 0, all weights are 0.
[[nodiscard]] std::vector<int> swing_weights(const std::vector<int>& swings, int total = 100);

// The weighted mean of values, weights in any unit. Extra weights or values are left out; 0 without weight.
[[nodiscard]] double additive_value(const std::vector<double>& weights, const std::vector<double>& values);

// A value function of straight pieces through (x, value), x rising; level beyond both ends. 0 without points.
[[nodiscard]] double piecewise_value(double x, const std::vector<std::pair<double, double>>& points);

// `count` weightings of `criteria` criteria that fill the set of all weightings (each at least 0, adding
// up to 1) evenly: gaps between the sorted coordinates of Halton points. criteria 1..16, else empty.
[[nodiscard]] std::vector<std::vector<double>> simplex_weights(std::size_t count, std::size_t criteria);

// Stochastic multicriteria acceptability (Lahdelma & Salminen, Operations Research 49(3), 2001).
struct Acceptability {
  std::vector<std::vector<double>> rank;     // [option][place]: share of draws in which it takes that place
  std::vector<std::vector<double>> central;  // [option]: mean of the weightings that put it first; empty if none does
  std::vector<double> confidence;            // [option]: share of scores under which its central weighting puts it
                                             // first; -1 where there is none
};
using Scores = std::vector<std::vector<double>>;  // [option][criterion], more is better
// Draw i takes weights[i] and scores[i % scores.size()]. Options that tie share their places evenly.
[[nodiscard]] Acceptability acceptability(const std::vector<Scores>& scores, const std::vector<std::vector<double>>& weights);

// Logarithm to base 2, for x > 0; within 4 units of the last place of 1. 0 for x <= 0.
[[nodiscard]] double log_2(double x);

// How undecided a matter is, in bits, from shares or counts in any unit. 0 if none is above 0.
[[nodiscard]] double entropy_bits(const std::vector<double>& counts);

// How many bits of it an answer removes on average: counts[answer][outcome].
[[nodiscard]] double information_gain(const std::vector<std::vector<double>>& counts);

// What knowing the state beforehand adds to the best expected payoff: payoffs[option][state].
[[nodiscard]] double value_of_perfect_information(const std::vector<double>& chances,
                                                  const std::vector<std::vector<double>>& payoffs);

}  // namespace tenwinters
