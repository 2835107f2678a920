#include "model/frontier.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <stdexcept>

#include "solver/solve.h"
#include "tests/model/any_stable.h"
#include "tests/model/hand_made.h"

namespace haymow::frontier_test {
namespace {

using hand_made::feed_of;
using hand_made::limit_of;
using hand_made::need_of;
using hand_made::offer_of;
using hand_made::question_of;
using testing::IsEmpty;

// 96 MJ from hay (8 MJ, 0.20 a kg) or oats (12 MJ, 0.24 a kg): a MJ of oats is
// cheaper, so the more forage is asked for the dearer.
RationQuestion hay_and_oats(std::vector<Limit> limits) {
  return question_of(
      500.0,
      {offer_of(feed_of("hay", FeedGroup::hay, 1000, {{Nutrient::energy, 8.0}}), 0.20),
       offer_of(feed_of("oats", FeedGroup::cereal, 1000, {{Nutrient::energy, 12.0}}), 0.24)},
      {need_of(Nutrient::energy, 96.0)}, std::move(limits));
}

TEST(Frontier, OfAnAmountTurnsWhereItsCornersAre) {
  // cost = 0.2 b + 0.24 (96 - 8 b) / 12 up to 12 kg, where hay alone is enough.
  const Formulation formulation = formulate(hay_and_oats({limit_of("forage/min", 1.5)}));
  const Frontier found = frontier(formulation, "forage/min", 6.0, 14.0);
  EXPECT_TRUE(found.straight);
  ASSERT_EQ(found.corners.size(), 3U);
  EXPECT_NEAR(found.corners[0].cost.in_units(), 0.2 * 6.0 + 0.02 * 48.0, 1e-9);
  EXPECT_NEAR(found.corners[1].bound, 12.0, 1e-9);
  EXPECT_NEAR(found.corners[1].cost.in_units(), 2.4, 1e-9);
  EXPECT_NEAR(found.corners[2].cost.in_units(), 2.8, 1e-9);
}

TEST(Frontier, NeverMovesALawBeyondItsAbsoluteFigure) {
  // No less than 1 % of 500 kg, whoever asks.
  const Formulation formulation = formulate(hay_and_oats({limit_of("forage/min", 1.5)}));
  const Frontier found = frontier(formulation, "forage/min", 0.0, 14.0);
  ASSERT_FALSE(found.corners.empty());
  EXPECT_NEAR(found.corners.front().bound, 5.0, 1e-9);
}

TEST(Frontier, OfAShareFollowsTheRation) {
  // With a share f of forage: 96 (0.24 - 0.04 f) / (12 - 4 f).
  const Formulation formulation = formulate(hay_and_oats({limit_of("forage_share/min", 50.0)}));
  const Frontier found = frontier(formulation, "forage_share/min", 20.0, 100.0);
  // Half of the dry matter is the least a law allows.
  EXPECT_FALSE(found.straight);
  ASSERT_GE(found.corners.size(), 2U);
  for (const FrontierCorner& corner : found.corners) {
    const double f = corner.bound / 100.0;
    EXPECT_NEAR(corner.cost.in_units(), 96.0 * (0.24 - 0.04 * f) / (12.0 - 4.0 * f), 1e-6);
  }
  EXPECT_NEAR(found.corners.front().bound, 50.0, 1e-9);
  EXPECT_NEAR(found.corners.back().bound, 100.0, 1e-9);
}

TEST(Frontier, IsEmptyWhereThereIsNoRationAndRefusesUnknownLimits) {
  RationQuestion question = hay_and_oats({limit_of("forage/min", 1.5)});
  question.horse.wishes.push_back({WishKind::at_most, "hay", KgAsFed{4.0}, {}});
  const Formulation formulation = formulate(question);
  EXPECT_THAT(frontier(formulation, "forage/min", 6.0, 8.0).corners, IsEmpty());
  EXPECT_THROW((void)frontier(formulation, "forage_share/min", 1.0, 2.0), std::invalid_argument);
}

// In any stable: stricter never costs less, and every corner costs what solving with
// that bound says (the energy ceiling, which every ration has).
RC_GTEST_PROP(Frontier, RisesAsTheLimitTightensAndCostsWhatSolvingSays, ()) {
  const Formulation formulation = formulate(any_stable::question());
  RC_PRE(solve(formulation.program).status == Status::optimal);
  const auto& row = hand_made::row_of(formulation.rows, "energy/max");
  const Frontier found = frontier(formulation, row.id, row.bound * 0.96, row.bound * 1.1);
  for (std::size_t c = 0; c < found.corners.size(); ++c) {
    if (c > 0) RC_ASSERT(found.corners[c].cost <= found.corners[c - 1].cost + Money{1e-6});
    LinearProgram moved = formulation.program;
    for (int i = 0; i < moved.row_count(); ++i) {
      if (moved.rows()[static_cast<std::size_t>(i)].name != row.id) continue;
      moved.set_row_bounds(i, -unlimited, found.corners[c].bound);
    }
    RC_ASSERT(std::abs(solve(moved).cost - found.corners[c].cost.in_units()) < 1e-5);
  }
}

}  // namespace
}  // namespace haymow::frontier_test
