// Hay that is short, on yards that can be reckoned on paper: who gets it first, what it
// may cost, and what mends a season without a plan.
#include <gtest/gtest.h>

#include "model/season_mends.h"
#include "model/season_price.h"
#include "model/who_first.h"
#include "tests/model/hand_yard.h"

namespace haymow::season_short_test {
namespace {

using namespace hand_made;

Offer on_hand(Offer offer, double kg) {
  offer.on_hand = KgAsFed{kg};
  return offer;
}

TEST(WhoFirst, IsWhoCannotDoWithout) {
  // Only the own hay has protein, 100 g a kg; the mare needs 400 g a day.
  const Offer hay =
      on_hand(offer_of(feed_of("hay", FeedGroup::hay, 1000.0,
                               {{Nutrient::energy, 10.0}, {Nutrient::crude_protein, 100.0}}),
                       1.0, 0.2),
              900.0);
  SeasonQuestion yard = yard_of(1, 10.0, 70, {hay, fed("haylage", 2.0)});
  const std::size_t milk = add_ration(yard, 10.0);
  yard.rations[milk].needs.rows.push_back(need_of(Nutrient::crude_protein, 400.0));
  add_horse(yard, "mare", milk);
  const auto order = who_first(yard, 0);
  ASSERT_TRUE(order);
  ASSERT_EQ(order->size(), 2U);
  const WorthToHorse& mare = (*order)[0];
  EXPECT_EQ(mare.horse, 1U);
  // 4 kg eaten of 5 put out; 10 of 12.5 where it costs nothing.
  EXPECT_NEAR(mare.least_kg, 70 * 5.0, 1e-3);
  EXPECT_NEAR(mare.most_kg, 70 * 12.5, 1e-6);
  ASSERT_TRUE(mare.demand);
  EXPECT_EQ(mare.demand->id, "crude_protein/min");
  // Of a kilogram put out 0.8 are eaten, in place of as much haylage at 2.
  EXPECT_NEAR(mare.saves_per_kg->in_units(), 1.6, 1e-5);
  ASSERT_EQ(mare.instead.size(), 1U);
  EXPECT_EQ(mare.instead[0].offer, 1U);
  EXPECT_NEAR(mare.instead[0].kg, 6.0, 1e-5);
  EXPECT_NEAR((*order)[1].least_kg, 0.0, 1e-9);
  EXPECT_FALSE((*order)[1].demand);
}

TEST(WhoFirst, IsThenWhoSavesMostWithAKilogram) {
  // The second horse must not have the cheap haylage: a kilogram saves it 3, not 2.
  SeasonQuestion yard =
      yard_of(1, 10.0, 28, {on_hand(fed("hay"), 100.0), fed("haylage", 2.0), fed("cubes", 3.0)});
  const std::size_t choosy = add_ration(yard, 10.0);
  Horse& horse = yard.rations[choosy].horse;
  horse.wishes.push_back({WishKind::none, "haylage", KgAsFed{0.0}, {}});
  add_horse(yard, "choosy", choosy);
  const auto order = who_first(yard, 0);
  ASSERT_TRUE(order);
  EXPECT_EQ((*order)[0].horse, 1U);
  EXPECT_NEAR((*order)[0].saves_per_kg->in_units(), 3.0, 1e-6);
  EXPECT_NEAR((*order)[1].saves_per_kg->in_units(), 2.0, 1e-6);
}

TEST(WhoFirst, IsNotKnownForAHorseWithoutARation) {
  SeasonQuestion yard = yard_of(1, 10.0, 28, {fed("hay")});
  yard.rations[0].needs.rows.push_back(need_of(Nutrient::crude_protein, 100.0));
  EXPECT_FALSE(who_first(yard, 0));
}

TEST(BreakEvenPrice, IsThatOfTheSubstitute) {
  const SeasonQuestion yard = yard_of(1, 10.0, 70, {fed("hay", 1.0), fed("haylage", 1.5)});
  const auto price = break_even(yard, 0);
  ASSERT_TRUE(price);
  EXPECT_NEAR(price->bought_kg, 700.0, 1e-6);
  ASSERT_TRUE(price->dearer);
  EXPECT_NEAR(*price->dearer, 0.5, 1e-9);
  EXPECT_NEAR(price->below_kg, 700.0, 1e-6);
  EXPECT_NEAR(price->above_kg, 0.0, 1e-6);
  EXPECT_TRUE(price->below.holds());
  EXPECT_TRUE(price->above.holds());
  ASSERT_EQ(price->steps.size(), 2U);
  EXPECT_NEAR(price->steps[1].bought_kg, 0.0, 1e-6);
}

TEST(BreakEvenPrice, IsNoneWhereNothingTakesItsPlace) {
  const auto price = break_even(yard_of(1, 10.0, 70, {fed("hay", 1.0)}), 0);
  ASSERT_TRUE(price);
  EXPECT_FALSE(price->dearer);
  EXPECT_NEAR(price->above_kg, 700.0, 1e-6);
}

TEST(BreakEvenPrice, IsOfWhatIsBoughtOnly) {
  EXPECT_FALSE(break_even(yard_of(1, 10.0, 70, {fed("hay", 1.0), fed("haylage", 1.5)}), 1));
  EXPECT_FALSE(break_even(yard_of(1, 10.0, 70, {on_hand(fed("hay"), 800.0)}), 0));
}

TEST(SeasonMends, BuyWhatIsMissingByTheWeekThatFails) {
  SeasonQuestion yard = yard_of(1, 10.0, 70, {on_hand(fed("hay"), 250.0)});
  yard.supply[0].pack = KgAsFed{18.0};
  const auto failure = explain_season_failure(yard);
  ASSERT_TRUE(failure);
  const SeasonMends mends = season_mends(yard, *failure);
  ASSERT_EQ(mends.more_feed.size(), 1U);
  EXPECT_EQ(mends.more_feed[0].by_week, 3U);
  EXPECT_EQ(mends.more_feed[0].packs, 25);  // 450 kg
  EXPECT_NEAR(mends.more_feed[0].amount.in_kg(), 450.0, 1e-6);
  EXPECT_NEAR(mends.more_feed[0].cost.in_units(), 700.0, 1e-6);
  EXPECT_TRUE(mends.fewer.empty());  // the only horse stays
  // As said, it does: bought so much there is a plan, and with a kilogram less none.
  yard.supply[0].can_be_bought = true;
  yard.supply[0].can_be_had = KgAsFed{450.0};
  EXPECT_EQ(plan_season(yard).status, SeasonStatus::found);
  yard.supply[0].can_be_had = KgAsFed{449.0};
  EXPECT_EQ(plan_season(yard).status, SeasonStatus::none);
}

TEST(SeasonMends, SendAwayTheFewestHorses) {
  SeasonQuestion yard = yard_of(2, 10.0, 70, {on_hand(fed("hay"), 1500.0)});
  add_horse(yard, "small", add_ration(yard, 4.0));
  // 2 x 700 + 280 kg are needed and 1500 there: without the small one 1400, without a
  // large one 980.
  const auto failure = explain_season_failure(yard);
  ASSERT_TRUE(failure);
  const SeasonMends mends = season_mends(yard, *failure);
  ASSERT_EQ(mends.fewer.size(), 3U);
  EXPECT_NEAR(mends.fewer.front().cost.in_units(), 980.0, 1e-6);
  EXPECT_EQ(mends.fewer.back().horses, (std::vector<std::size_t>{2}));
  EXPECT_NEAR(mends.fewer.back().cost.in_units(), 1400.0, 1e-6);
}

TEST(SeasonMends, SendAwayTwoWhereOneIsNotEnough) {
  const SeasonQuestion yard = yard_of(3, 10.0, 70, {on_hand(fed("hay"), 800.0)});
  const auto failure = explain_season_failure(yard);
  ASSERT_TRUE(failure);
  const SeasonMends mends = season_mends(yard, *failure);
  ASSERT_EQ(mends.fewer.size(), 3U);
  EXPECT_EQ(mends.fewer.front().horses.size(), 2U);
}

}  // namespace
}  // namespace haymow::season_short_test
