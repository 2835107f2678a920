#include "solver/certify.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <vector>

#include "solver/solve.h"
#include "tests/matchers.h"
#include "tests/small_programs.h"
#include "tests/solver/random_programs.h"

namespace haymow::certify_test {
namespace {

using testing::Not;

TEST(Certify, HoldsForTheOptimum) {
  const LinearProgram program = small_programs::two_rows();
  const Certificate certificate = certify(program, solve(program));
  EXPECT_THAT(certificate, Holds());
  EXPECT_THAT(certificate.lower_bound, IsNear(9.0, 1e-12));
}

TEST(Certify, RefusesWhatIsNotUsable) {
  const LinearProgram program = small_programs::clash();
  EXPECT_THAT(certify(program, solve(program)), Not(Holds()));
  EXPECT_THAT(certify(program, Solution{}), Not(Holds()));
}

TEST(Certify, RefusesAPointThatMissesARow) {
  const LinearProgram program = small_programs::two_rows();
  Solution solution = solve(program);
  solution.columns[0] -= 1e-4;
  EXPECT_THAT(certify(program, solution).largest_violation, IsNear(1e-4 / 4.0, 1e-9));
  EXPECT_THAT(certify(program, solution), Not(Holds()));
}

TEST(Certify, RefusesAFeasiblePointThatIsNotTheBest) {
  const LinearProgram program = small_programs::two_rows();
  Solution solution = solve(program);
  solution.columns[1] += 0.01;
  const Certificate certificate = certify(program, solution);
  EXPECT_THAT(certificate.largest_violation, IsNear(0.0, 1e-12));
  EXPECT_THAT(certificate.relative_gap, IsNear(0.03 / 9.03, 1e-9));
  EXPECT_THAT(certificate, Not(Holds()));
}

TEST(Certify, AsksNothingOfTheCostOrRowsGiven) {
  const LinearProgram program = small_programs::two_rows();
  Solution solution = solve(program);
  solution.cost = 0.0;
  solution.rows = {1e9, 1e9};
  EXPECT_THAT(certify(program, solution), Holds());
}

TEST(Certify, RefusesNumbersThatAreNone) {
  const LinearProgram program = small_programs::two_rows();
  Solution solution = solve(program);
  solution.columns[0] = std::nan("");
  EXPECT_THAT(certify(program, solution), Not(Holds()));
  solution = solve(program);
  solution.row_duals[0] = std::nan("");
  EXPECT_THAT(certify(program, solution), Not(Holds()));
}

// Any multipliers give a bound that no answer undercuts; wrong ones are clipped.
TEST(Certify, TheBoundIsTrueForAnyMultipliers) {
  const LinearProgram program = small_programs::two_rows();
  Solution solution = solve(program);
  for (const double first : {-3.0, 0.0, 1.0, 2.0, 2.5, 3.0, 10.0}) {
    for (const double second : {-5.0, -1.0, -0.5, 0.0, 2.0}) {
      solution.row_duals = {first, second};
      EXPECT_LE(certify(program, solution).lower_bound, 9.0 + 1e-12) << first << ' ' << second;
    }
  }
}

// min x - y,  up: y <= 5 as a row,  y >= 0 unlimited: a dual of up slightly too
// small leaves y a wrong-signed reduced cost, which the row's bound y <= 5 mends.
TEST(Certify, AnImpliedBoundMendsASlightlyWrongDual) {
  LinearProgram program;
  program.add_column({.name = "x", .lower = 1.0, .cost = 1.0});
  program.add_column({.name = "y", .cost = -1.0});
  program.add_row({.name = "up", .upper = 5.0, .terms = {{1, 1.0}}});
  Solution solution = solve(program);
  ASSERT_THAT(solution, IsOptimal(-4.0));
  solution.row_duals[0] += 1e-8;
  const Certificate certificate = certify(program, solution);
  EXPECT_THAT(certificate.lower_bound, IsNear(-4.0, 1e-7));
  EXPECT_THAT(certificate.largest_dual_violation, IsNear(1e-8, 1e-12));
  EXPECT_THAT(certificate, Holds());
  solution.row_duals[0] = -0.9;  // truly wrong: reported as such
  EXPECT_THAT(certify(program, solution), Not(Holds()));
}

// min -x,  x free,  no row bounds it: any multiplier leaves the bound -unlimited.
TEST(Certify, WithoutAnyBoundTheLowerBoundIsUnlimited) {
  LinearProgram program;
  program.add_column({.name = "x", .lower = -unlimited, .cost = 1.0});
  program.add_column({.name = "y", .lower = -unlimited, .cost = -1.0});
  program.add_row({.name = "r", .lower = 0.0, .terms = {{0, 1.0}, {1, -1.0}}});
  Solution claimed;
  claimed.status = Status::optimal;
  claimed.columns = {0.0, 0.0};
  claimed.row_duals = {0.5};
  EXPECT_EQ(certify(program, claimed).lower_bound, -unlimited);
  claimed.row_duals = {1.0};
  EXPECT_THAT(certify(program, claimed), Holds());
}

RC_GTEST_PROP(CertifyLaw, HoldsForEveryOptimumAndForNoPerturbedAnswer, ()) {
  const LinearProgram program = *random_programs::feasible();
  const Solution solution = solve(program);
  RC_ASSERT(solution.status == Status::optimal);
  RC_ASSERT(certify(program, solution).holds());
  // Moving a column that costs something moves the cost: too dear, or infeasible.
  const auto index = static_cast<std::size_t>(*rc::gen::inRange(0, program.column_count()));
  RC_PRE(program.columns()[index].cost > 0.0);
  Solution perturbed = solution;
  perturbed.columns[index] += *rc::gen::element(-0.01, 0.01);
  RC_ASSERT(!certify(program, perturbed).holds());
}

RC_GTEST_PROP(CertifyLaw, NoMultipliersPushTheBoundAboveTheCost, ()) {
  const LinearProgram program = *random_programs::feasible();
  Solution solution = solve(program);
  for (double& dual : solution.row_duals) {
    dual = static_cast<double>(*rc::gen::inRange(-30, 31)) / 10.0;
  }
  RC_ASSERT(certify(program, solution).lower_bound <= solution.cost + 1e-8);
}

RC_GTEST_PROP(InfeasibilityProofLaw, NothingProvesAFeasibleProgramInfeasible, ()) {
  const LinearProgram program = *random_programs::feasible();
  std::vector<double> multipliers;
  multipliers.reserve(program.rows().size());
  for (int i = 0; i < program.row_count(); ++i) {
    multipliers.push_back(static_cast<double>(*rc::gen::inRange(-30, 31)) / 10.0);
  }
  RC_ASSERT(infeasibility_proof(program, multipliers) <= 1e-12);
}

TEST(CertifyFeasible, MeasuresAgainstTheBoundGiven) {
  const LinearProgram program = small_programs::whole_numbers();
  const Solution solution = solve(program);
  EXPECT_THAT(certify_feasible(program, solution, 8.0), Holds());
  EXPECT_THAT(certify_feasible(program, solution, 20.0 / 3.0).relative_gap,
              IsNear((8.0 - 20.0 / 3.0) / 8.0, 1e-9));
}

TEST(CertifyFeasible, RefusesAPartOfAWholeNumber) {
  const LinearProgram program = small_programs::whole_numbers();
  Solution solution = solve(program);
  solution.columns[1] += 0.001;
  EXPECT_THAT(certify_feasible(program, solution, 8.0), Not(Holds()));
}

TEST(InfeasibilityProof, AddsTheClashingRows) {
  const LinearProgram program = small_programs::clash();
  // least - most: 0 x >= 2, against the size 5 + 3.
  EXPECT_THAT(infeasibility_proof(program, {1.0, -1.0, 0.0}), IsNear(2.0 / 8.0, 1e-12));
}

TEST(InfeasibilityProof, MultipliersThatProveNothingAreRefused) {
  const LinearProgram program = small_programs::clash();
  EXPECT_LE(infeasibility_proof(program, {1.0, 0.0, -1.0}), 0.0);
  EXPECT_LE(infeasibility_proof(program, {-1.0, 1.0, 0.0}), 0.0);  // wrong signs
  EXPECT_LE(infeasibility_proof(program, {0.0, 0.0, 0.0}), 0.0);
  EXPECT_LE(infeasibility_proof(program, {1.0}), 0.0);  // wrong shape
  EXPECT_LE(infeasibility_proof(small_programs::two_rows(), {1.0, -1.0}), 0.0);
}

}  // namespace
}  // namespace haymow::certify_test
