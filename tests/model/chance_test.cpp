#include "model/chance.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>
#include <vector>

namespace haymow::chance_test {
namespace {

std::vector<double> uniform_draws(int count, std::uint64_t seed) {
  std::mt19937_64 generator(seed);
  std::vector<double> draws;
  for (int i = 0; i < count; ++i) draws.push_back(next_share(generator));
  return draws;
}

// C++20, [rand.predef]: the 10000th number of a generator as it is made.
TEST(NextShare, IsMadeOfTheStandardsNumbers) {
  std::mt19937_64 generator;
  generator.discard(9999);
  const double share = next_share(generator);
  EXPECT_EQ(share, static_cast<double>(9981545732273789042U >> 11U) / 9007199254740992.0);
}

// F(x) = (x - a)^2 / ((b - a)(c - a)) up to the likeliest c: of 0, 3, 4 a third of the way
// up is 2, since 2^2 / (4 * 3) = 1/3; at c it is (c - a) / (b - a) = 3/4.
TEST(TriangularQuantile, IsTheInverseOnPaper) {
  const Triangle range{0.0, 3.0, 4.0};
  EXPECT_DOUBLE_EQ(triangular_quantile(range, 0.0), 0.0);
  EXPECT_DOUBLE_EQ(triangular_quantile(range, 1.0 / 3.0), 2.0);
  EXPECT_DOUBLE_EQ(triangular_quantile(range, 0.75), 3.0);
  EXPECT_DOUBLE_EQ(triangular_quantile(range, 15.0 / 16.0), 3.5);
  EXPECT_DOUBLE_EQ(triangular_quantile(range, 1.0), 4.0);
  EXPECT_DOUBLE_EQ(triangular_quantile({5.0, 5.0, 5.0}, 0.3), 5.0);
}

TEST(TriangularQuantile, RefusesARangeOutOfOrder) {
  EXPECT_THROW((void)triangular_quantile({1.0, 0.5, 2.0}, 0.5), std::invalid_argument);
  EXPECT_THROW((void)triangular_quantile({0.0, 1.0, 2.0}, 1.5), std::invalid_argument);
}

// The binomial of 20 and a half: 5 or fewer have probability 0.0207, 6 or fewer 0.0577; so
// the 6th smallest and the 15th of 20 hold the median, as tables have it (Conover,
// table A3).
TEST(QuantileTold, OfTheMedianOfTwentyIsTheSixthAndTheFifteenth) {
  std::vector<double> draws;
  for (int i = 20; i >= 1; --i) draws.push_back(i);
  const QuantileTold told = quantile_told(draws, 0.5);
  EXPECT_EQ(told.value, 10.0);
  EXPECT_EQ(told.low, 6.0);
  EXPECT_EQ(told.high, 15.0);
}

TEST(QuantileTold, SaysNothingAboveTheLastWhereTooFewAreDrawn) {
  // All of 20 lie below the nine-in-ten quantile with probability 0.9^20 = 0.12.
  const QuantileTold told = quantile_told(uniform_draws(20, 1), 0.9);
  EXPECT_TRUE(told.low && told.value);
  EXPECT_FALSE(told.high);
}

TEST(QuantileTold, HoldsTheTrueOneInAboutNineteenOfTwentyRowsOfDraws) {
  int held = 0;
  constexpr int rows = 400;
  for (int seed = 0; seed < rows; ++seed) {
    const auto told = quantile_told(uniform_draws(100, static_cast<std::uint64_t>(seed)), 0.9);
    if (told.low && told.high && *told.low <= 0.9 && 0.9 <= *told.high) ++held;
  }
  // At least 95 %, less three standard deviations of such a count.
  EXPECT_GE(held, static_cast<int>(rows * 0.95 - 3.0 * std::sqrt(rows * 0.95 * 0.05)));
  EXPECT_LT(held, rows);
}

TEST(QuantileTold, IsNarrowerForMoreDraws) {
  const auto few = quantile_told(uniform_draws(50, 7), 0.5);
  const auto many = quantile_told(uniform_draws(800, 7), 0.5);
  EXPECT_LT(*many.high - *many.low, *few.high - *few.low);
}

TEST(QuantileTold, ADrawThatCameToNothingLiesAboveAllOthers) {
  const QuantileTold told = quantile_told({1.0, beyond_all, 2.0, beyond_all}, 0.5);
  EXPECT_EQ(told.value, 2.0);
  EXPECT_FALSE(quantile_told({1.0, beyond_all, 2.0, beyond_all}, 0.75).value);
  EXPECT_FALSE(quantile_told({}, 0.5).value);
}

}  // namespace
}  // namespace haymow::chance_test
