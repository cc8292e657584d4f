// The yard plan beside a general solver: the same instances, one by one, each optimum checked against the other's.
// The solver is cbc, which reads the exported program. It is a process of its own, so what it takes for a program of
// one line is shown too, and the ratio once with and once without that.
#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include <unistd.h>

#include "../../twin/plan_instances.h"
#include "../figure.h"
#include "lib/lp.h"
#include "tenwinters/plan.h"

namespace tenwinters {
namespace {

template <class Work>
double milliseconds(Work work) {
  const auto start = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count();
}

double median(std::vector<double> all) {
  std::sort(all.begin(), all.end());
  return all[all.size() / 2];
}

class Solver {
 public:
  Solver() : stem_((std::filesystem::temp_directory_path() / ("tenwinters_plans_" + std::to_string(getpid()))).string()) {}
  ~Solver() {
    std::remove((stem_ + ".lp").c_str());
    std::remove((stem_ + ".txt").c_str());
  }
  // Milliseconds, and the size of the optimum; -1 if the solver failed.
  std::pair<double, double> solve(const std::string& program) {
    std::ofstream(stem_ + ".lp") << program;
    const std::string command = "cbc '" + stem_ + ".lp' solve solution '" + stem_ + ".txt' >/dev/null 2>&1";
    int status = 0;
    const double took = milliseconds([&] { status = std::system(command.c_str()); });
    std::ifstream file(stem_ + ".txt");
    std::string said;
    std::getline(file, said);
    const std::string mark = "Optimal - objective value ";
    const bool optimal = status == 0 && said.rfind(mark, 0) == 0;
    return {took, optimal ? std::abs(std::strtod(said.c_str() + mark.size(), nullptr)) : -1};
  }

 private:
  std::string stem_;
};

}  // namespace
}  // namespace tenwinters

int main() {
  using namespace tenwinters;
  Solver solver;
  std::vector<double> starts, ours, theirs, ratios, net;
  for (int i = 0; i < 9; ++i) starts.push_back(solver.solve("Maximize\n value: 3 x + 4 y\nSubject To\n r1: x + y <= 1\nBinaries\n x y\nEnd\n").first);
  const double start = median(starts);
  int differ = 0;
  constexpr int kInstances = 200;
  for (int i = 1; i <= kInstances; ++i) {
    const bool place = i % 2 == 0;
    const PlanProblem problem = twin::invented_yard(static_cast<std::uint64_t>(5000 + i), 6 + i % 20, 2 + i % 5, place);
    YardPlan yard;
    const double mine = milliseconds([&] { yard = plan_yard(problem); });
    const auto [took, value] = solver.solve(plan_to_lp(problem, yard.misfits));
    if (!yard.proven || std::abs(value - (yard.plans.empty() ? 0 : yard.plans.front().value)) > 1e-6) ++differ;
    ours.push_back(mine);
    theirs.push_back(took);
    ratios.push_back(took / mine);
    net.push_back(std::max(0.0, took - start) / mine);
  }
  std::printf("Yard plans, %d instances: median %.3f ms, cbc %.1f ms (%.1f ms of it for any program at all)\n", kInstances, median(ours), median(theirs), start);
  std::printf("median ratio %.0f (limit 50), without cbc's start %.0f; other optimum in %d\n", median(ratios), median(net), differ);
  keep_figure("yard plan, median", median(ours), median(theirs), "ms", "cbc, at most 0.02");
  double slowest = 0;
  int unproven = 0;
  for (std::uint64_t seed = 1; seed <= 10; ++seed) {
    const PlanProblem problem = twin::invented_yard(9000 + seed, 119, 8, true);
    YardPlan yard;
    slowest = std::max(slowest, milliseconds([&] { yard = plan_yard(problem); }));
    unproven += yard.proven ? 0 : 1;
  }
  keep_figure("yard plan, largest", slowest, 1000, "ms", "limit");
  std::printf("119 kinds, 8 trees, placed: slowest of 10 %.0f ms (limit 1000), not proven %d\n", slowest, unproven);
  return differ == 0 ? 0 : 1;
}
