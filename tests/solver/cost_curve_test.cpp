#include "solver/cost_curve.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include <stdexcept>

#include "solver/solve.h"
#include "tests/matchers.h"
#include "tests/small_programs.h"
#include "tests/solver/random_programs.h"

namespace haymow::cost_curve_test {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

// Hillier & Lieberman, Introduction to Operations Research, the glass company of its
// chapter on linear programming (figures from memory): max 3x + 5y, x <= 4,
// 2y <= 12, 3x + 2y <= 18; best 36 at (2, 6). Its sensitivity report: the profit of x
// may go from 0 to 7.5; shadow prices 0, 1.5 and 1; the third limit's price holds
// from 12 to 24.
LinearProgram glass_company() {
  LinearProgram program;
  program.add_column({.name = "x", .cost = -3.0});
  program.add_column({.name = "y", .cost = -5.0});
  program.add_row({.name = "plant 1", .upper = 4.0, .terms = {{0, 1.0}}});
  program.add_row({.name = "plant 2", .upper = 12.0, .terms = {{1, 2.0}}});
  program.add_row({.name = "plant 3", .upper = 18.0, .terms = {{0, 3.0}, {1, 2.0}}});
  return program;
}

TEST(CostCurve, BreaksWhereThePublishedReportHasItsRange) {
  const auto pieces = answers_over_cost(glass_company(), 0, -10.0, 1.0);
  ASSERT_EQ(pieces.size(), 3U);
  EXPECT_NEAR(pieces[0].to, -7.5, 1e-9);
  EXPECT_NEAR(pieces[1].from, -7.5, 1e-9);
  EXPECT_NEAR(pieces[1].to, 0.0, 1e-9);
  EXPECT_NEAR(pieces[0].solution.columns[0], 4.0, 1e-9);
  EXPECT_NEAR(pieces[1].solution.columns[0], 2.0, 1e-9);
  EXPECT_NEAR(pieces[2].solution.columns[0], 0.0, 1e-9);
}

TEST(CostCurve, TurnsWhereThePublishedPriceOfALimitEnds) {
  const auto corners =
      corners_over_bound(glass_company(), {Bound::Of::row, 2, Side::upper}, 0.0, 30.0);
  std::vector<double> values;
  std::vector<double> costs;
  for (const BoundCorner& corner : corners) {
    values.push_back(corner.value);
    costs.push_back(corner.solution.cost);
  }
  EXPECT_THAT(values, ElementsAre(IsNear(0.0, 1e-8), IsNear(12.0, 1e-9), IsNear(24.0, 1e-9),
                                  IsNear(30.0, 1e-9)));
  EXPECT_THAT(costs, ElementsAre(IsNear(0.0, 1e-8), IsNear(-30.0, 1e-9), IsNear(-42.0, 1e-9),
                                 IsNear(-42.0, 1e-9)));
}

TEST(CostCurve, EndsWhereTheProgramHasNoMoreAnswer) {
  // x <= 5, need: x >= bound.
  LinearProgram program;
  program.add_column({.name = "x", .upper = 5.0, .cost = 2.0});
  program.add_row({.name = "need", .lower = 1.0, .terms = {{0, 1.0}}});
  const auto corners = corners_over_bound(program, {Bound::Of::row, 0, Side::lower}, 0.0, 9.0);
  ASSERT_EQ(corners.size(), 2U);
  EXPECT_NEAR(corners.back().value, 5.0, 1e-6);
  EXPECT_NEAR(corners.back().solution.cost, 10.0, 1e-5);
  EXPECT_THAT(corners_over_bound(program, {Bound::Of::row, 0, Side::lower}, 6.0, 9.0), IsEmpty());
}

TEST(CostCurve, OfAProgramWithoutAnswerIsEmpty) {
  EXPECT_THAT(answers_over_cost(small_programs::clash(), 0, 0.0, 1.0), IsEmpty());
}

TEST(CostCurve, RefusesWhatHasNoMeaning) {
  EXPECT_THROW((void)answers_over_cost(glass_company(), 7, 0.0, 1.0), std::invalid_argument);
  EXPECT_THROW((void)answers_over_cost(glass_company(), 0, 1.0, 0.0), std::invalid_argument);
  EXPECT_THROW((void)answers_over_cost(small_programs::whole_numbers(), 0, 0.0, 1.0),
               std::invalid_argument);
}

// Anywhere between the ends the curve says what solving there says.
RC_GTEST_PROP(CostCurveLaw, AgreesWithSolvingAnywhere, ()) {
  LinearProgram program = *random_programs::feasible();
  const int column = *rc::gen::inRange(0, program.column_count());
  const auto pieces = answers_over_cost(program, column, 0.0, 4.0);
  RC_ASSERT(!pieces.empty());
  RC_ASSERT(pieces.front().from == 0.0);
  RC_ASSERT(pieces.back().to == 4.0);
  for (std::size_t p = 0; p < pieces.size(); ++p) {
    if (p > 0) RC_ASSERT(pieces[p].from == pieces[p - 1].to);
    for (const double share : {0.01, 0.5, 0.99}) {
      const double at = pieces[p].from + share * (pieces[p].to - pieces[p].from);
      program.set_cost(column, at);
      double cost = 0.0;
      for (int j = 0; j < program.column_count(); ++j) {
        const auto index = static_cast<std::size_t>(j);
        cost += program.columns()[index].cost * pieces[p].solution.columns[index];
      }
      RC_ASSERT(std::abs(cost - solve(program).cost) <= 1e-6 * std::max(1.0, std::abs(cost)));
    }
  }
}

RC_GTEST_PROP(CostCurveLaw, OfABoundAgreesWithSolvingAnywhere, ()) {
  LinearProgram program = *random_programs::feasible();
  const int row = *rc::gen::inRange(0, program.row_count());
  const Row& bounded = program.rows()[static_cast<std::size_t>(row)];
  RC_PRE(bounded.lower == -unlimited || bounded.upper == unlimited);
  const Side side = bounded.lower == -unlimited ? Side::upper : Side::lower;
  const double value = side == Side::lower ? bounded.lower : bounded.upper;
  RC_PRE(std::isfinite(value));
  const auto corners =
      corners_over_bound(program, {Bound::Of::row, row, side}, value - 3.0, value + 3.0);
  RC_ASSERT(!corners.empty());
  for (std::size_t c = 0; c + 1 < corners.size(); ++c) {
    const double middle = 0.5 * (corners[c].value + corners[c + 1].value);
    program.set_row_bounds(row, side == Side::lower ? middle : -unlimited,
                           side == Side::upper ? middle : unlimited);
    const double between = 0.5 * (corners[c].solution.cost + corners[c + 1].solution.cost);
    RC_ASSERT(std::abs(between - solve(program).cost) <= 1e-6 * std::max(1.0, std::abs(between)));
  }
}

}  // namespace
}  // namespace haymow::cost_curve_test
