// Where the mark of a ruler lies, by the sentence in draw_ruler.h.
#include "scenarios/draw_ruler.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace haymow::draw_ruler_test {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

Ruler from(std::optional<double> floor, std::optional<double> ceiling) {
  return {"energy", "MJ", 1, 0.0, floor, ceiling, ""};
}

constexpr double left = ruler_margin;
constexpr double right = ruler_width - ruler_margin;

TEST(Ruler, PlacesAValueInProportionBetweenItsEnds) {
  const Ruler ruler = from(100.0, 200.0);
  EXPECT_DOUBLE_EQ(place_on_ruler(ruler, 100.0), left);
  EXPECT_DOUBLE_EQ(place_on_ruler(ruler, 150.0), (left + right) / 2.0);
  EXPECT_DOUBLE_EQ(place_on_ruler(ruler, 200.0), right);
}

TEST(Ruler, PutsTwiceTheFloorHalfWayWhereThereIsNoCeiling) {
  const Ruler ruler = from(100.0, std::nullopt);
  EXPECT_DOUBLE_EQ(place_on_ruler(ruler, 100.0), left);
  EXPECT_DOUBLE_EQ(place_on_ruler(ruler, 200.0), (left + right) / 2.0);
  EXPECT_LT(place_on_ruler(ruler, 1e9), right + 1e-6);
}

TEST(Ruler, BeginsAtNothingWhereThereIsNoFloor) {
  EXPECT_DOUBLE_EQ(place_on_ruler(from(std::nullopt, 50.0), 25.0), (left + right) / 2.0);
}

TEST(Ruler, ShowsWhatLiesOutsideItsEndsInTheMarginAndNoFurther) {
  const Ruler ruler = from(100.0, 200.0);
  EXPECT_LT(place_on_ruler(ruler, 99.0), left);
  EXPECT_GT(place_on_ruler(ruler, 201.0), right);
  EXPECT_GE(place_on_ruler(ruler, -1e9), 0.0);
  EXPECT_LE(place_on_ruler(ruler, 1e9), ruler_width);
  EXPECT_LT(place_on_ruler(from(100.0, std::nullopt), 90.0), left);
}

TEST(Ruler, KeepsTheMarkInSightWhereFloorAndCeilingAreOne) {
  EXPECT_DOUBLE_EQ(place_on_ruler(from(7.0, 7.0), 7.0), (left + right) / 2.0);
}

TEST(Ruler, DrawsAnOpenEndOnlyWithoutACeiling) {
  EXPECT_THAT(draw_ruler(from(1.0, std::nullopt)), HasSubstr("class=\"open\""));
  EXPECT_THAT(draw_ruler(from(1.0, 2.0)), Not(HasSubstr("class=\"open\"")));
}

}  // namespace
}  // namespace haymow::draw_ruler_test
