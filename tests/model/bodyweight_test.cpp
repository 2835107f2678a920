#include "model/bodyweight.h"

#include <limits>
#include <stdexcept>

#include <gtest/gtest.h>

namespace haymow::bodyweight_test {
namespace {

constexpr double in_cm(double inches) { return inches * cm_per_inch; }

/// lb = girth^2 x length / divisor, in inches, as the pages print it.
double by_inches(double girth, double length, double divisor) {
  return girth * girth * length / divisor * kg_per_lb;
}

Bodyweight taped(double girth, double length, BodyShape shape) {
  return bodyweight_from_tape(Centimetres{in_cm(girth)}, Centimetres{in_cm(length)}, shape);
}

TEST(Bodyweight, AdultFollowsTheMetricFormula) {
  EXPECT_DOUBLE_EQ(bodyweight_from_tape(Centimetres{188.0}, Centimetres{165.0}).in_kg(),
                   188.0 * 188.0 * 165.0 / 11880.0);
}

// 330 in inches and pounds is 11,922 in centimetres and kilograms, so the two
// published forms differ by 0.35 %: the metric one is the heavier.
TEST(Bodyweight, TheTwoPublishedAdultFormsDifferByAThirdOfAPerCent) {
  const double metric = taped(74.0, 65.0, BodyShape::adult).in_kg();
  EXPECT_NEAR(metric / by_inches(74.0, 65.0, 330.0), 11922.0 / 11880.0, 1e-5);
}

TEST(Bodyweight, OtherShapesFollowTheInchFormulaWithTheirDivisor) {
  EXPECT_NEAR(taped(54.0, 48.0, BodyShape::pony).in_kg(), by_inches(54.0, 48.0, 299.0), 1e-9);
  EXPECT_NEAR(taped(62.0, 55.0, BodyShape::yearling).in_kg(), by_inches(62.0, 55.0, 301.0), 1e-9);
  EXPECT_NEAR(taped(48.0, 42.0, BodyShape::weanling).in_kg(), by_inches(48.0, 42.0, 280.0), 1e-9);
}

TEST(Bodyweight, GirthAloneIsCubedInMetres) {
  EXPECT_NEAR(bodyweight_from_girth(Centimetres{185.0}).in_kg(), 80.0 * 1.85 * 1.85 * 1.85, 1e-9);
}

TEST(Bodyweight, BothTapesAgreeWithinTheirStatedTenPerCent) {
  const double by_both = bodyweight_from_tape(Centimetres{188.0}, Centimetres{165.0}).in_kg();
  EXPECT_NEAR(bodyweight_from_girth(Centimetres{188.0}).in_kg() / by_both, 1.0, 0.1);
}

TEST(Bodyweight, MeasureThatCannotBeIsRefused) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_THROW((void)bodyweight_from_tape(Centimetres{0.0}, Centimetres{165.0}),
               std::invalid_argument);
  EXPECT_THROW((void)bodyweight_from_tape(Centimetres{188.0}, Centimetres{-1.0}),
               std::invalid_argument);
  EXPECT_THROW((void)bodyweight_from_girth(Centimetres{nan}), std::invalid_argument);
}

}  // namespace
}  // namespace haymow::bodyweight_test
