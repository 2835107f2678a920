// The order that is enough in nine draws of ten, of draws made by hand: what each bought is
// written down, and the yard eats 560 kg whatever was bought.
#include "model/season_enough.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "tests/model/hand_yard.h"

namespace haymow::season_enough_test {
namespace {

using namespace hand_made;

constexpr double a_minute = 60.0;

SeasonDraw draw_that_bought(std::vector<double> kg) {
  SeasonDraw draw;
  draw.status = SeasonStatus::found;
  draw.bought_kg = draw.bought_as_told_kg = std::move(kg);
  return draw;
}

SeasonDraw draw_without_a_plan() {
  SeasonDraw draw;
  draw.status = SeasonStatus::none;
  return draw;
}

SeasonQuestion of_one_feed() { return yard_of(1, 10.0, 56, {fed("hay")}); }
SeasonQuestion of_two_feeds() { return yard_of(1, 10.0, 56, {fed("hay"), fed("haylage")}); }

std::optional<EnoughOrder> enough(const SeasonQuestion& yard, const std::vector<SeasonDraw>& draws,
                                  double seconds = a_minute) {
  return order_enough(
      yard, [&](const DrawnSeason&) { return yard; }, draws, SeasonClock(seconds));
}

std::vector<SeasonDraw> rising_from_100_by_100() {
  std::vector<SeasonDraw> draws;
  for (int i = 10; i > 0; --i) draws.push_back(draw_that_bought({100.0 * i}));
  return draws;
}

TEST(SeasonEnough, OfOneFeedIsTheNinthOfTen) {
  const auto order = enough(of_one_feed(), rising_from_100_by_100());
  ASSERT_TRUE(order);
  EXPECT_EQ(order->as_told.at(0).kg, 900.0);
  EXPECT_FALSE(order->as_told.at(0).packs);
  EXPECT_EQ(order->winters_each, 9);
  EXPECT_EQ(order->winters_all, 9);
}

TEST(SeasonEnough, IsInWholePacksAndNoLessThanIsSold) {
  SeasonQuestion yard = of_one_feed();
  yard.supply[0].pack = KgAsFed{250.0};
  EXPECT_EQ(enough(yard, rising_from_100_by_100())->as_told.at(0).packs, 4);
  yard.supply[0].least_order = KgAsFed{1200.0};
  EXPECT_EQ(enough(yard, rising_from_100_by_100())->as_told.at(0).kg, 1250.0);
  // Nothing needed is nothing ordered, however much is the least that is sold.
  const std::vector<SeasonDraw> none(10, draw_that_bought({0.0}));
  EXPECT_EQ(enough(yard, none)->as_told.at(0).kg, 0.0);
}

TEST(SeasonEnough, ADrawWithoutAPlanTakesMoreThanAnyOrder) {
  auto draws = rising_from_100_by_100();
  draws.front() = draw_without_a_plan();  // in place of 1000
  EXPECT_EQ(enough(of_one_feed(), draws)->as_told.at(0).kg, 900.0);
  draws.back() = draw_without_a_plan();
  EXPECT_FALSE(enough(of_one_feed(), draws));
  EXPECT_FALSE(enough(of_one_feed(), {}));
}

// Nine draws bought nothing but the first feed, or nothing but the second, and one more of
// each: the ninth of ten is 560 of each.
std::vector<SeasonDraw> one_feed_or_the_other() {
  std::vector<SeasonDraw> draws(4, draw_that_bought({560.0, 0.0}));
  draws.resize(8, draw_that_bought({0.0, 560.0}));
  draws.push_back(draw_that_bought({700.0, 0.0}));
  draws.push_back(draw_that_bought({0.0, 700.0}));
  return draws;
}

TEST(SeasonEnough, ADrawIsFedByWhatStandsInForWhatItBought) {
  const auto order = enough(of_two_feeds(), one_feed_or_the_other());
  ASSERT_TRUE(order);
  EXPECT_EQ(order->as_told.at(0).kg, 560.0);
  EXPECT_EQ(order->as_told.at(1).kg, 560.0);
  EXPECT_GE(order->winters_all, 9);
}

TEST(SeasonEnough, IsLargerWhereNoTimeIsLeftToPlanAgain) {
  const auto order = enough(of_two_feeds(), one_feed_or_the_other(), 0.0);
  ASSERT_TRUE(order);
  EXPECT_EQ(order->winters_each, 10);
  EXPECT_EQ(order->as_told.at(0).kg, 700.0);
  EXPECT_EQ(order->as_told.at(1).kg, 700.0);
  EXPECT_EQ(order->winters_all, 10);
}

TEST(SeasonEnough, IsLargerWhereWhatIsBoughtDoesNotStandIn) {
  // One has all the energy and the other all the protein: 560 kg of each are needed.
  const auto hay = feed_of("hay", FeedGroup::hay, 1000.0,
                           {{Nutrient::energy, 10.0}, {Nutrient::crude_protein, 0.0}});
  const auto meal = feed_of("meal", FeedGroup::hay, 1000.0,
                            {{Nutrient::energy, 0.0}, {Nutrient::crude_protein, 10.0}});
  SeasonQuestion yard = empty_yard(56, {offer_of(hay, 1.0), offer_of(meal, 1.0)});
  yard.rations.push_back(question_of(
      500.0, yard.offers,
      {exactly_of(Nutrient::energy, 100.0), exactly_of(Nutrient::crude_protein, 100.0)}));
  add_horse(yard, "horse", 0);
  // Nine of ten bought no more than 500 of each, but not the same nine.
  std::vector<SeasonDraw> draws(8, draw_that_bought({500.0, 500.0}));
  draws.push_back(draw_that_bought({560.0, 500.0}));
  draws.push_back(draw_that_bought({500.0, 560.0}));
  const auto order = enough(yard, draws);
  ASSERT_TRUE(order);
  EXPECT_EQ(order->winters_each, 10);
  EXPECT_EQ(order->as_told.at(0).kg, 560.0);
}

}  // namespace
}  // namespace haymow::season_enough_test
