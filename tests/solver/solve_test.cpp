#include "solver/solve.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <string>
#include <thread>
#include <utility>
#include <vector>

#include "solver/certify.h"
#include "solver/glpk_problem.h"
#include "tests/matchers.h"
#include "tests/small_programs.h"
#include "tests/solver/random_programs.h"

namespace haymow::solve_test {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

TEST(Solve, FindsTheCheapestPointItsDualsAndItsBasis) {
  const Solution solution = solve(small_programs::two_rows());
  ASSERT_THAT(solution, IsOptimal(9.0));
  EXPECT_THAT(solution.columns, ElementsAre(IsNear(3.0, 1e-9), IsNear(1.0, 1e-9)));
  EXPECT_THAT(solution.rows, ElementsAre(IsNear(4.0, 1e-9), IsNear(2.0, 1e-9)));
  EXPECT_THAT(solution.row_duals, ElementsAre(IsNear(2.5, 1e-9), IsNear(-0.5, 1e-9)));
  EXPECT_THAT(solution.reduced_costs, ElementsAre(IsNear(0.0, 1e-9), IsNear(0.0, 1e-9)));
  ASSERT_TRUE(solution.basis.has_value());
  EXPECT_THAT(solution.basis->columns, ElementsAre(BasisStatus::basic, BasisStatus::basic));
  EXPECT_THAT(solution.basis->rows, ElementsAre(BasisStatus::at_lower, BasisStatus::at_upper));
}

TEST(Solve, TellsInfeasibleFromUnbounded) {
  EXPECT_THAT(solve(small_programs::clash()), IsInfeasible());
  EXPECT_THAT(solve(small_programs::endless()), IsUnbounded());
}

// min -x - y,  apart: x - y = 0,  clash: x + y <= 1 and x >= 1, y >= 1.
TEST(Solve, AProgramBothEndlessInCostAndWithoutPointIsInfeasible) {
  LinearProgram program;
  program.add_column({.name = "x", .lower = 1.0, .cost = -1.0});
  program.add_column({.name = "y", .lower = 1.0, .cost = -1.0});
  program.add_column({.name = "z", .lower = -unlimited, .cost = 1.0});
  program.add_row({.name = "clash", .upper = 1.0, .terms = {{0, 1.0}, {1, 1.0}}});
  EXPECT_THAT(solve(program), IsInfeasible());
}

TEST(Solve, ProgramsWithoutRowsOrColumnsHaveAnswers) {
  LinearProgram nothing;
  EXPECT_THAT(solve(nothing), IsOptimal(0.0));
  LinearProgram columns;
  columns.add_column({.name = "x", .lower = 2.0, .cost = 3.0});
  EXPECT_THAT(solve(columns), IsOptimal(6.0));
  LinearProgram rows;
  rows.add_row({.name = "idle", .upper = 1.0});
  EXPECT_THAT(solve(rows), IsOptimal(0.0));
  rows.add_row({.name = "impossible", .lower = 1.0});
  EXPECT_THAT(solve(rows), IsInfeasible());
}

TEST(Solve, FreeColumnsAndTwoSidedRowsAreHeeded) {
  // min x,  band: -3 <= x <= 7,  x free.
  LinearProgram program;
  program.add_column({.name = "x", .lower = -unlimited, .cost = 1.0});
  program.add_row({.name = "band", .lower = -3.0, .upper = 7.0, .terms = {{0, 1.0}}});
  EXPECT_THAT(solve(program), IsOptimal(-3.0));
  program.set_cost(0, -1.0);
  EXPECT_THAT(solve(program), IsOptimal(-7.0));
}

TEST(Solve, WholeColumnsTakeWholeNumbers) {
  const Solution solution = solve(small_programs::whole_numbers());
  ASSERT_THAT(solution, IsOptimal(8.0));
  EXPECT_THAT(solution.columns, ElementsAre(0.0, 2.0, 0.0));
  EXPECT_THAT(solution.row_duals, IsEmpty());
  EXPECT_THAT(solution.reduced_costs, IsEmpty());
  ASSERT_TRUE(solution.claimed_bound.has_value());
  EXPECT_THAT(*solution.claimed_bound, IsNear(8.0, 1e-6));
}

// x whole between 1.2 and 1.8: there is no such number.
TEST(Solve, AWholeColumnWithoutAWholeNumberBetweenItsBoundsIsInfeasible) {
  LinearProgram program;
  program.add_column({.name = "x", .lower = 1.2, .upper = 1.8, .cost = 1.0, .whole = true});
  EXPECT_THAT(solve(program), IsInfeasible());
}

// 2x + 2y = 3 has points, but none in whole numbers.
TEST(Solve, AnEquationWithoutWholeSolutionsIsInfeasible) {
  LinearProgram program;
  program.add_column({.name = "x", .upper = 5.0, .whole = true});
  program.add_column({.name = "y", .upper = 5.0, .whole = true});
  program.add_row({.name = "odd", .lower = 3.0, .upper = 3.0, .terms = {{0, 2.0}, {1, 2.0}}});
  EXPECT_THAT(solve(program), IsInfeasible());
}

TEST(Solve, NoIterationsReachTheLimitWithoutAPoint) {
  const Solution solution = solve(small_programs::two_rows(), {.iteration_limit = 0});
  EXPECT_EQ(solution.status, Status::limit_reached);
  EXPECT_FALSE(solution.usable());
}

// Market split: 40 whole columns 0..1 and 5 equations with slack both ways,
//   min sum (short_i + over_i),  sum_j a_ij x_j + short_i - over_i = half of sum_j a_ij,
// feasible at once and hard to finish. Cornuejols & Dawande 1998 (from memory).
TEST(Solve, WholeNumberSearchStopsInTimeWithItsBestPointAndABound) {
  LinearProgram program;
  for (int j = 0; j < 40; ++j) {
    program.add_column({.name = "x" + std::to_string(j), .upper = 1.0, .whole = true});
  }
  // Any seed; this generator is the same everywhere. NOLINTNEXTLINE(cert-msc32-c,cert-msc51-cpp)
  std::minstd_rand random(1);
  for (int i = 0; i < 5; ++i) {
    const std::string number = std::to_string(i);
    Row row{.name = "split" + number};
    double total = 0.0;
    for (int j = 0; j < 40; ++j) {
      row.terms.push_back({j, static_cast<double>(random() % 100U)});
      total += row.terms.back().coefficient;
    }
    row.terms.push_back({program.add_column({.name = "short" + number, .cost = 1.0}), 1.0});
    row.terms.push_back({program.add_column({.name = "over" + number, .cost = 1.0}), -1.0});
    row.lower = row.upper = std::floor(0.5 * total);
    program.add_row(row);
  }
  const Solution solution = solve(program, {.time_limit_seconds = 0.3});
  ASSERT_EQ(solution.status, Status::limit_reached);
  ASSERT_TRUE(solution.usable());
  ASSERT_TRUE(solution.claimed_bound.has_value());
  EXPECT_LE(*solution.claimed_bound, solution.cost);
  EXPECT_LE(certify_feasible(program, solution, *solution.claimed_bound).largest_violation, 1e-9);
}

// Two programs on which the textbook's simplex method goes round for ever, each of six
// pivots at one corner: Beale, Naval Research Logistics Quarterly 2 (1955), and Hall and
// McKinnon, Mathematical Programming 100 (2004); figures from memory, the optima
// worked out by hand.
TEST(Solve, ComesOutOfProgramsThatGoRoundInCircles) {
  // With x1 and x2 bounded by 1; without, the cost has no end. x1 = x2 = 1, x4 = 3: row a holds.
  LinearProgram hall;
  hall.add_column({.name = "x1", .upper = 1.0, .cost = -2.3});
  hall.add_column({.name = "x2", .cost = -2.15});
  hall.add_column({.name = "x3", .cost = 13.55});
  hall.add_column({.name = "x4", .cost = 0.4});
  hall.add_row({.name = "a", .upper = 0.0, .terms = {{0, 0.4}, {1, 0.2}, {2, -1.4}, {3, -0.2}}});
  hall.add_row({.name = "b", .upper = 0.0, .terms = {{0, -7.8}, {1, -1.4}, {2, 7.8}, {3, 0.4}}});
  hall.add_row({.name = "x2 at most", .upper = 1.0, .terms = {{1, 1.0}}});
  for (const bool primal_first : {true, false}) {
    SolveOptions options;
    options.primal_first = primal_first;
    EXPECT_THAT(solve(small_programs::beale(), options), IsOptimal(-0.05));
    EXPECT_THAT(solve(hall, options), IsOptimal(-3.25));
  }
}

TEST(Solve, StartsFromABasisGiven) {
  const LinearProgram program = small_programs::two_rows();
  const Solution first = solve(program);
  const Solution again = solve(program, {.start = &*first.basis});
  EXPECT_THAT(again, IsOptimal(9.0));
  EXPECT_EQ(again.iterations, 0);
}

TEST(Solve, ABasisThatDoesNotFitIsIgnored) {
  Basis wrong_shape{{BasisStatus::basic}, {}};
  EXPECT_THAT(solve(small_programs::two_rows(), {.start = &wrong_shape}), IsOptimal(9.0));
  // Of the right shape, but the two columns are copies: they do not span.
  LinearProgram copies;
  copies.add_column({.name = "x", .cost = 1.0});
  copies.add_column({.name = "y", .cost = 2.0});
  copies.add_row({.name = "a", .lower = 1.0, .terms = {{0, 1.0}, {1, 1.0}}});
  copies.add_row({.name = "b", .lower = 1.0, .terms = {{0, 1.0}, {1, 1.0}}});
  Basis singular{{BasisStatus::basic, BasisStatus::basic},
                 {BasisStatus::at_lower, BasisStatus::at_lower}};
  EXPECT_THAT(solve(copies, {.start = &singular}), IsOptimal(1.0));
}

TEST(Solve, TwoThreadsAtOnceGiveTheSameAnswer) {
  const LinearProgram program = small_programs::two_rows();
  const auto many = [&program](std::vector<double>& costs) {
    for (int k = 0; k < 200; ++k) {
      costs.push_back(solve(program).cost);
    }
  };
  std::vector<double> here;
  std::vector<double> there;
  std::thread other([&] { many(there); });
  many(here);
  other.join();
  EXPECT_EQ(here.size(), 200U);
  EXPECT_EQ(here, there);
  EXPECT_THAT(here, testing::Each(IsNear(9.0, 1e-9)));
}

RC_GTEST_PROP(SolveLaw, RelaxingABoundNeverRaisesTheCost, ()) {
  const LinearProgram program = *random_programs::feasible();
  const double before = solve(program).cost;
  LinearProgram relaxed = program;
  const int index = *rc::gen::inRange(0, program.row_count());
  const double by = static_cast<double>(*rc::gen::inRange(1, 6));
  const Row& row = program.rows()[static_cast<std::size_t>(index)];
  relaxed.set_row_bounds(index, row.lower - by, row.upper + by);
  const Solution after = solve(relaxed);
  RC_ASSERT(after.status == Status::optimal);
  RC_ASSERT(after.cost <= before + 1e-9);
}

RC_GTEST_PROP(SolveLaw, ScalingTheCostsScalesTheCost, ()) {
  const LinearProgram program = *random_programs::feasible();
  const double factor = static_cast<double>(*rc::gen::inRange(1, 1000)) / 10.0;
  LinearProgram scaled = program;
  for (int j = 0; j < program.column_count(); ++j) {
    scaled.set_cost(j, factor * program.columns()[static_cast<std::size_t>(j)].cost);
  }
  const double expected = factor * solve(program).cost;
  RC_ASSERT(std::abs(solve(scaled).cost - expected) <= 1e-9 * std::max(1.0, expected));
}

RC_GTEST_PROP(SolveLaw, TheOrderOfColumnsAndRowsDoesNotChangeTheCost, ()) {
  const LinearProgram program = *random_programs::any();
  LinearProgram turned;  // last column and row first
  const int last = program.column_count() - 1;
  for (int j = last; j >= 0; --j) {
    turned.add_column(program.columns()[static_cast<std::size_t>(j)]);
  }
  for (int i = program.row_count() - 1; i >= 0; --i) {
    Row row = program.rows()[static_cast<std::size_t>(i)];
    for (Term& term : row.terms) {
      term.column = last - term.column;
    }
    turned.add_row(std::move(row));
  }
  const Solution first = solve(program);
  const Solution second = solve(turned);
  RC_ASSERT(first.status == second.status);
  RC_ASSERT(std::abs(first.cost - second.cost) <= 1e-8);
}

RC_GTEST_PROP(WarmSolverLaw, AgreesWithSolvingFromNothing, ()) {
  WarmSolver solver(*random_programs::feasible());
  for (int change = 0; change < 6; ++change) {
    if (*rc::gen::arbitrary<bool>()) {
      solver.set_cost(*rc::gen::inRange(0, solver.program().column_count()),
                      static_cast<double>(*rc::gen::inRange(0, 12)));
    } else {
      const int index = *rc::gen::inRange(0, solver.program().row_count());
      const double lower = static_cast<double>(*rc::gen::inRange(-5, 20));
      solver.set_row_bounds(index, lower, lower + static_cast<double>(*rc::gen::inRange(0, 20)));
    }
    const Solution warm = solver.solve();
    const Solution cold = solve(solver.program());
    RC_ASSERT(warm.status == cold.status);
    RC_ASSERT(std::abs(warm.cost - cold.cost) <= 1e-8);
    // Also where the basis was kept and only its duals were brought up to date.
    RC_ASSERT(warm.status != Status::optimal || certify(solver.program(), warm).holds());
  }
}

// The basis stays the best at no cost at all; what is left of the duals is rounding, and
// by it a column without an upper bound once left no bound.
TEST(WarmSolver, IsCertifiedWhereNothingCostsAnythingAnyMore) {
  for (int cost = 1; cost < 50; ++cost) {
    LinearProgram program;
    program.add_column({"x"});
    program.add_column({.name = "y", .cost = static_cast<double>(cost)});
    program.add_row({"r", 1.0, 1.0, {{0, -2.0}, {1, 3.0}}});
    WarmSolver solver(program);
    EXPECT_THAT(solver.solve(), IsOptimal(cost / 3.0));
    solver.set_cost(1, 0.0);
    const Solution free = solver.solve();
    EXPECT_THAT(free, IsOptimal(0.0));
    EXPECT_TRUE(certify(solver.program(), free).holds()) << cost;
  }
}

TEST(WarmSolver, FollowsChangesOfCostsAndBounds) {
  WarmSolver solver(small_programs::two_rows());
  EXPECT_THAT(solver.solve(), IsOptimal(9.0));
  solver.set_cost(1, 1.0);  // y alone is cheaper now
  EXPECT_THAT(solver.solve(), IsOptimal(4.0));
  solver.set_row_bounds(0, 6.0, unlimited);
  EXPECT_THAT(solver.solve(), IsOptimal(6.0));
  solver.set_column_bounds(1, 0.0, 1.0);  // y <= 1, x <= y + 2: at most 4
  EXPECT_THAT(solver.solve(), IsInfeasible());
  solver.set_column_bounds(1, 0.0, unlimited);
  EXPECT_THAT(solver.solve(), IsOptimal(6.0));
  EXPECT_EQ(solver.program().rows()[0].lower, 6.0);
}

TEST(WarmSolver, NothingChangedTakesNoIterations) {
  WarmSolver solver(small_programs::two_rows());
  ASSERT_THAT(solver.solve(), IsOptimal(9.0));
  EXPECT_EQ(solver.solve().iterations, 0);
}

// min 2 x + 3 y, x + y >= 4, x - y <= 2: at (3, 1) both rows hold it. With c_x for
// the 2 the duals are (c_x + 3) / 2 and (c_x - 3) / 2: right until c_x is above 3.
TEST(WarmSolver, KeepsABasisWhilePricesLeaveItTheBest) {
  WarmSolver solver(small_programs::two_rows());
  ASSERT_THAT(solver.solve(), IsOptimal(9.0));
  solver.set_cost(0, 1.0);
  const Solution kept = solver.solve();
  EXPECT_THAT(kept, IsOptimal(6.0));
  EXPECT_EQ(kept.iterations, 0);
  EXPECT_THAT(kept.row_duals, ElementsAre(IsNear(2.0, 1e-12), IsNear(-1.0, 1e-12)));
  solver.set_cost(0, 4.0);  // now y alone
  const Solution moved = solver.solve();
  EXPECT_THAT(moved, IsOptimal(12.0));
  EXPECT_THAT(moved.columns, ElementsAre(IsNear(0.0, 1e-9), IsNear(4.0, 1e-9)));
}

TEST(WarmSolver, IgnoresWholeness) {
  WarmSolver solver(small_programs::whole_numbers());
  EXPECT_THAT(solver.solve(), IsOptimal(20.0 / 3.0));
}

TEST(WarmSolver, RefusesWhatAProgramRefuses) {
  WarmSolver solver(small_programs::two_rows());
  EXPECT_THROW(solver.set_row_bounds(0, 5.0, 4.0), std::invalid_argument);
  EXPECT_THROW(solver.set_cost(9, 1.0), std::invalid_argument);
  EXPECT_THAT(solver.solve(), IsOptimal(9.0));
}

// Column 99 does not exist, which GLPK takes for an internal error and would
// abort the process.
TEST(GlpkProblem, AnInternalErrorEndsInGaveUpAndTheThreadGoesOn) {
  testing::internal::CaptureStdout();
  WarmSolver bystander(small_programs::two_rows());
  ASSERT_THAT(bystander.solve(), IsOptimal(9.0));
  for (int round = 0; round < 20; ++round) {
    GlpkProblem problem(small_programs::two_rows(), Wholeness::ignore);
    ASSERT_TRUE(problem.is_alive());
    problem.set_cost(99, 1.0);
    EXPECT_FALSE(problem.is_alive());
    EXPECT_EQ(problem.optimise(Method::dual, {}).status, Status::gave_up);
    EXPECT_THAT(bystander.solve(), IsOptimal(9.0));
    EXPECT_THAT(solve(small_programs::two_rows()), IsOptimal(9.0));
  }
  EXPECT_EQ(testing::internal::GetCapturedStdout(), "");
}

TEST(GlpkProblem, IsNotAliveOnAnotherThread) {
  const GlpkProblem problem(small_programs::two_rows(), Wholeness::ignore);
  bool is_alive_there = true;
  std::thread([&] { is_alive_there = problem.is_alive(); }).join();
  EXPECT_TRUE(problem.is_alive());
  EXPECT_FALSE(is_alive_there);
}

}  // namespace
}  // namespace haymow::solve_test
