// The same sums by a reference library, SciPy (Debian package python3-scipy), when it is installed.
#include <gtest/gtest.h>

#include <array>
#include <cstdio>
#include <memory>
#include <sstream>
#include <string>

#include "tenwinters/climate.h"

namespace tenwinters {
namespace {

// What Debian's Python prints for a script; empty when it or the library is absent, which is said loudly.
std::string python(const std::string& script) {
  const std::string command = "/usr/bin/python3 -c \"" + script + "\" 2>/dev/null";
  const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(command.c_str(), "r"), pclose);
  std::string text;
  std::array<char, 4096> block{};
  if (pipe)
    while (fgets(block.data(), static_cast<int>(block.size()), pipe.get()) != nullptr) text += block.data();
  if (text.empty()) std::printf("*** ABSENT: python3-scipy is not installed; nothing was compared with it ***\n");
  return text;
}

TEST(ReferenceLibrary, GevQuantilesAndDistribution) {
  const std::string text = python(
      "from scipy.stats import genextreme as g\n"
      "for c in (-0.4,-0.1555609,-0.01,0.01,0.2,0.45):\n"
      " for p in (0.01,0.2,0.5,0.9,0.98,0.99):\n"
      "  x=g.ppf(p,c,4.5,2.1)\n"
      "  print(c,p,repr(float(x)),repr(float(g.cdf(x+0.3,c,4.5,2.1))))\n");
  std::istringstream lines(text);
  int rows = 0;
  for (double shape = 0, p = 0, quantile = 0, cdf = 0; lines >> shape >> p >> quantile >> cdf; ++rows) {
    const Gev gev{4.5, 2.1, shape};
    EXPECT_NEAR(gev_quantile(gev, p), quantile, 1e-9 * (1 + std::abs(quantile))) << shape << ' ' << p;
    EXPECT_NEAR(gev_cdf(gev, quantile + 0.3), cdf, 1e-9) << shape << ' ' << p;
  }
  EXPECT_TRUE(text.empty() || rows == 36) << text;
}

TEST(ReferenceLibrary, MomentsOfTheFittedDistribution) {
  // Mean and median of a fit, by SciPy from the fitted parameters: the mean is the first L-moment.
  const std::vector<double> data{2.0, 3.0, 4.0, 2.4, 5.5, 1.2, 5.4, 2.2, 7.1, 1.3, 1.5};
  const LMoments moments = sample_l_moments(data);
  const Gev gev = fit_gev(moments);
  std::ostringstream arguments;
  arguments.precision(17);
  arguments << gev.shape << ',' << gev.location << ',' << gev.scale;
  const std::string text = python("from scipy.stats import genextreme as g\nprint(repr(float(g.mean(" +
                                  arguments.str() + "))),repr(float(g.median(" + arguments.str() + "))))");
  if (text.empty()) return;
  std::istringstream line(text);
  double mean = 0, median = 0;
  ASSERT_TRUE(line >> mean >> median) << text;
  EXPECT_NEAR(mean, moments.l1, 1e-7);
  EXPECT_NEAR(median, gev_quantile(gev, 0.5), 1e-9);
}

TEST(ReferenceLibrary, TheilSen) {
  const std::string text = python(
      "from scipy.stats import theilslopes as t\n"
      "y=[-5.0,-6.1,-3.3,-8.9,-2.2,-4.4,-7.2,-1.1,-3.9,-2.8,-6.7,-0.6]\n"
      "r=t(y,range(12),0.9)\n"
      "print(*(repr(float(v)) for v in (r[0],r[2],r[3])))\n");
  if (text.empty()) return;
  std::istringstream line(text);
  double slope = 0, low = 0, high = 0;
  ASSERT_TRUE(line >> slope >> low >> high) << text;
  std::vector<double> x, y{-5.0, -6.1, -3.3, -8.9, -2.2, -4.4, -7.2, -1.1, -3.9, -2.8, -6.7, -0.6};
  for (int i = 0; i < 12; ++i) x.push_back(i);
  const Trend trend = theil_sen(x, y);
  EXPECT_NEAR(trend.slope, slope, 1e-12);
  // SciPy takes whole ranks for its limits, we go between them.
  EXPECT_NEAR(trend.limits.low, low, 0.06);
  EXPECT_NEAR(trend.limits.high, high, 0.06);
}

}  // namespace
}  // namespace tenwinters
