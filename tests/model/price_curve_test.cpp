#include "model/price_curve.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include <stdexcept>

#include "solver/solve.h"
#include "tests/model/any_stable.h"
#include "tests/model/hand_made.h"

namespace haymow::price_curve_test {
namespace {

using hand_made::feed_of;
using hand_made::need_of;
using hand_made::offer_of;
using hand_made::question_of;

// 96 MJ from hay (8 MJ a kg) or beet pulp (12 MJ at 0.36 a kg, so 0.03 a MJ): hay as
// long as it costs at most 0.24 a kg eaten.
RationQuestion hay_or_beet(double waste = 0.0) {
  return question_of(
      500.0,
      {offer_of(feed_of("hay", FeedGroup::hay, 1000, {{Nutrient::energy, 8.0}}), 0.2, waste),
       offer_of(feed_of("beet", FeedGroup::fibre, 1000, {{Nutrient::energy, 12.0}}), 0.36)},
      {need_of(Nutrient::energy, 96.0)});
}

TEST(PriceCurve, ChangesWhereTheOtherFeedIsAsCheap) {
  const RationQuestion question = hay_or_beet();
  const auto steps = price_curve(question, formulate(question), 0, Money{0.1}, Money{0.5});
  ASSERT_EQ(steps.size(), 2U);
  EXPECT_EQ(steps[0].from, Money{0.1});
  EXPECT_NEAR(steps[0].to.in_units(), 0.24, 1e-9);
  EXPECT_EQ(steps[1].to, Money{0.5});
  EXPECT_NEAR(steps[0].amounts[0], 12.0, 1e-9);
  EXPECT_NEAR(steps[1].amounts[1], 8.0, 1e-9);
  EXPECT_NEAR(steps[0].cost_from.in_units(), 1.2, 1e-9);
  EXPECT_NEAR(steps[0].cost_to.in_units(), 2.88, 1e-9);
  EXPECT_NEAR(steps[1].cost_to.in_units(), 2.88, 1e-9);
}

TEST(PriceCurve, IsInPricesAsBought) {
  // A fifth is wasted: 0.24 a kg eaten is 0.192 as bought, less 0.03 of delivery.
  RationQuestion question = hay_or_beet(0.2);
  question.offers[0].delivery_per_kg = Money{0.03};
  const auto steps = price_curve(question, formulate(question), 0, Money{0.0}, Money{0.5});
  ASSERT_EQ(steps.size(), 2U);
  EXPECT_NEAR(steps[0].to.in_units(), 0.162, 1e-9);
}

TEST(PriceCurve, RefusesWhatIsNotOnOfferAndPricesOutOfOrder) {
  const RationQuestion question = hay_or_beet();
  const Formulation formulation = formulate(question);
  EXPECT_THROW((void)price_curve(question, formulation, 5, Money{0.1}, Money{0.2}),
               std::invalid_argument);
  EXPECT_THROW((void)price_curve(question, formulation, 0, Money{0.3}, Money{0.2}),
               std::invalid_argument);
}

// In any stable: less of a feed at a higher price, no jump in the cost, and the cost
// is that of solving with the price set.
RC_GTEST_PROP(PriceCurve, FallsWithThePriceAndCostsWhatSolvingSays, ()) {
  RationQuestion question = any_stable::question();
  const Formulation formulation = formulate(question);
  RC_PRE(solve(formulation.program).status == Status::optimal);
  const auto offer =
      static_cast<std::size_t>(*rc::gen::inRange(0, static_cast<int>(question.offers.size())));
  const auto steps = price_curve(question, formulation, offer, Money{0.0}, Money{2.0});
  RC_ASSERT(!steps.empty());
  for (std::size_t s = 0; s < steps.size(); ++s) {
    if (s > 0) {
      RC_ASSERT(steps[s].amounts[offer] <= steps[s - 1].amounts[offer] + 1e-6);
      RC_ASSERT(std::abs((steps[s].cost_from - steps[s - 1].cost_to).in_units()) < 1e-5);
    }
  }
  const PriceStep& step = steps[steps.size() / 2];
  question.offers[offer].price_per_kg = 0.5 * (step.from + step.to);
  const double cost = solve(formulate(question).program).cost;
  RC_ASSERT(std::abs(cost - 0.5 * (step.cost_from + step.cost_to).in_units()) < 1e-5);
}

}  // namespace
}  // namespace haymow::price_curve_test
