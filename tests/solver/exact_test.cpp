#include "solver/exact.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <stdexcept>
#include <vector>

#include "solver/solve.h"
#include "tests/matchers.h"
#include "tests/small_programs.h"

namespace haymow::exact_test {
namespace {

using testing::DoubleEq;

// min x/3 + y/7,  x/3 + y/9 >= 1/7,  x/11 + y/5 >= 1/13. Both hold: x = 451/1274, y = 285/1274,
// cost 2006/13377, by hand, with fractions. No figure is a double but for its rounding.
LinearProgram fractions() {
  LinearProgram program;
  program.add_column({.name = "x", .cost = 1.0 / 3.0});
  program.add_column({.name = "y", .cost = 1.0 / 7.0});
  program.add_row({.name = "a", .lower = 1.0 / 7.0, .terms = {{0, 1.0 / 3.0}, {1, 1.0 / 9.0}}});
  program.add_row({.name = "b", .lower = 1.0 / 13.0, .terms = {{0, 1.0 / 11.0}, {1, 0.2}}});
  return program;
}

TEST(Exact, ConfirmsAnOptimumFromItsBasisWithoutAStep) {
  const LinearProgram program = fractions();
  const ExactCheck check = check_exactly(program, solve(program));
  EXPECT_EQ(check.status, Status::optimal);
  EXPECT_TRUE(check.confirms_cost());
  EXPECT_TRUE(check.same_basis);
  EXPECT_EQ(check.iterations, 0);
  EXPECT_THAT(check.cost, DoubleEq(2006.0 / 13377.0));
  EXPECT_NEAR(check.difference, 0.0, 1e-15);
}

TEST(Exact, ADegenerateTextbookProgramEndsAtItsOptimum) {
  const LinearProgram program = small_programs::beale();
  const Solution solution = solve(program);
  const ExactCheck check = check_exactly(program, solution);
  EXPECT_TRUE(check.confirms_cost());
  EXPECT_THAT(check.cost, DoubleEq(-0.05));
  EXPECT_TRUE(check.same_basis);
}

// A basis that is not optimal is left for one that is.
TEST(Exact, ABasisThatIsNotOptimalIsLeft) {
  const LinearProgram program = fractions();
  Solution start = solve(program);
  start.basis->columns.assign(2, BasisStatus::at_lower);
  start.basis->rows.assign(2, BasisStatus::basic);
  const ExactCheck check = check_exactly(program, start);
  EXPECT_TRUE(check.confirms_cost());
  EXPECT_THAT(check.cost, DoubleEq(2006.0 / 13377.0));
  EXPECT_FALSE(check.same_basis);
  EXPECT_GT(check.iterations, 0);
}

// From no amounts at all GLPK 5.0's rational method does what Beale made the example
// for: it goes round for ever. Then the limit ends it, and nothing is confirmed.
TEST(Exact, ARoundWithoutEndConfirmsNothing) {
  const LinearProgram program = small_programs::beale();
  Solution start = solve(program);
  start.basis->columns.assign(4, BasisStatus::at_lower);
  start.basis->rows.assign(3, BasisStatus::basic);
  start.cost = 0.0;
  EXPECT_FALSE(check_exactly(program, start, 0.2).confirms_cost());
}

// Two equal rows: either may hold the optimum, and the fractions need not move.
TEST(Exact, OneOfSeveralOptimalBasesIsEnough) {
  const LinearProgram program = small_programs::twice_the_same_row();
  const ExactCheck check = check_exactly(program, solve(program));
  EXPECT_TRUE(check.confirms_cost());
  EXPECT_EQ(check.cost, 2.0);
}

// What GLPK makes of figures: 0.33333333333 is within 1e-9 of a third and counts as one,
// 0.3333333 does not, whole numbers stay. So "exact" is of figures so rounded.
TEST(Exact, FiguresCountAsFractionsNearThem) {
  const auto least = [](double bound) {
    LinearProgram program;
    program.add_column({.name = "x", .cost = 1.0});
    program.add_column({.name = "y", .cost = 2.0});
    program.add_row({.name = "a", .lower = bound, .terms = {{0, 1.0}, {1, 1.0}}});
    return check_exactly(program, solve(program)).cost;
  };
  EXPECT_EQ(least(0.33333333333), 1.0 / 3.0);
  EXPECT_NE(least(0.3333333), 1.0 / 3.0);
  EXPECT_EQ(least(123456789012345.0), 123456789012345.0);
}

TEST(Exact, AWrongCostIsNotConfirmed) {
  const LinearProgram program = fractions();
  Solution wrong = solve(program);
  wrong.cost += 0.01;
  const ExactCheck check = check_exactly(program, wrong);
  EXPECT_TRUE(check.finished());
  EXPECT_NEAR(check.difference, 0.01, 1e-12);
  EXPECT_FALSE(check.confirms_cost());
}

TEST(Exact, WithoutABasisNothingIsConfirmed) {
  const LinearProgram program = fractions();
  Solution bare = solve(program);
  bare.basis.reset();
  EXPECT_FALSE(check_exactly(program, bare).finished());
}

TEST(Exact, AProgramOfWholeNumbersIsNotChecked) {
  const LinearProgram program = small_programs::whole_numbers();
  EXPECT_FALSE(check_exactly(program, solve(program)).finished());
}

TEST(Exact, AClashIsConfirmedByItsRowsAlone) {
  const LinearProgram program = small_programs::clash();
  EXPECT_EQ(check_clash_exactly(program, std::vector<std::size_t>{0, 1}).status,
            Status::infeasible);
  EXPECT_EQ(check_clash_exactly(program, std::vector<std::size_t>{0, 2}).status, Status::optimal);
  EXPECT_THROW((void)check_clash_exactly(program, std::vector<std::size_t>{3}), std::out_of_range);
}

// x >= 1 and x <= 1 - 1e-5 clash by more than the figures are rounded by; x >= 1 and
// x <= 1 do not clash at all.
TEST(Exact, AClashByAHairIsOne) {
  const auto answer = [](double most) {
    LinearProgram program;
    program.add_column({.name = "x", .cost = 1.0});
    program.add_row({.name = "least", .lower = 1.0, .terms = {{0, 1.0}}});
    program.add_row({.name = "most", .upper = most, .terms = {{0, 1.0}}});
    return check_clash_exactly(program, std::vector<std::size_t>{0, 1}).status;
  };
  EXPECT_EQ(answer(1.0 - 1e-5), Status::infeasible);
  EXPECT_EQ(answer(1.0), Status::optimal);
}

}  // namespace
}  // namespace haymow::exact_test
