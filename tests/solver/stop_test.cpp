// A solve that is told to stop ends soon and says so, and the solver is of use after it.
#include <gtest/gtest.h>

#include <string>

#include "solver/solve.h"
#include "tests/matchers.h"
#include "tests/small_programs.h"

namespace haymow::stop_test {
namespace {

// So many from each of 120 to each of 120, at costs that no method guesses: it takes much
// longer than the solver waits before it asks.
LinearProgram long_program() {
  constexpr int places = 120;
  LinearProgram program;
  for (int i = 0; i < places; ++i) {
    for (int j = 0; j < places; ++j) {
      const double cost = 1.0 + (i * 7919 + j * 104729 + i * j * 31) % 9973;
      program.add_column(
          {"from " + std::to_string(i) + " to " + std::to_string(j), 0.0, unlimited, cost});
    }
  }
  for (int i = 0; i < places; ++i) {
    Row from{"from " + std::to_string(i), -unlimited, 10.0 + i % 7, {}};
    Row to{"to " + std::to_string(i), 9.0 + i % 5, unlimited, {}};
    for (int j = 0; j < places; ++j) {
      from.terms.push_back({i * places + j, 1.0});
      to.terms.push_back({j * places + i, 1.0});
    }
    program.add_row(std::move(from));
    program.add_row(std::move(to));
  }
  return program;
}

TEST(Stop, EndsALongSolveWithoutAPointAndLeavesTheSolverOfUse) {
  WarmSolver before(small_programs::two_rows());
  int asked = 0;
  SolveOptions options;
  options.stop = [&asked] { return ++asked > 0; };
  const Solution solution = solve(long_program(), options);
  EXPECT_EQ(solution.status, Status::limit_reached);
  EXPECT_TRUE(solution.columns.empty());
  EXPECT_EQ(asked, 1);
  EXPECT_THAT(solve(small_programs::two_rows()), IsOptimal(9.0));
  EXPECT_THAT(before.solve(), IsOptimal(9.0));
}

TEST(Stop, AskedInVainChangesNothing) {
  int asked = 0;
  SolveOptions options;
  options.stop = [&asked] { return ++asked < 0; };
  const LinearProgram program = long_program();
  const Solution watched = solve(program, options);
  const Solution alone = solve(program);
  EXPECT_GT(asked, 0);
  EXPECT_EQ(watched.status, Status::optimal);
  EXPECT_EQ(watched.iterations, alone.iterations);
  EXPECT_EQ(watched.columns, alone.columns);
}

}  // namespace
}  // namespace haymow::stop_test
