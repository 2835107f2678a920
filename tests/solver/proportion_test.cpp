#include "solver/proportion.h"

#include <gtest/gtest.h>

#include "solver/solve.h"

namespace haymow::proportion_test {
namespace {

// x at least 1, y free above 0, x + 2 y at least `bound`.
LinearProgram program(double size, double cost_of_y = 3.0) {
  LinearProgram out;
  out.add_column({"x", size, 10.0 * size, 1.0});
  out.add_column({"y", 0.0, unlimited, cost_of_y});
  out.add_row({"sum", 4.0 * size, unlimited, {{0, 1.0}, {1, 2.0}}});
  out.add_row({"share", -unlimited, 0.0, {{0, 1.0}, {1, -3.0}}});
  return out;
}

TEST(Proportion, IsTheFactorOfAllBounds) {
  EXPECT_EQ(proportion(program(1.0), program(1.0)), 1.0);
  EXPECT_DOUBLE_EQ(proportion(program(2.0), program(5.0)).value(), 2.5);
}

TEST(Proportion, IsNoneWhenOneBoundGoesItsOwnWay) {
  LinearProgram other = program(2.0);
  other.set_row_bounds(0, 7.0, unlimited);
  EXPECT_FALSE(proportion(program(1.0), other));
  other = program(2.0);
  other.set_column_bounds(0, 2.0, unlimited);
  EXPECT_FALSE(proportion(program(1.0), other));
}

TEST(Proportion, IsNoneWhenACostOrACoefficientDiffers) {
  EXPECT_FALSE(proportion(program(1.0), program(1.0, 3.1)));
  LinearProgram other = program(1.0);
  other.add_row({"more", 0.0, unlimited, {{1, 1.0}}});
  EXPECT_FALSE(proportion(program(1.0), other));
  LinearProgram near = program(1.0);
  near.add_row({"more", 0.0, unlimited, {{1, 1.01}}});
  EXPECT_FALSE(proportion(other, near));
}

TEST(Proportion, IsNoneForWholeNumbers) {
  LinearProgram whole;
  whole.add_column({"n", 0.0, 3.0, 1.0, true});
  EXPECT_FALSE(proportion(whole, whole));
}

TEST(Proportion, LetsTwoBeSolvedAsOne) {
  const double apart = solve(program(2.0)).cost + solve(program(5.0)).cost;
  EXPECT_NEAR(solve(program(7.0)).cost, apart, 1e-9);
}

}  // namespace
}  // namespace haymow::proportion_test
