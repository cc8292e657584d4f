// Extreme values against published data sets and reference programs. Each value stands beside its source.
//
// Shapes are Hosking's k = minus Coles' xi. Likelihood fits and L-moment fits of the same data differ, so
// Coles' figures are only approached, not met.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "tenwinters/climate.h"

namespace tenwinters {
namespace {

const std::vector<double> kEleven{2.0, 3.0, 4.0, 2.4, 5.5, 1.2, 5.4, 2.2, 7.1, 1.3, 1.5};

// Simiu, Changery & Filliben, NBS Building Science Series 118, 1979: annual maximum wind speed, mph (as
// stored in R package lmomRFA, data set Maxwind).
const std::vector<double> kBrownsville{35, 44, 53, 43, 53, 39, 34, 43, 37, 41, 40, 48, 39, 41, 32, 40, 33, 48,
                                       42, 37, 38, 38, 53, 36, 66, 63, 56, 34, 43, 51, 46, 44, 46, 42, 49};
const std::vector<double> kJacksonville{67, 39, 51, 47, 42, 42, 44, 42, 38, 34, 42, 44, 49, 56,
                                        74, 52, 44, 69, 47, 53, 40, 51, 48, 52, 48, 67, 46, 36};

// R package ismev, data set portpirie: annual maximum sea level, m, 1923-1987.
const std::vector<double> kPortPirie{4.03, 3.83, 3.65, 3.88, 4.01, 4.08, 4.18, 3.8,  4.36, 3.96, 3.98, 4.69, 3.85,
                                     3.96, 3.85, 3.93, 3.75, 3.63, 3.57, 4.25, 3.97, 4.05, 4.24, 4.22, 3.73, 4.37,
                                     4.06, 3.71, 3.96, 4.06, 4.55, 3.79, 3.89, 4.11, 3.85, 3.86, 3.86, 4.21, 4.01,
                                     4.11, 4.24, 3.96, 4.21, 3.74, 3.85, 3.88, 3.66, 4.11, 3.71, 4.18, 3.9,  3.78,
                                     3.91, 3.72, 4.0,  3.66, 3.62, 4.33, 4.55, 3.75, 4.08, 3.9,  3.88, 3.94, 4.33};

// R package extRemes, data set HEAT: lowest July-August minimum at Phoenix AZ, degrees F, 1948-1990.
const std::vector<double> kPhoenix{67, 61, 66, 66, 68, 64, 67, 67, 63, 63, 73, 73, 72, 67, 62,
                                   69, 67, 61, 68, 72, 61, 68, 72, 72, 71, 69, 72, 69, 71, 78,
                                   70, 68, 73, 74, 73, 75, 68, 73, 71, 74, 75, 74, 70};

void expect_moments(const std::vector<double>& data, const LMoments& expected, double within) {
  const LMoments m = sample_l_moments(data);
  EXPECT_NEAR(m.l1, expected.l1, within);
  EXPECT_NEAR(m.l2, expected.l2, within);
  EXPECT_NEAR(m.t3, expected.t3, within);
  EXPECT_NEAR(m.t4, expected.t4, within);
}

void expect_gev(const Gev& gev, const Gev& expected, double within) {
  EXPECT_NEAR(gev.location, expected.location, within);
  EXPECT_NEAR(gev.scale, expected.scale, within);
  EXPECT_NEAR(gev.shape, expected.shape, within);
}

TEST(PublishedExtremes, SampleLMoments) {
  // OpenHydrology lmoments3, lmoments3/tests/test_lmoments.py, commit 7e19f97c (2021); tolerance as there.
  expect_moments(kEleven, {3.23636364, 1.14181818, 0.27388535, 0.02335456}, 1e-7);
  // R packages lmom 3.2 and lmomRFA 3.8 (Hosking) on R 4.2.2, run by us.
  expect_moments(kBrownsville, {43.62857143, 4.49411765, 0.19371728, 0.15087203}, 1e-7);
  expect_moments(kJacksonville, {48.71428571, 5.49470899, 0.22965816, 0.19048183}, 1e-7);
  expect_moments(kPortPirie, {3.9806153846, 0.1346442308, 0.1374331351, 0.1328312026}, 1e-9);
}

TEST(PublishedExtremes, GevByLMoments) {
  // lmoments3 test file, as above: parameters, quantiles, distribution function.
  const Gev eleven = fit_gev(sample_l_moments(kEleven));
  expect_gev(eleven, {2.1792884, 1.3956404, -0.1555609}, 2e-6);
  EXPECT_NEAR(gev_quantile(eleven, 0.2), 1.539112, 2e-6);
  EXPECT_NEAR(gev_quantile(eleven, 0.5), 2.705672, 2e-6);
  EXPECT_NEAR(gev_quantile(eleven, 0.8), 4.537048, 2e-6);
  EXPECT_NEAR(gev_cdf(eleven, 2), 0.32028, 2e-6);
  EXPECT_NEAR(gev_cdf(eleven, 5), 0.8415637, 2e-6);
  EXPECT_NEAR(gev_cdf(eleven, 8), 0.9606184, 2e-6);
  const LMoments back = gev_l_moments(eleven);
  EXPECT_NEAR(back.t3, 0.2738854, 1e-6);
  EXPECT_NEAR(back.t4, 0.1998461, 1e-6);
  // lmom 3.2, run by us. Its fit is itself an approximation good to about 1e-6.
  expect_gev(fit_gev(sample_l_moments(kBrownsville)), {39.779884917, 6.260378409, -0.036683316}, 1e-5);
  expect_gev(fit_gev(sample_l_moments(kJacksonville)), {43.827148184, 7.236203182, -0.090851595}, 1e-5);
}

TEST(PublishedExtremes, GumbelByLMoments) {
  // lmoments3 test file, as above.
  const Gev gumbel = fit_gumbel(sample_l_moments(kEleven));
  EXPECT_NEAR(gumbel.location, 2.285519, 1e-6);
  EXPECT_NEAR(gumbel.scale, 1.647295, 1e-6);
  EXPECT_NEAR(gev_quantile(gumbel, 0.2), 1.501596, 1e-6);
  EXPECT_NEAR(gev_quantile(gumbel, 0.5), 2.889274, 1e-6);
  EXPECT_NEAR(gev_quantile(gumbel, 0.8), 4.756363, 1e-6);
  // L-moment ratios of any Gumbel: documentation of R package lmomco 2.4.14, lmomgum.
  EXPECT_NEAR(gev_l_moments(gumbel).t3, 0.169925, 1e-6);
  EXPECT_NEAR(gev_l_moments(gumbel).t4, 0.150375, 1e-6);
  EXPECT_NEAR(fit_gev({0, 1, 0.1699250014423124, 0.15}).shape, 0, 1e-9);
}

TEST(PublishedExtremes, PortPirie) {
  const Gev gev = fit_gev(sample_l_moments(kPortPirie));
  // lmom 3.2, run by us.
  expect_gev(gev, {3.87314761472, 0.20322227163, 0.05121183489}, 1e-6);
  struct Level {
    double years, metres;
  };
  for (const Level& level : {Level{2, 3.9469365}, Level{5, 4.1665556}, Level{10, 4.3051039}, Level{20, 4.4330919},
                             Level{50, 4.5919053}, Level{100, 4.7060441}})
    EXPECT_NEAR(gev_quantile(gev, 1 - 1 / level.years), level.metres, 2e-6) << level.years;
  // Coles, An Introduction to Statistical Modeling of Extreme Values, 2001, pp. 59-60, by likelihood:
  // 4.30 m in 10 years, 4.69 (4.38 to 5.00) in 100.
  EXPECT_NEAR(gev_quantile(gev, 0.9), 4.30, 0.03);
  EXPECT_NEAR(gev_quantile(gev, 0.99), 4.69, 0.03);
}

TEST(PublishedExtremes, LikelihoodParametersGiveTheirReturnLevels) {
  // Port Pirie, ismev gev.fit run by us; scipy.stats.genextreme.isf([1/10, 1/100]) of SciPy 1.10.1.
  const Gev gev{3.87474692, 0.1980412, 0.05008773};
  EXPECT_NEAR(gev_quantile(gev, 0.9), 4.29621328, 1e-8);
  EXPECT_NEAR(gev_quantile(gev, 0.99), 4.68842873, 1e-8);
}

TEST(PublishedExtremes, MinimaByNegation) {
  std::vector<double> negated;
  for (const double f : kPhoenix) negated.push_back(-f);
  // lmom 3.2, run by us on the negated minima.
  expect_moments(negated, {-69.23255814, 2.403100775, 0.09016522423, 0.08674272227}, 1e-8);
  const Gev gev = fit_gev(sample_l_moments(negated));
  expect_gev(gev, {-71.0181193221, 3.8520224911, 0.1281510916}, 1e-5);
  struct Level {
    double years, f;
  };
  for (const Level& level : {Level{2, 69.638946}, Level{5, 65.761685}, Level{10, 63.487621}, Level{20, 61.502462},
                             Level{50, 59.190356}, Level{100, 57.629988}})
    EXPECT_NEAR(return_level_of_minima(gev, level.years), level.f, 1e-4) << level.years;
}

TEST(PublishedExtremes, YearlyLowsOfWeatherFiles) {
  // ASHRAE Handbook Fundamentals 2009, climate design data as carried in TMY3 weather files: mean and
  // standard deviation of the yearly lowest hour, and the lows of 5, 10, 20 and 50 years, which the
  // handbook takes from a Gumbel distribution by moments (formula from memory; values read).
  struct Row {
    std::string place;
    double mean, sd, y5, y10, y20, y50;
  };
  for (const Row& row :
       {Row{"Tampa FL", -0.7, 3.0, -2.8, -4.5, -6.2, -8.3}, Row{"Miami FL", 5.1, 3.1, 2.8, 1.1, -0.7, -2.9},
        Row{"Houston TX", -4.4, 3.5, -7.0, -9.0, -11.0, -13.5}, Row{"Phoenix AZ", 1.3, 1.5, 0.3, -0.6, -1.4, -2.5},
        Row{"Tucson AZ", -2.5, 1.3, -3.5, -4.2, -5.0, -5.9}, Row{"Fresno CA", -1.9, 2.2, -3.5, -4.8, -6.0, -7.6},
        Row{"San Francisco CA", 1.8, 1.5, 0.8, -0.1, -0.9, -1.9},
        Row{"Las Vegas NV", -3.8, 2.8, -5.8, -7.4, -9.0, -11.0}}) {
    const double scale = row.sd * std::sqrt(6) / std::numbers::pi;
    const Gev gumbel{-row.mean - std::numbers::egamma * scale, scale, 0};
    EXPECT_NEAR(return_level_of_minima(gumbel, 5), row.y5, 0.2) << row.place;
    EXPECT_NEAR(return_level_of_minima(gumbel, 10), row.y10, 0.2) << row.place;
    EXPECT_NEAR(return_level_of_minima(gumbel, 20), row.y20, 0.2) << row.place;
    EXPECT_NEAR(return_level_of_minima(gumbel, 50), row.y50, 0.2) << row.place;
  }
}

TEST(PublishedExtremes, BootstrapIsSeededAndHoldsTheFit) {
  const Gev gev = fit_gev(sample_l_moments(kPortPirie));
  const double years[] = {10, 100};
  const std::vector<Range> once = bootstrap_return_levels(gev, 65, years, 1000, 7);
  const std::vector<Range> again = bootstrap_return_levels(gev, 65, years, 1000, 7);
  const std::vector<Range> other = bootstrap_return_levels(gev, 65, years, 1000, 8);
  const std::vector<Range> more = bootstrap_return_levels(gev, 260, years, 1000, 7);
  for (std::size_t i = 0; i < 2; ++i) {
    EXPECT_EQ(once[i].low, again[i].low);
    EXPECT_NE(once[i].low, other[i].low);
    EXPECT_LT(once[i].low, return_level_of_minima(gev, years[i]));
    EXPECT_GT(once[i].high, return_level_of_minima(gev, years[i]));
    EXPECT_LT(more[i].high - more[i].low, 0.65 * (once[i].high - once[i].low));  // four times the data, half the width
  }
}

TEST(PublishedExtremes, TheilSenByHand) {
  // Slopes of all pairs of (1,2) (2,4) (3,5) (4,9) (5,10): 2 1.5 7/3 2 1 2.5 2 4 2.5 1; the middle two are 2.
  const double x[] = {1, 2, 3, 4, 5}, y[] = {2, 4, 5, 9, 10};
  EXPECT_DOUBLE_EQ(theil_sen(x, y).slope, 2);
  // One wild reading does not move it far.
  const double wild[] = {2, 4, 5, 9, 100};
  EXPECT_DOUBLE_EQ(theil_sen(x, wild).slope, 3.25);  // half way between 2.5 and 4
}

}  // namespace
}  // namespace tenwinters
