#include "solver/sensitivity.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include "solver/solve.h"
#include "tests/matchers.h"
#include "tests/small_programs.h"
#include "tests/solver/random_programs.h"

namespace haymow::sensitivity_test {
namespace {

using testing::ElementsAre;
using testing::Optional;

Bound row(int index, Side side) { return {Bound::Of::row, index, side}; }
Bound column(int index, Side side) { return {Bound::Of::column, index, side}; }

BoundPrice price_of(const LinearProgram& program, Bound bound, double least_span = 1.0) {
  const std::vector<Bound> bounds = {bound};
  return bound_prices(program, solve(program), bounds, least_span)[0];
}

/// The cost with `bound` moved to `value`; unlimited when there is no answer.
double cost_at(LinearProgram program, Bound bound, double value) {
  const auto index = static_cast<std::size_t>(bound.index);
  const bool is_lower = bound.side == Side::lower;
  if (bound.of == Bound::Of::row) {
    const Row moved = program.rows()[index];
    if (is_lower ? value > moved.upper : value < moved.lower) {
      return unlimited;
    }
    program.set_row_bounds(bound.index, is_lower ? value : moved.lower,
                           is_lower ? moved.upper : value);
  } else {
    const Column moved = program.columns()[index];
    if (is_lower ? value > moved.upper : value < moved.lower) {
      return unlimited;
    }
    program.set_column_bounds(bound.index, is_lower ? value : moved.lower,
                              is_lower ? moved.upper : value);
  }
  const Solution solution = solve(program);
  if (solution.status != Status::optimal) {
    return unlimited;
  }
  return solution.cost;
}

// two_rows: x = (sum + share) / 2, y = (sum - share) / 2, cost 2.5 sum - 0.5 share.
// sum may fall to 2 (then y = 0 and the cost is 2 sum) and rise for ever;
// share may rise to 4 (then y = 0) and fall to -sum (then x = 0).
TEST(BoundPrices, OfALittleProgramByHand) {
  const LinearProgram program = small_programs::two_rows();
  const BoundPrice sum = price_of(program, row(0, Side::lower));
  EXPECT_EQ(sum.value, 4.0);
  EXPECT_THAT(sum.tightening_costs, IsNear(2.5, 1e-9));
  EXPECT_THAT(sum.loosening_saves, IsNear(2.5, 1e-9));
  EXPECT_EQ(sum.tightening_until, std::nullopt);
  EXPECT_THAT(sum.loosening_until, Optional(IsNear(2.0, 1e-7)));

  const BoundPrice share = price_of(program, row(1, Side::upper), 10.0);
  EXPECT_THAT(share.tightening_costs, IsNear(0.5, 1e-9));
  EXPECT_THAT(share.loosening_saves, IsNear(0.5, 1e-9));
  EXPECT_THAT(share.tightening_until, Optional(IsNear(-4.0, 1e-7)));
  EXPECT_THAT(share.loosening_until, Optional(IsNear(4.0, 1e-7)));
}

// Either copy of the row alone keeps the cost up: loosening one saves nothing,
// tightening one costs 1, whatever dual the solver puts on which.
TEST(BoundPrices, OfTwoCopiesOfARowAreTheSame) {
  const LinearProgram program = small_programs::twice_the_same_row();
  for (const int copy : {0, 1}) {
    const BoundPrice price = price_of(program, row(copy, Side::lower));
    EXPECT_THAT(price.tightening_costs, IsNear(1.0, 1e-9)) << copy;
    EXPECT_EQ(price.loosening_saves, 0.0) << copy;
    EXPECT_EQ(price.loosening_until, std::nullopt) << copy;
  }
}

// min x + 3y,  need: x + y >= 4,  cap: x <= 4,  x, y >= 0. Degenerate: need can
// fall at 1 a unit, but rise only by y at 3 a unit.
TEST(BoundPrices, AtAKinkAreTwoNumbers) {
  LinearProgram program;
  program.add_column({.name = "x", .cost = 1.0});
  program.add_column({.name = "y", .cost = 3.0});
  program.add_row({.name = "need", .lower = 4.0, .terms = {{0, 1.0}, {1, 1.0}}});
  program.add_row({.name = "cap", .upper = 4.0, .terms = {{0, 1.0}}});
  const BoundPrice need = price_of(program, row(0, Side::lower));
  EXPECT_THAT(need.tightening_costs, IsNear(3.0, 1e-9));
  EXPECT_THAT(need.loosening_saves, IsNear(1.0, 1e-9));
  const BoundPrice cap = price_of(program, row(1, Side::upper));
  EXPECT_THAT(cap.tightening_costs, IsNear(2.0, 1e-9));
  EXPECT_EQ(cap.loosening_saves, 0.0);
}

// x <= 3 and x >= 3: neither can be tightened at all.
TEST(BoundPrices, TighteningWithoutAnyRoomIsUnlimited) {
  LinearProgram program;
  program.add_column({.name = "x", .cost = 2.0});
  program.add_row({.name = "least", .lower = 3.0, .terms = {{0, 1.0}}});
  program.add_row({.name = "most", .upper = 3.0, .terms = {{0, 1.0}}});
  const BoundPrice least = price_of(program, row(0, Side::lower), 10.0);
  EXPECT_EQ(least.tightening_costs, unlimited);
  EXPECT_EQ(least.tightening_until, std::nullopt);
  EXPECT_THAT(least.loosening_saves, IsNear(2.0, 1e-9));
  EXPECT_THAT(least.loosening_until, Optional(IsNear(0.0, 1e-7)));
}

// The same as one equation, whose sides are priced apart.
TEST(BoundPrices, OfAnEquationSideBySide) {
  LinearProgram program;
  program.add_column({.name = "x", .cost = 2.0});
  program.add_row({.name = "exactly", .lower = 3.0, .upper = 3.0, .terms = {{0, 1.0}}});
  EXPECT_EQ(price_of(program, row(0, Side::lower)).tightening_costs, unlimited);
  EXPECT_THAT(price_of(program, row(0, Side::lower)).loosening_saves, IsNear(2.0, 1e-9));
  EXPECT_EQ(price_of(program, row(0, Side::upper)).loosening_saves, 0.0);
}

TEST(BoundPrices, OfARowThatDoesNotHoldTheAnswerAreZeroUntilItDoes) {
  LinearProgram program = small_programs::two_rows();
  program.add_row({.name = "most", .upper = 5.0, .terms = {{0, 1.0}}});  // x = 3
  const BoundPrice most = price_of(program, row(2, Side::upper));
  EXPECT_EQ(most.tightening_costs, 0.0);
  EXPECT_EQ(most.loosening_saves, 0.0);
  EXPECT_THAT(most.tightening_until, Optional(IsNear(3.0, 1e-7)));
}

// The same row in units a milliard times smaller has a price a milliard times smaller.
TEST(BoundPrices, HoldInUnitsOfAnySize) {
  LinearProgram program;
  program.add_column({.name = "x", .cost = 0.3});
  program.add_row({.name = "need", .lower = 2e9, .terms = {{0, 1e9}}});
  const BoundPrice need = price_of(program, row(0, Side::lower));
  EXPECT_NEAR(need.tightening_costs, 3e-10, 1e-16);
  EXPECT_NEAR(need.loosening_saves, 3e-10, 1e-16);
}

TEST(BoundPrices, RefuseWhatHasNoPrice) {
  const LinearProgram program = small_programs::two_rows();
  const std::vector<Bound> missing = {row(7, Side::lower)};
  const std::vector<Bound> bounds = {row(0, Side::lower)};
  EXPECT_THROW((void)bound_prices(program, solve(program), missing), std::invalid_argument);
  EXPECT_THROW((void)bound_prices(program, Solution{}, bounds), std::invalid_argument);
  const LinearProgram whole = small_programs::whole_numbers();
  EXPECT_THROW((void)bound_prices(whole, solve(whole), bounds), std::invalid_argument);
}

TEST(ActiveBounds, AreThoseThatHoldTheAnswer) {
  LinearProgram program = small_programs::two_rows();
  program.add_column({.name = "z", .lower = 1.0, .cost = 1.0});
  program.add_row({.name = "idle", .lower = -9.0, .upper = 9.0, .terms = {{0, 1.0}}});
  EXPECT_THAT(active_bounds(program, solve(program)),
              ElementsAre(row(0, Side::lower), row(1, Side::upper), column(2, Side::lower)));
}

// min x + 2y,  need: x + y >= 2: y enters at a cost of 1.
TEST(EntryCost, IsTheCostAtWhichAColumnDrawsLevel) {
  const LinearProgram program = small_programs::twice_the_same_row();
  EXPECT_THAT(entry_cost(program, solve(program), 1), Optional(IsNear(1.0, 1e-9)));
}

// y may not be used at all, at whatever cost.
TEST(EntryCost, IsNothingForAColumnThatCannotEnter) {
  LinearProgram program = small_programs::twice_the_same_row();
  program.add_row({.name = "no y", .upper = 0.0, .terms = {{1, 1.0}}});
  EXPECT_EQ(entry_cost(program, solve(program), 1), std::nullopt);
}

TEST(EntryCost, OfAColumnInTheAnswerIsItsPresentCost) {
  const LinearProgram program = small_programs::two_rows();
  EXPECT_EQ(entry_cost(program, solve(program), 0), 2.0);
  EXPECT_THROW((void)entry_cost(program, solve(program), 9), std::invalid_argument);
}

// Published: lp_solve 5.5 reference guide, page "Sensitivity" (sensitivity.htm).
//   min: COLONE + 3 COLTWO + 6.24 COLTHREE + 0.1 COLFOUR;
//   THISROW: 78.26 COLTWO + 2.9 COLFOUR >= 92.3;
//   THATROW: 0.24 COLONE + 11.31 COLTHREE <= 14.8;
//   LASTROW: 12.68 COLONE + 0.08 COLTHREE + 0.9 COLFOUR >= 4;
//   COLONE >= 28.6; COLFOUR >= 18.00; COLFOUR <= 48.98;
// THISROW 0.03448276 from 52.2 till 142.042; COLONE 1 from -1.943598 till
// 61.66667; COLTWO enters at 2.698621. The figures are printed to 7 digits.
TEST(BoundPrices, AgreeWithThePublishedSensitivityReport) {
  LinearProgram program;
  program.add_column({.name = "COLONE", .lower = 28.6, .cost = 1.0});
  program.add_column({.name = "COLTWO", .cost = 3.0});
  program.add_column({.name = "COLTHREE", .cost = 6.24});
  program.add_column({.name = "COLFOUR", .lower = 18.0, .upper = 48.98, .cost = 0.1});
  program.add_row({.name = "THISROW", .lower = 92.3, .terms = {{1, 78.26}, {3, 2.9}}});
  program.add_row({.name = "THATROW", .upper = 14.8, .terms = {{0, 0.24}, {2, 11.31}}});
  program.add_row({.name = "LASTROW", .lower = 4.0, .terms = {{0, 12.68}, {2, 0.08}, {3, 0.9}}});
  const Solution solution = solve(program);
  ASSERT_EQ(solution.status, Status::optimal);
  EXPECT_THAT(solution.cost, IsNear(31.7828, 1e-5));

  const BoundPrice this_row = price_of(program, row(0, Side::lower));
  EXPECT_THAT(this_row.tightening_costs, IsNear(0.03448276, 1e-7));
  EXPECT_THAT(this_row.loosening_saves, IsNear(0.03448276, 1e-7));
  EXPECT_THAT(this_row.loosening_until, Optional(IsNear(52.2, 1e-6)));
  EXPECT_THAT(this_row.tightening_until, Optional(IsNear(142.042, 1e-6)));

  const BoundPrice colone = price_of(program, column(0, Side::lower), 100.0);
  EXPECT_THAT(colone.tightening_costs, IsNear(1.0, 1e-7));
  EXPECT_THAT(colone.tightening_until, Optional(IsNear(61.66667, 1e-6)));
  EXPECT_THAT(colone.loosening_until, Optional(IsNear(-1.943598, 1e-6)));

  EXPECT_THAT(entry_cost(program, solution, 1), Optional(IsNear(2.698621, 1e-6)));
}

/// Checks one side of a price by solving again: on the line up to `until`,
/// above it beyond.
void check_side(const LinearProgram& program, Bound bound, double value, double inward, double rate,
                std::optional<double> until, double cost) {
  const double reach = until ? std::abs(*until - value) : 1.0;
  const double half = cost_at(program, bound, value + inward * 0.5 * reach);
  RC_ASSERT(std::abs(half - (cost + rate * 0.5 * reach)) <= 1e-6);
  if (until) {
    const double edge = cost_at(program, bound, value + inward * 0.999999 * reach);
    RC_ASSERT(std::abs(edge - (cost + rate * reach)) <= 1e-3);
    const double beyond = cost_at(program, bound, value + inward * (reach + 1.0));
    RC_ASSERT(beyond > cost + rate * (reach + 1.0) + 1e-6);
  }
}

RC_GTEST_PROP(BoundPricesLaw, AgreeWithSolvingAgain, ()) {
  const LinearProgram program = *random_programs::feasible();
  const Solution solution = solve(program);
  RC_ASSERT(solution.status == Status::optimal);
  const std::vector<Bound> active = active_bounds(program, solution);
  RC_CLASSIFY(!active.empty(), "has active bounds");
  for (const BoundPrice& price : bound_prices(program, solution, active)) {
    const double inward = price.bound.side == Side::lower ? 1.0 : -1.0;
    RC_ASSERT(price.tightening_costs >= price.loosening_saves - 1e-9);  // convex
    check_side(program, price.bound, price.value, -inward, -price.loosening_saves,
               price.loosening_until, solution.cost);
    if (price.tightening_costs == unlimited) {
      RC_ASSERT(cost_at(program, price.bound, price.value + 1e-4 * inward) == unlimited);
    } else {
      const std::optional<double> until = price.tightening_until;
      check_side(program, price.bound, price.value, inward, price.tightening_costs, until,
                 solution.cost);
    }
  }
}

RC_GTEST_PROP(EntryCostLaw, BelowItTheColumnIsUsedAndAboveItIsNot, ()) {
  const LinearProgram program = *random_programs::feasible();
  const Solution solution = solve(program);
  for (int j = 0; j < program.column_count(); ++j) {
    const auto index = static_cast<std::size_t>(j);
    if (solution.columns[index] > 1e-6) {
      continue;
    }
    const std::optional<double> entry = entry_cost(program, solution, j);
    LinearProgram cheaper = program;
    cheaper.set_cost(j, entry ? *entry - 0.01 : -1e6);
    const Solution changed = solve(cheaper);
    const bool is_used = changed.status == Status::unbounded || changed.columns[index] > 1e-6;
    RC_ASSERT(is_used == entry.has_value());
    if (entry) {
      LinearProgram dearer = program;
      dearer.set_cost(j, *entry + 0.01);
      RC_ASSERT(solve(dearer).columns[index] <= 1e-6);
    }
  }
}

}  // namespace
}  // namespace haymow::sensitivity_test
