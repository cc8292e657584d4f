// The yard plan against a general solver that reads the exported program: the optimum must be the same.
// The solver is cbc of the Debian package coinor-cbc; without it these tests fail.
#include <gtest/gtest.h>

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <string>

#include <unistd.h>

#include "lib/lp.h"
#include "plan_instances.h"
#include "tenwinters/plan.h"

namespace tenwinters {
namespace {

// The optimum that the solver finds, or a complaint.
struct Solved {
  bool done = false;
  double value = 0;
  std::string said;
};

Solved solve(const std::string& program) {
  const std::string stem = testing::TempDir() + "yard_plan_" + std::to_string(getpid());
  const std::string input = stem + ".lp", output = stem + ".txt";
  std::ofstream(input) << program;
  std::remove(output.c_str());
  const std::string command = "cbc '" + input + "' solve solution '" + output + "' >/dev/null 2>&1";
  const int status = std::system(command.c_str());
  std::ifstream file(output);
  Solved solved;
  std::getline(file, solved.said);
  const std::string mark = "Optimal - objective value ";
  if (solved.said.rfind(mark, 0) == 0) {
    solved.done = true;
    solved.value = std::strtod(solved.said.c_str() + mark.size(), nullptr);
  } else if (solved.said.empty()) {
    solved.said = "no answer from cbc (exit status " + std::to_string(status) + "); is coinor-cbc installed?";
  }
  std::remove(input.c_str());
  std::remove(output.c_str());
  return solved;
}

// The sign under which the solver reports a maximum is a matter of its version: learnt from a sum.
double sign_of_maximum() {
  const Solved solved = solve("Maximize\n value: 3 x + 4 y\nSubject To\n r1: x + y <= 1\nBinaries\n x y\nEnd\n");
  EXPECT_TRUE(solved.done) << solved.said;
  EXPECT_EQ(std::abs(solved.value), 4);
  return solved.value < 0 ? -1 : 1;
}

void compare(std::uint64_t seed, const PlanProblem& problem, double sign, int& short_of_room) {
  SCOPED_TRACE(seed);
  const YardPlan yard = plan_yard(problem);
  ASSERT_TRUE(yard.proven);
  short_of_room += yard.misfits.empty() ? 0 : 1;
  const Solved solved = solve(plan_to_lp(problem, yard.misfits));
  ASSERT_TRUE(solved.done) << solved.said;
  EXPECT_NEAR(sign * solved.value, yard.plans.empty() ? 0 : yard.plans.front().value, 1e-6);
}

TEST(PlanSolver, AgreesOnTheChoiceAlone) {
  const double sign = sign_of_maximum();
  int none = 0;
  for (std::uint64_t seed = 1; seed <= 120; ++seed)
    compare(seed, twin::invented_yard(1000 + seed, 6 + static_cast<int>(seed % 20), 2 + static_cast<int>(seed % 6), false), sign, none);
  EXPECT_EQ(none, 0);
}

TEST(PlanSolver, AgreesOnPlansThatFindRoom) {
  const double sign = sign_of_maximum();
  int short_of_room = 0;
  for (std::uint64_t seed = 1; seed <= 120; ++seed)
    compare(seed, twin::invented_yard(2000 + seed, 5 + static_cast<int>(seed % 12), 2 + static_cast<int>(seed % 5), true), sign, short_of_room);
  EXPECT_GT(short_of_room, 40) << "too few of these plots are tight";
}

}  // namespace
}  // namespace tenwinters
