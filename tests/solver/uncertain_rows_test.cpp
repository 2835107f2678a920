#include "solver/uncertain_rows.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <stdexcept>
#include <vector>

#include "solver/certify.h"
#include "tests/matchers.h"

namespace haymow::uncertain_rows_test {
namespace {

// min x + y,  need: x + y >= 10, deviations 0.3 and 0.4, z = 1.
//
// By symmetry of the costs the best mix spreads the risk: minimise s = x + y under
// s - |(0.3 x, 0.4 y)| >= 10. With x = t s the norm is s * sqrt(0.09 t^2 + 0.16 (1-t)^2),
// least at t = 0.64 where it is 0.24 s, so s = 10 / 0.76.
LinearProgram two_lots() {
  LinearProgram program;
  program.add_column({.name = "x", .cost = 1.0});
  program.add_column({.name = "y", .cost = 1.0});
  program.add_row({.name = "need", .lower = 10.0, .terms = {{0, 1.0}, {1, 1.0}}});
  return program;
}
const std::vector<UncertainRow> two_deviations{{0, {{0, 0.3}, {1, 0.4}}}};

TEST(UncertainRows, SpreadTheRiskAsCalculusHasIt) {
  const GuardedSolution guarded = solve_guarded(two_lots(), two_deviations, 1.0);
  ASSERT_EQ(guarded.solution.status, Status::optimal);
  EXPECT_NEAR(guarded.solution.cost, 10.0 / 0.76, 1e-4);
  EXPECT_NEAR(guarded.solution.columns[0] / guarded.solution.cost, 0.64, 1e-2);
  EXPECT_LE(guarded.largest_miss, guard_tolerance);
  EXPECT_GT(guarded.rounds, 1);
}

TEST(UncertainRows, OneColumnAloneNeedsNoSpread) {
  // min x, x >= 8, deviation 0.2, z = 2: x (1 - 0.4) >= 8.
  LinearProgram program;
  program.add_column({.name = "x", .cost = 3.0});
  program.add_row({.name = "need", .lower = 8.0, .terms = {{0, 1.0}}});
  const std::vector<UncertainRow> rows{{0, {{0, 0.2}}}};
  const GuardedSolution guarded = solve_guarded(program, rows, 2.0);
  ASSERT_THAT(guarded.solution, IsOptimal(3.0 * 8.0 / 0.6));
  EXPECT_EQ(guarded.tangents.size(), 1U);
}

TEST(UncertainRows, AtEvenOddsChangeNothing) {
  const GuardedSolution guarded = solve_guarded(two_lots(), two_deviations, 0.0);
  EXPECT_THAT(guarded.solution, IsOptimal(10.0));
  EXPECT_TRUE(guarded.tangents.empty());
}

TEST(UncertainRows, WhatNoMixCanPromiseIsInfeasible) {
  // The mean never outgrows z deviations: 1 - 5 * 0.24 < 0.
  const GuardedSolution guarded = solve_guarded(two_lots(), two_deviations, 5.0);
  EXPECT_THAT(guarded.solution, IsInfeasible());
}

TEST(UncertainRows, TheProgramIsTheGivenOneWithMarginsAndTangents) {
  const GuardedSolution guarded = solve_guarded(two_lots(), two_deviations, 1.0);
  EXPECT_EQ(guarded.program.column_count(), 3);
  EXPECT_EQ(guarded.program.row_count(), 1 + static_cast<int>(guarded.tangents.size()));
  EXPECT_EQ(guarded.margins, (std::vector<int>{2}));
  EXPECT_TRUE(certify(guarded.program, guarded.solution).holds());
}

// A margin has no upper bound: a reduced cost of -1e-17 must not take the lower bound
// on the cost away.
TEST(UncertainRows, LeaveNoMarginLeaningOnABoundItLacks) {
  const GuardedSolution guarded = solve_guarded(two_lots(), two_deviations, 1.0);
  const Certificate certificate = certify(guarded.program, guarded.solution);
  EXPECT_NEAR(certificate.lower_bound, guarded.solution.cost, 1e-9);
  double tangents = 0.0;
  for (std::size_t i = 1; i < guarded.solution.row_duals.size(); ++i) {
    tangents += guarded.solution.row_duals[i];
  }
  EXPECT_GE(guarded.solution.row_duals[0], tangents);
}

TEST(UncertainRows, RefuseWhatHasNoMeaning) {
  EXPECT_THROW((void)solve_guarded(two_lots(), two_deviations, -1.0), std::invalid_argument);
  const std::vector<UncertainRow> none{{3, {{0, 0.3}}}};
  EXPECT_THROW((void)solve_guarded(two_lots(), none, 1.0), std::invalid_argument);
  const std::vector<UncertainRow> negative{{0, {{0, -0.3}}}};
  EXPECT_THROW((void)solve_guarded(two_lots(), negative, 1.0), std::invalid_argument);
}

// A random mix of up to six columns and three uncertain floors: every floor holds
// in closed form, the cost is no less than without the promise, and no mix near by
// that keeps the floors is cheaper (the program is convex, so near by is enough).
RC_GTEST_PROP(UncertainRows, AreKeptAndNoNeighbourIsCheaper, ()) {
  const int n = *rc::gen::inRange(2, 7);
  const int m = *rc::gen::inRange(1, 4);
  const double z = *rc::gen::inRange(1, 200) / 100.0;
  LinearProgram program;
  for (int j = 0; j < n; ++j) {
    program.add_column({.name = "x" + std::to_string(j),
                        .upper = 50.0,
                        .cost = *rc::gen::inRange(10, 100) / 10.0});
  }
  std::vector<UncertainRow> rows;
  for (int i = 0; i < m; ++i) {
    Row row{.name = "r" + std::to_string(i), .lower = 10.0};
    UncertainRow uncertain{i, {}};
    for (int j = 0; j < n; ++j) {
      const double mean = *rc::gen::inRange(1, 50) / 10.0;
      row.terms.push_back({j, mean});
      const int percent = *rc::gen::inRange(0, 40);
      if (percent > 0) uncertain.deviations.push_back({j, mean * percent / 100.0});
    }
    program.add_row(row);
    rows.push_back(uncertain);
  }
  const GuardedSolution guarded = solve_guarded(program, rows, z);
  RC_PRE(guarded.solution.status == Status::optimal);
  RC_ASSERT(certify(guarded.program, guarded.solution).holds());
  const auto kept = [&](const std::vector<double>& x, double slack) {
    for (const UncertainRow& row : rows) {
      double got = -margin_of(row, z, x);
      for (const Term& t : program.rows()[static_cast<std::size_t>(row.row)].terms) {
        got += t.coefficient * x[static_cast<std::size_t>(t.column)];
      }
      if (got < 10.0 - slack) return false;
    }
    return true;
  };
  const std::vector<double>& x = guarded.solution.columns;
  RC_ASSERT(kept(x, 1e-3));
  for (int trial = 0; trial < 50; ++trial) {
    std::vector<double> y(x.begin(), x.begin() + n);
    double cost = 0.0;
    for (std::size_t j = 0; j < y.size(); ++j) {
      y[j] = std::clamp(y[j] + *rc::gen::inRange(-100, 101) / 200.0, 0.0, 50.0);
      cost += program.columns()[j].cost * y[j];
    }
    if (kept(y, 0.0)) RC_ASSERT(cost >= guarded.solution.cost * (1.0 - 1e-5));
  }
}

TEST(WarmSolver, ARowAddedIsHeededAndGoesOnFromTheLastAnswer) {
  WarmSolver solver(two_lots());
  ASSERT_THAT(solver.solve(), IsOptimal(10.0));
  // x >= 2 y leaves the cost as it is and moves the answer; x + 2 y >= 18 does not.
  const int row = solver.add_row({.name = "more y", .lower = 18.0, .terms = {{0, 1.0}, {1, 2.0}}});
  EXPECT_EQ(row, 1);
  const Solution solution = solver.solve();
  ASSERT_THAT(solution, IsOptimal(10.0));
  EXPECT_GE(solution.columns[0] + 2.0 * solution.columns[1], 18.0 - 1e-9);
  EXPECT_EQ(solver.program().row_count(), 2);
  EXPECT_THROW(solver.add_row({.name = "more y", .lower = 1.0}), std::invalid_argument);
}

}  // namespace
}  // namespace haymow::uncertain_rows_test
