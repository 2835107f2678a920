#include "solver/implied_rows.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "solver/solve.h"
#include "tests/solver/random_programs.h"

namespace haymow::implied_rows_test {
namespace {

// x, y >= 0 under x + y <= 4.
LinearProgram triangle() {
  LinearProgram out;
  out.add_column({"x", 0.0, unlimited, 0.0});
  out.add_column({"y", 0.0, unlimited, 0.0});
  out.add_row({"sum", -unlimited, 4.0, {{0, 1.0}, {1, 1.0}}});
  return out;
}

TEST(ImpliedRows, AreThoseThatTheOthersCannotReachBeyond) {
  LinearProgram program = triangle();
  program.add_row({"far", -unlimited, 9.0, {{0, 2.0}, {1, 1.0}}});  // 8 at most
  program.add_row({"touching", -unlimited, 8.0, {{0, 2.0}, {1, 1.0}}});
  program.add_row({"cutting", -unlimited, 7.9, {{0, 2.0}, {1, 1.0}}});
  EXPECT_EQ(implied_rows(program), (std::vector<bool>{false, true, true, false}));
}

TEST(ImpliedRows, OfTwoTheSameOneStays) {
  LinearProgram program = triangle();
  program.add_row({"again", -unlimited, 4.0, {{0, 1.0}, {1, 1.0}}});
  EXPECT_EQ(implied_rows(program), (std::vector<bool>{true, false}));
}

TEST(ImpliedRows, MindBothSidesOfARow) {
  LinearProgram program = triangle();
  program.add_row({"both", 1.0, 9.0, {{0, 1.0}, {1, 1.0}}});
  EXPECT_FALSE(implied_rows(program)[1]);
}

TEST(ImpliedRows, AreNoneWhereThereIsNoAnswer) {
  LinearProgram program = triangle();
  program.add_row({"clash", 5.0, unlimited, {{0, 1.0}, {1, 1.0}}});
  program.add_row({"idle", -unlimited, 99.0, {{0, 1.0}}});
  EXPECT_EQ(implied_rows(program), (std::vector<bool>{false, false, false}));
}

RC_GTEST_PROP(ImpliedRowsLaws, LeftOutTheyChangeNoOptimum, ()) {
  const LinearProgram program = *random_programs::feasible();
  const std::vector<bool> implied = implied_rows(program);
  LinearProgram thinned;
  for (const Column& column : program.columns()) thinned.add_column(column);
  for (std::size_t i = 0; i < implied.size(); ++i) {
    if (!implied[i]) thinned.add_row(program.rows()[i]);
  }
  for (int j = 0; j < program.column_count(); ++j) {
    LinearProgram other = thinned;
    const double was = program.columns()[static_cast<std::size_t>(j)].cost;
    other.set_cost(j, was + 1.0);
    LinearProgram whole = program;
    whole.set_cost(j, was + 1.0);
    RC_ASSERT(std::abs(solve(other).cost - solve(whole).cost) < 1e-7);
  }
}

}  // namespace
}  // namespace haymow::implied_rows_test
