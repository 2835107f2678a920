#include "model/movable_limit.h"

#include <gtest/gtest.h>

#include "model/frontier.h"
#include "solver/solve.h"
#include "tests/model/hand_made.h"

namespace haymow::movable_limit_test {
namespace {

using hand_made::feed_of;
using hand_made::limit_of;
using hand_made::need_of;
using hand_made::offer_of;
using hand_made::question_of;

// Oats have the cheaper megajoule and all the starch.
RationQuestion hay_and_oats(std::vector<Limit> limits) {
  return question_of(
      500.0,
      {offer_of(
           feed_of("hay", FeedGroup::hay, 1000,
                   {{Nutrient::energy, 8.0}, {Nutrient::starch, 20.0}, {Nutrient::sugar, 80.0}}),
           0.20),
       offer_of(
           feed_of("oats", FeedGroup::cereal, 1000,
                   {{Nutrient::energy, 12.0}, {Nutrient::starch, 400.0}, {Nutrient::sugar, 20.0}}),
           0.24)},
      {need_of(Nutrient::energy, 96.0)}, std::move(limits));
}

TEST(MovableLimit, IsTheProgramsOwnRowWhereThereIsOne) {
  const RationQuestion question = hay_and_oats({limit_of("forage/min", 1.5)});
  const Formulation formulation = formulate(question);
  const auto limit =
      movable_limit(question, formulation, "forage/min", solve(formulation.program).columns);
  ASSERT_TRUE(limit);
  EXPECT_TRUE(limit->in_force);
  EXPECT_NEAR(limit->row.bound, 7.5, 1e-9);
  EXPECT_NEAR(*limit->now, 7.5, 1e-9);
}

TEST(MovableLimit, IsPutInWhereTheHorseHasNone) {
  // Without a limit oats alone: 42 % of sugar and starch. At 10 % hay alone: 12 kg.
  const RationQuestion question = hay_and_oats({});
  const Formulation formulation = formulate(question);
  const auto limit =
      movable_limit(question, formulation, "nsc_share/max", solve(formulation.program).columns);
  ASSERT_TRUE(limit);
  EXPECT_FALSE(limit->in_force);
  EXPECT_NEAR(*limit->now, 42.0, 1e-6);
  const Frontier found = frontier(limit->formulation, "nsc_share/max", 5.0, 42.0);
  ASSERT_GE(found.corners.size(), 2U);
  EXPECT_NEAR(found.corners.front().bound, 10.0, 1e-3);
  EXPECT_NEAR(found.corners.front().cost.in_units(), 2.4, 1e-3);
  EXPECT_NEAR(found.corners.back().cost.in_units(), 8.0 * 0.24, 1e-9);
  ASSERT_TRUE(found.ends_at);
  EXPECT_NEAR(*found.ends_at, 10.0, 1e-3);
  for (const FrontierCorner& point : found.points) {
    const Solution cold = solve(with_bound(limit->formulation, "nsc_share/max", point.bound));
    ASSERT_EQ(cold.status, Status::optimal);
    EXPECT_NEAR(cold.cost, point.cost.in_units(), 1e-6);
  }
}

TEST(MovableLimit, IsNothingForAWordThatIsNoRule) {
  const RationQuestion question = hay_and_oats({});
  EXPECT_FALSE(movable_limit(question, formulate(question), "moonlight/max", {}));
}

TEST(MovableLimit, OfNoneIsNotLoosenedWhereNoneIsTheLaw) {
  RationQuestion question = hay_and_oats({limit_of("grain/max", 0.0)});
  question.offers[1].feed.traits.insert(FeedTrait::grain);
  const Formulation formulation = formulate(question);
  const Frontier found = frontier(formulation, "grain/max", 0.0, 1.0);
  ASSERT_FALSE(found.corners.empty());
  EXPECT_EQ(found.corners.back().bound, 0.0);
}

}  // namespace
}  // namespace haymow::movable_limit_test
