#include <algorithm>
#include <cmath>
#include <numbers>

#include "tenwinters/climate.h"

namespace tenwinters {
namespace {

// SplitMix64; (0, 1), never an end.
double uniform(std::uint64_t& state) {
  state += 0x9E3779B97F4A7C15ULL;
  std::uint64_t z = state;
  z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ULL;
  z = (z ^ (z >> 27)) * 0x94D049BB133111EBULL;
  z ^= z >> 31;
  return (static_cast<double>(z >> 11) + 0.5) / 9007199254740992.0;
}

// (1 - b^-k) / (1 - a^-k) without loss of digits near k = 0, where it tends to ln b / ln a.
double power_ratio(double b, double a, double k) {
  const double top = std::expm1(-k * std::log(b)), bottom = std::expm1(-k * std::log(a));
  return std::abs(k) < 1e-9 ? std::log(b) / std::log(a) : top / bottom;
}

// L-skewness of a GEV (Hosking 1990): it falls steadily as the shape grows.
double skewness(double k) {
  return 2 * power_ratio(3, 2, k) - 3;
}

constexpr double kSmall = 1e-7;  // shapes nearer to 0 are a Gumbel to all the digits a double has

}  // namespace

LMoments sample_l_moments(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  const auto n = static_cast<double>(values.size());
  double b0 = 0, b1 = 0, b2 = 0, b3 = 0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    const auto j = static_cast<double>(i);
    const double w1 = j / (n - 1), w2 = w1 * (j - 1) / (n - 2), w3 = w2 * (j - 2) / (n - 3);
    b0 += values[i];
    b1 += values[i] * w1;
    b2 += values[i] * w2;
    b3 += values[i] * w3;
  }
  b0 /= n, b1 /= n, b2 /= n, b3 /= n;
  const double l2 = 2 * b1 - b0;
  LMoments m{b0, l2, 0, 0};
  if (l2 > 0) {
    m.t3 = (6 * b2 - 6 * b1 + b0) / l2;
    m.t4 = (20 * b3 - 30 * b2 + 12 * b1 - b0) / l2;
  }
  return m;
}

Gev fit_gev(const LMoments& moments) {
  double low = -0.999, high = 60;  // skewness from nearly 1 down to nearly -1
  for (int i = 0; i < 64; ++i) {
    const double middle = (low + high) / 2;
    (skewness(middle) > moments.t3 ? low : high) = middle;
  }
  const double k = (low + high) / 2;
  if (std::abs(k) < kSmall) return fit_gumbel(moments);
  const double gamma = std::tgamma(1 + k);
  const double scale = moments.l2 * k / (gamma * -std::expm1(-k * std::numbers::ln2));
  return {moments.l1 - scale * (1 - gamma) / k, scale, k};
}

Gev fit_gumbel(const LMoments& moments) {
  const double scale = moments.l2 / std::numbers::ln2;
  return {moments.l1 - std::numbers::egamma * scale, scale, 0};
}

double gev_quantile(const Gev& gev, double probability) {
  const double y = -std::log(probability);
  if (std::abs(gev.shape) < kSmall) return gev.location - gev.scale * std::log(y);
  return gev.location + gev.scale * -std::expm1(gev.shape * std::log(y)) / gev.shape;
}

double gev_cdf(const Gev& gev, double value) {
  const double z = (value - gev.location) / gev.scale;
  if (std::abs(gev.shape) < kSmall) return std::exp(-std::exp(-z));
  const double inside = 1 - gev.shape * z;
  if (inside <= 0) return gev.shape > 0 ? 1 : 0;
  return std::exp(-std::pow(inside, 1 / gev.shape));
}

LMoments gev_l_moments(const Gev& gev) {
  const double k = gev.shape;
  LMoments m;
  if (std::abs(k) < kSmall) {
    m.l1 = gev.location + std::numbers::egamma * gev.scale;
    m.l2 = gev.scale * std::numbers::ln2;
  } else {
    const double gamma = std::tgamma(1 + k);
    m.l1 = gev.location + gev.scale * (1 - gamma) / k;
    m.l2 = gev.scale * gamma * -std::expm1(-k * std::numbers::ln2) / k;
  }
  m.t3 = skewness(k);
  m.t4 = 5 * power_ratio(4, 2, k) - 10 * power_ratio(3, 2, k) + 6;
  return m;
}

double return_level_of_minima(const Gev& gev, double years) {
  return -gev_quantile(gev, 1 - 1 / years);
}

std::vector<Range> bootstrap_return_levels(const Gev& gev, std::size_t n, std::span<const double> years, int samples,
                                           std::uint64_t seed) {
  std::vector<std::vector<double>> levels(years.size());
  std::uint64_t state = seed;
  std::vector<double> sample(n);
  for (int s = 0; s < samples; ++s) {
    for (double& value : sample) value = gev_quantile(gev, uniform(state));
    const Gev fitted = fit_gev(sample_l_moments(sample));
    for (std::size_t i = 0; i < years.size(); ++i) levels[i].push_back(return_level_of_minima(fitted, years[i]));
  }
  std::vector<Range> limits;
  for (std::vector<double>& of_year : levels) {
    std::sort(of_year.begin(), of_year.end());
    const auto at = [&](double share) {
      return of_year[static_cast<std::size_t>(share * static_cast<double>(of_year.size() - 1))];
    };
    limits.push_back(of_year.empty() ? Range{} : Range{at(0.05), at(0.95)});
  }
  return limits;
}

Trend theil_sen(std::span<const double> x, std::span<const double> y) {
  std::vector<double> slopes;
  for (std::size_t i = 0; i < x.size(); ++i)
    for (std::size_t j = i + 1; j < x.size(); ++j)
      if (x[j] != x[i]) slopes.push_back((y[j] - y[i]) / (x[j] - x[i]));
  if (slopes.empty()) return {};
  std::sort(slopes.begin(), slopes.end());
  const auto count = static_cast<double>(slopes.size()), n = static_cast<double>(x.size());
  const auto at = [&](double place) {  // 0-based, between neighbours by straight line
    const double inside = std::clamp(place, 0.0, count - 1);
    const auto below = static_cast<std::size_t>(inside);
    const std::size_t above = std::min(below + 1, slopes.size() - 1);
    return slopes[below] + (slopes[above] - slopes[below]) * (inside - static_cast<double>(below));
  };
  // Sen 1968: the limits stand off the middle by the spread of Kendall's statistic; 1.645 for 90 %.
  const double spread = 1.645 * std::sqrt(n * (n - 1) * (2 * n + 5) / 18);
  return {at((count - 1) / 2), {at((count - spread) / 2 - 1), at((count + spread) / 2)}};
}

}  // namespace tenwinters
