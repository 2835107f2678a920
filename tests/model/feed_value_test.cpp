#include "model/feed_value.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <stdexcept>

#include "solver/solve.h"
#include "tests/model/any_stable.h"
#include "tests/model/hand_made.h"

namespace haymow::feed_value_test {
namespace {

using hand_made::feed_of;
using hand_made::need_of;
using hand_made::offer_of;
using hand_made::question_of;

Feed feed_with(const char* name, FeedGroup group, double energy, double protein = 0.0) {
  return feed_of(name, group, 1000,
                 {{Nutrient::energy, energy}, {Nutrient::crude_protein, protein}});
}

// 96 MJ from hay at 0.2 a kg (8 MJ, so 0.025 an MJ) or beet (12 MJ at 0.36).
RationQuestion hay_and_beet(double waste = 0.0) {
  return question_of(500.0,
                     {offer_of(feed_with("hay", FeedGroup::hay, 8.0), 0.20),
                      offer_of(feed_with("beet", FeedGroup::fibre, 12.0), 0.36, waste)},
                     {need_of(Nutrient::energy, 96.0)});
}

FeedValue value_of(const RationQuestion& question, std::size_t offer) {
  return feed_value(question, formulate(question), offer).value();
}

TEST(FeedValue, IsWhatItsMegajoulesCostOtherwise) {
  // 12 MJ x 0.025 = 0.30 a kg; it takes the place of 1.5 kg of hay.
  const FeedValue beet = value_of(hay_and_beet(), 1);
  EXPECT_EQ(beet.use, FeedUse::up_to_a_price);
  EXPECT_NEAR(beet.fed_below.in_units(), 0.30, 1e-6);
  ASSERT_EQ(beet.makes_way.size(), 1U);
  EXPECT_EQ(beet.makes_way[0].offer, 0U);
  EXPECT_NEAR(beet.makes_way[0].by.in_kg(), -1.5, 1e-6);
  ASSERT_EQ(beet.payments.size(), 1U);
  EXPECT_NEAR(beet.payments[0].per_kg, 0.30, 1e-4);
}

TEST(FeedValue, OfWhatIsFedIsThePriceAtWhichItLeaves) {
  // Hay is fed as long as its MJ costs no more than that of beet: 8 x 0.03.
  EXPECT_NEAR(value_of(hay_and_beet(), 0).fed_below.in_units(), 0.24, 1e-6);
}

TEST(FeedValue, IsAPriceAsBought) {
  RationQuestion question = hay_and_beet(0.2);
  question.offers[1].delivery_per_kg = Money{0.04};
  EXPECT_NEAR(value_of(question, 1).fed_below.in_units(), 0.30 * 0.8 - 0.04, 1e-6);
}

TEST(FeedValue, DoesNotDependOnThePriceNow) {
  RationQuestion question = hay_and_beet();
  for (const double price : {0.0, 0.30, 5.0}) {
    question.offers[1].price_per_kg = Money{price};
    EXPECT_NEAR(value_of(question, 1).fed_below.in_units(), 0.30, 1e-6) << price;
  }
}

TEST(FeedValue, IsEndlessWhereNoRationDoesWithout) {
  RationQuestion question = hay_and_beet();
  question.horse.wishes.push_back({WishKind::at_least, "beet", KgAsFed{1.0}, {}});
  EXPECT_EQ(value_of(question, 1).use, FeedUse::at_any_price);
}

TEST(FeedValue, IsNothingWhereTheKeeperWantsNoneOrNothingInItIsShort) {
  RationQuestion question = hay_and_beet();
  question.horse.wishes.push_back({WishKind::none, "beet", KgAsFed{}, {}});
  EXPECT_EQ(value_of(question, 1).use, FeedUse::at_no_price);
  question = hay_and_beet();
  question.offers.push_back(offer_of(feed_with("chalk", FeedGroup::mineral, 0.0), 0.1));
  EXPECT_EQ(value_of(question, 2).use, FeedUse::at_no_price);
}

TEST(FeedValue, IsAbsentWhereThereIsNoRationAtAll) {
  RationQuestion question = hay_and_beet();
  question.horse.wishes.push_back({WishKind::at_most, "hay", KgAsFed{1.0}, {}});
  question.horse.wishes.push_back({WishKind::at_most, "beet", KgAsFed{1.0}, {}});
  EXPECT_FALSE(feed_value(question, formulate(question), 0));
  EXPECT_THROW((void)feed_value(question, formulate(question), 9), std::invalid_argument);
}

// Energy and protein are met together by hay alone: the prices of the two are not unique
// there, and only the one-sided price of the new feed is. Feed P has 200 g of protein
// and no energy: no less hay can be fed for it, so it is worth nothing.
TEST(FeedValue, IsOneSidedWhereTwoNeedsAreMetAtOnce) {
  RationQuestion question =
      question_of(500.0, {offer_of(feed_with("hay", FeedGroup::hay, 8.0, 100.0), 0.20)},
                  {need_of(Nutrient::energy, 80.0), need_of(Nutrient::crude_protein, 1000.0)});
  const RationQuestion p = with_supposed(question, feed_with("p", FeedGroup::protein, 0.0, 200.0));
  EXPECT_EQ(value_of(p, 1).use, FeedUse::at_no_price);
  // Both: 16 MJ and 200 g are 2 kg of hay, 0.40. Of 16 MJ and 100 g, the 100 g bind: 0.20.
  const auto worth_of = [&](double energy, double protein) {
    const Feed q = feed_with("q", FeedGroup::compound, energy, protein);
    return value_of(with_supposed(question, q), 1).fed_below.in_units();
  };
  EXPECT_NEAR(worth_of(16.0, 200.0), 0.40, 1e-6);
  EXPECT_NEAR(worth_of(16.0, 100.0), 0.20, 1e-6);
}

TEST(FeedValue, OfASupposedFeedLeavesTheQuestionsShares) {
  RationQuestion question = hay_and_beet();
  question.stock_a_day = {KgAsFed{20.0}, std::nullopt};
  const RationQuestion with = with_supposed(question, feed_with("q", FeedGroup::cereal, 12.0));
  EXPECT_EQ(with.offers.size(), 3U);
  EXPECT_EQ(with.stock_a_day.size(), 3U);
  EXPECT_EQ(with.stock_a_day[0], KgAsFed{20.0});
  EXPECT_NEAR(value_of(with, 2).fed_below.in_units(), 0.30, 1e-6);
}

// In any stable: solved again at a price a little lower the feed is fed or saves money,
// at a price a little higher it is not; and the payments add up to the price.
RC_GTEST_PROP(FeedValue, IsThePriceBelowWhichItSavesMoney, ()) {
  RationQuestion question = any_stable::question();
  const Formulation formulation = formulate(question);
  const Solution now = solve(formulation.program);
  RC_PRE(now.status == Status::optimal);
  const auto j =
      static_cast<std::size_t>(*rc::gen::inRange(0, static_cast<int>(question.offers.size())));
  const FeedValue value = feed_value(question, formulation, j).value();
  LinearProgram without = formulation.program;
  without.set_column_bounds(static_cast<int>(j), 0.0, 0.0);
  const Solution out = solve(without);
  RC_ASSERT((value.use == FeedUse::at_any_price) == (out.status == Status::infeasible));
  if (value.use == FeedUse::at_any_price) return;
  const auto cost_at = [&](Money price) {
    question.offers[j].price_per_kg = price;
    return solve(formulate(question).program).cost;
  };
  const Money price = value.fed_below;
  RC_ASSERT(std::abs(cost_at(price + Money{1e-4}) - out.cost) < 1e-6);
  if (value.use == FeedUse::at_no_price) return;
  const Money lower = price - std::min(0.5 * price, Money{0.02});
  RC_ASSERT(cost_at(lower) < out.cost + 1e-9);
  question.offers[j].price_per_kg = lower;
  RC_ASSERT(solve(formulate(question).program).columns[j] > 0.0);
  double paid = 0.0;
  for (const Payment& p : value.payments) paid += p.per_kg;
  question.offers[j].price_per_kg = price;
  RC_ASSERT(std::abs(paid - question.offers[j].cost_per_kg_eaten().in_units()) <
            1e-3 * std::max(0.01, paid));
}

}  // namespace
}  // namespace haymow::feed_value_test
