#include "tenwinters/decide.h"

#include <algorithm>
#include <array>
#include <cstdint>

#include "order.h"

namespace tenwinters {
namespace {

std::vector<double> to_shares(std::vector<double> parts) {
  double sum = 0;
  for (double part : parts) sum += part;
  for (double& part : parts) part /= sum;
  return parts;
}

double weighted_sum(const std::vector<double>& weights, const std::vector<double>& values) {
  double sum = 0;
  for (std::size_t i = 0; i < weights.size() && i < values.size(); ++i) sum += weights[i] * values[i];
  return sum;
}

// The digits of n in a prime base, mirrored at the point: 0..1, never twice the same.
double mirrored(std::uint64_t n, std::uint64_t base) {
  double value = 0, unit = 1;
  for (; n > 0; n /= base) {
    unit /= static_cast<double>(base);
    value += unit * static_cast<double>(n % base);
  }
  return value;
}

}  // namespace

std::vector<double> rank_order_centroid_weights(std::size_t n) {
  std::vector<double> weights(n);
  double sum = 0;
  for (std::size_t i = n; i-- > 0;) {
    sum += 1.0 / static_cast<double>(i + 1);
    weights[i] = sum / static_cast<double>(n);
  }
  return weights;
}

std::vector<double> rank_sum_weights(std::size_t n) {
  std::vector<double> parts(n);
  for (std::size_t i = 0; i < n; ++i) parts[i] = static_cast<double>(n - i);
  return to_shares(std::move(parts));
}

std::vector<double> rank_reciprocal_weights(std::size_t n) {
  std::vector<double> parts(n);
  for (std::size_t i = 0; i < n; ++i) parts[i] = 1.0 / static_cast<double>(i + 1);
  return to_shares(std::move(parts));
}

std::vector<int> swing_weights(const std::vector<int>& swings, int total) {
  std::vector<int> weights(swings.size(), 0);
  std::int64_t sum = 0;
  for (int swing : swings) sum += std::max(swing, 0);
  if (sum == 0 || total <= 0) return weights;
  std::vector<std::pair<std::int64_t, std::size_t>> remainders;  // negated, so that the largest sorts first
  int given = 0;
  for (std::size_t i = 0; i < swings.size(); ++i) {
    const std::int64_t share = std::int64_t{std::max(swings[i], 0)} * total;
    weights[i] = static_cast<int>(share / sum);
    given += weights[i];
    remainders.emplace_back(-(share % sum), i);
  }
  put_in_order(remainders);
  for (std::size_t i = 0; given < total; ++i, ++given) ++weights[remainders[i].second];
  return weights;
}

double additive_value(const std::vector<double>& weights, const std::vector<double>& values) {
  double weight = 0;
  for (std::size_t i = 0; i < weights.size() && i < values.size(); ++i) weight += weights[i];
  return weight == 0 ? 0 : weighted_sum(weights, values) / weight;
}

double piecewise_value(double x, const std::vector<std::pair<double, double>>& points) {
  if (points.empty()) return 0;
  if (x <= points.front().first) return points.front().second;
  for (std::size_t i = 1; i < points.size(); ++i) {
    const auto& [x0, v0] = points[i - 1];
    const auto& [x1, v1] = points[i];
    if (x < x1) return v0 + (v1 - v0) * ((x - x0) / (x1 - x0));
  }
  return points.back().second;
}

std::vector<std::vector<double>> simplex_weights(std::size_t count, std::size_t criteria) {
  constexpr std::array<std::uint64_t, 15> kPrimes = {2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47};
  if (criteria == 0 || criteria > kPrimes.size() + 1) return {};
  std::vector<std::vector<double>> out;
  out.reserve(count);
  for (std::size_t i = 0; i < count; ++i) {
    std::vector<double> cuts;
    for (std::size_t c = 0; c + 1 < criteria; ++c) cuts.push_back(mirrored(i + 1, kPrimes[c]));
    put_in_order(cuts);
    cuts.push_back(1);
    for (std::size_t c = criteria - 1; c > 0; --c) cuts[c] -= cuts[c - 1];
    out.push_back(std::move(cuts));
  }
  return out;
}

Acceptability acceptability(const std::vector<Scores>& scores, const std::vector<std::vector<double>>& weights) {
  Acceptability out;
  if (scores.empty() || weights.empty()) return out;
  const std::size_t options = scores.front().size(), criteria = weights.front().size();
  out.rank.assign(options, std::vector<double>(options, 0));
  out.central.assign(options, {});
  out.confidence.assign(options, -1);
  std::vector<double> first_share(options, 0), value(options);
  std::vector<std::vector<double>> sums(options, std::vector<double>(criteria, 0));
  for (std::size_t draw = 0; draw < weights.size(); ++draw) {
    const Scores& score = scores[draw % scores.size()];
    for (std::size_t o = 0; o < options; ++o) value[o] = weighted_sum(weights[draw], score[o]);
    for (std::size_t o = 0; o < options; ++o) {
      std::size_t above = 0, level = 0;
      for (std::size_t other = 0; other < options; ++other) {
        above += value[other] > value[o] ? 1U : 0U;
        level += value[other] == value[o] ? 1U : 0U;
      }
      const double share = 1.0 / static_cast<double>(level);
      for (std::size_t place = above; place < above + level; ++place) out.rank[o][place] += share;
      if (above > 0) continue;
      first_share[o] += share;
      for (std::size_t c = 0; c < criteria; ++c) sums[o][c] += share * weights[draw][c];
    }
  }
  for (std::size_t o = 0; o < options; ++o) {
    for (double& share : out.rank[o]) share /= static_cast<double>(weights.size());
    if (first_share[o] == 0) continue;
    out.central[o] = sums[o];
    for (double& weight : out.central[o]) weight /= first_share[o];
    std::size_t won = 0;
    for (const Scores& score : scores) {
      const double own = weighted_sum(out.central[o], score[o]);
      if (std::all_of(score.begin(), score.end(),
                      [&](const std::vector<double>& other) { return weighted_sum(out.central[o], other) <= own; }))
        ++won;
    }
    out.confidence[o] = static_cast<double>(won) / static_cast<double>(scores.size());
  }
  return out;
}

double log_2(double x) {
  if (!(x > 0) || x - x != 0) return 0;
  double whole = 0;
  for (; x >= 1.5; x /= 2) whole += 1;
  for (; x < 0.75; x *= 2) whole -= 1;
  // ln x = 2 (z + z^3/3 + z^5/5 + ...) with z = (x - 1) / (x + 1), here at most 0.2 in size: fifteen terms
  // leave an error below 10^-22. Summed from the smallest term on.
  const double z = (x - 1) / (x + 1), square = z * z;
  double sum = 0;
  for (int k = 14; k >= 0; --k) sum = sum * square + 1.0 / (2 * k + 1);
  constexpr double kTwoOverLn2 = 2.8853900817779268;
  return whole + kTwoOverLn2 * z * sum;
}

double entropy_bits(const std::vector<double>& counts) {
  double total = 0;
  for (double count : counts) total += count > 0 ? count : 0;
  double bits = 0;
  for (double count : counts)
    if (count > 0) bits -= count / total * log_2(count / total);
  return bits;
}

double information_gain(const std::vector<std::vector<double>>& counts) {
  std::vector<double> outcomes;
  double total = 0;
  for (const std::vector<double>& answer : counts) {
    if (answer.size() > outcomes.size()) outcomes.resize(answer.size(), 0);
    for (std::size_t o = 0; o < answer.size(); ++o) {
      outcomes[o] += answer[o];
      total += answer[o];
    }
  }
  if (!(total > 0)) return 0;
  double left = 0;
  for (const std::vector<double>& answer : counts) {
    double share = 0;
    for (double count : answer) share += count;
    left += share / total * entropy_bits(answer);
  }
  const double gain = entropy_bits(outcomes) - left;
  return gain > 0 ? gain : 0;  // rounding must not make knowledge cost anything
}

double value_of_perfect_information(const std::vector<double>& chances, const std::vector<std::vector<double>>& payoffs) {
  if (payoffs.empty()) return 0;
  double best = weighted_sum(chances, payoffs.front());
  for (const std::vector<double>& option : payoffs) best = std::max(best, weighted_sum(chances, option));
  std::vector<double> most = payoffs.front();
  for (const std::vector<double>& option : payoffs)
    for (std::size_t s = 0; s < most.size() && s < option.size(); ++s) most[s] = std::max(most[s], option[s]);
  return weighted_sum(chances, most) - best;
}

}  // namespace tenwinters
