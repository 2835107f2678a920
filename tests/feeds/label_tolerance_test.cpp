#include "feeds/label_tolerance.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace haymow::label_tolerance_test {
namespace {

using ::testing::DoubleNear;

// Regulations of Wales 2006/116, schedule 4 part D: vitamins 30 % below, trace
// elements 50 % either way, vitamin D 50 % either way up to 4,000 IU/kg.

TEST(LabelTolerance, ATraceElementMayBeHalfOffEitherWay) {
  const auto copper = bag_content(Nutrient::copper, 35.0);
  ASSERT_TRUE(copper);
  EXPECT_THAT(copper->least, DoubleNear(17.5, 1e-12));
  EXPECT_THAT(copper->most.value(), DoubleNear(52.5, 1e-12));
}

TEST(LabelTolerance, AVitaminMayBeAThirdShortAndHasNoEnd) {
  const auto vitamin = bag_content(Nutrient::vitamin_a, 10000.0);
  ASSERT_TRUE(vitamin);
  EXPECT_THAT(vitamin->least, DoubleNear(7000.0, 1e-9));
  EXPECT_FALSE(vitamin->most);
}

TEST(LabelTolerance, VitaminDIsKnownUpToFourThousand) {
  EXPECT_THAT(bag_content(Nutrient::vitamin_d, 4000.0)->most.value(), DoubleNear(6000.0, 1e-9));
  EXPECT_FALSE(bag_content(Nutrient::vitamin_d, 4000.5));
}

TEST(LabelTolerance, OtherFiguresHaveNoneHere) {
  for (const Nutrient n : {Nutrient::energy, Nutrient::crude_protein, Nutrient::calcium,
                           Nutrient::starch, Nutrient::ash}) {
    EXPECT_FALSE(bag_content(n, 10.0)) << traits_of(n).name;
  }
}

}  // namespace
}  // namespace haymow::label_tolerance_test
