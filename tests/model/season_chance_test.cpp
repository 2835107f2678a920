// Seasons known as ranges, on yards of one feed whose cost is known on paper: a horse eats
// ten kilograms a day of hay at 1 a kilogram.
#include "model/season_chance.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <stdexcept>

#include "tests/model/hand_yard.h"

namespace haymow::season_chance_test {
namespace {

using namespace hand_made;

SeasonQuestion of_days(const DrawnSeason& drawn) {
  return yard_of(1, 10.0, 56 + drawn.days_more, {fed("hay")});
}

FeedRanges of_price(const Triangle& shares) { return {shares, {}, {}, {}}; }
FeedRanges of_bale(const Triangle& shares) { return {{}, shares, {}, {}}; }

/// What is bought of the one feed, counted as told.
QuantileTold order_kg(const SeasonChances& chances, double p) {
  std::vector<double> kg;
  for (const SeasonDraw& draw : chances.draws) kg.push_back(draw.bought_as_told_kg.at(0));
  return quantile_told(kg, p);
}

void expect_holds(const QuantileTold& told, double truth) {
  ASSERT_TRUE(told.low && told.high);
  EXPECT_LE(*told.low, truth);
  EXPECT_GE(*told.high, truth);
}

TEST(SeasonChance, OfAPriceIsThatOfThePriceTimesWhatIsEaten) {
  SeasonDoubt doubt;
  const Triangle price{0.9, 1.0, 1.5};
  doubt.feeds = {{0, of_price(price)}};
  doubt.draws = 120;
  const SeasonChances chances = season_chances(of_days, doubt);
  ASSERT_TRUE(chances.all_done());
  EXPECT_EQ(chances.count_of(SeasonStatus::found), 120);
  for (const double p : {0.5, 0.9}) {
    expect_holds(chances.cost(p), 560.0 * triangular_quantile(price, p));
  }
  // Whatever it costs, it is eaten.
  EXPECT_NEAR(*order_kg(chances, 0.9).value, 560.0, 1e-6);
}

TEST(SeasonChance, OfTheEndIsThatOfTheDays) {
  SeasonDoubt doubt;
  doubt.days_more = Triangle{-10.0, 0.0, 30.0};
  doubt.draws = 120;
  const SeasonChances chances = season_chances(of_days, doubt);
  const double days = 56.0 + triangular_quantile(*doubt.days_more, 0.9);
  // Half a day to either side, since seasons are whole days long.
  const QuantileTold cost = chances.cost(0.9);
  ASSERT_TRUE(cost.low && cost.high);
  EXPECT_LE(*cost.low - 5.0, 10.0 * days);
  EXPECT_GE(*cost.high + 5.0, 10.0 * days);
  EXPECT_EQ(cost.value, order_kg(chances, 0.9).value);
}

TEST(SeasonChance, OfLighterBalesTakesMoreOfThemAtThePriceOfABale) {
  SeasonDoubt doubt;
  const Triangle weight{0.8, 0.9, 1.0};
  doubt.feeds = {{0, of_bale(weight)}};
  doubt.draws = 120;
  const SeasonChances chances = season_chances(of_days, doubt);
  // 560 kg are eaten; counted as told they are 560 over the share, dearest at the lightest.
  expect_holds(order_kg(chances, 0.9), 560.0 / triangular_quantile(weight, 0.1));
  expect_holds(chances.cost(0.9), 560.0 / triangular_quantile(weight, 0.1));
  for (const SeasonDraw& draw : chances.draws) EXPECT_NEAR(draw.bought_kg[0], 560.0, 1e-6);
}

TEST(SeasonChance, OfPoorerHayIsMoreOfIt) {
  // As much energy is needed whatever is in a kilogram.
  SeasonDoubt doubt;
  const Triangle energy{0.8, 1.0, 1.1};
  doubt.feeds = {{0, {{}, {}, energy, {}}}};
  doubt.draws = 120;
  const auto season = [](const DrawnSeason& drawn) {
    Offer hay = fed("hay");
    hay.feed = with_quality(hay.feed, drawn.feeds[0].energy, drawn.feeds[0].crude_protein);
    return yard_of(1, 10.0, 56, {hay});
  };
  const SeasonChances chances = season_chances(season, doubt);
  ASSERT_TRUE(chances.all_done());
  expect_holds(chances.cost(0.9), 560.0 / triangular_quantile(energy, 0.1));
  expect_holds(chances.cost(0.5), 560.0 / triangular_quantile(energy, 0.5));
}

TEST(SeasonChance, ProteinTakesItsLysineAlongAndNothingElse) {
  const Feed hay = feed_of("hay", FeedGroup::hay, 860.0,
                           {{Nutrient::energy, 8.0},
                            {Nutrient::crude_protein, 100.0},
                            {Nutrient::lysine, 4.0},
                            {Nutrient::calcium, 4.0}});
  const Feed poorer = with_quality(hay, 0.9, 0.8);
  EXPECT_NEAR(poorer.composition[Nutrient::energy]->value, 7.2, 1e-12);
  EXPECT_NEAR(poorer.composition[Nutrient::crude_protein]->value, 80.0, 1e-12);
  EXPECT_NEAR(poorer.composition[Nutrient::lysine]->value, 3.2, 1e-12);
  EXPECT_EQ(poorer.composition[Nutrient::calcium]->value, 4.0);
  EXPECT_FALSE(with_quality(Feed{}, 0.9, 0.8).composition[Nutrient::energy]);
}

TEST(SeasonChance, ADrawWithoutAPlanIsCountedAndNotDropped) {
  // 560 kg are needed, and the bales on hand weigh that or less.
  SeasonDoubt doubt;
  doubt.feeds = {{0, of_bale({0.9, 1.0, 1.1})}};
  doubt.draws = 80;
  const auto season = [](const DrawnSeason&) {
    Offer hay = fed("hay");
    hay.on_hand = KgAsFed{560.0};
    return yard_of(1, 10.0, 56, {hay});
  };
  const SeasonChances chances = season_chances(season, doubt);
  ASSERT_EQ(chances.draws.size(), 80U);
  const auto first = std::find_if(chances.draws.begin(), chances.draws.end(),
                                  [](const auto& d) { return d.status == SeasonStatus::none; });
  ASSERT_NE(first, chances.draws.end());
  ASSERT_TRUE(first->failure);
  EXPECT_FALSE(first->failure->misses.empty());
  const int none = chances.count_of(SeasonStatus::none);
  // A half, give or take three standard deviations of such a count.
  EXPECT_GT(none, 40 - 14);
  EXPECT_LT(none, 40 + 14);
  EXPECT_EQ(none + chances.count_of(SeasonStatus::found), 80);
  EXPECT_FALSE(chances.cost(0.9).value);
}

TEST(SeasonChance, TheSameSeedDrawsTheSameAndFewerDrawsAreTheFirstOfMore) {
  SeasonDoubt doubt;
  doubt.days_more = Triangle{0.0, 5.0, 20.0};
  doubt.feeds = {{0, of_price({0.9, 1.0, 1.5})}};
  doubt.draws = 12;
  const SeasonChances once = season_chances(of_days, doubt);
  const SeasonChances again = season_chances(of_days, doubt);
  doubt.draws = 6;
  const SeasonChances fewer = season_chances(of_days, doubt);
  doubt.seed = 2;
  const SeasonChances other = season_chances(of_days, doubt);
  for (std::size_t i = 0; i < 12; ++i) EXPECT_EQ(once.draws[i].cost, again.draws[i].cost);
  for (std::size_t i = 0; i < 6; ++i) EXPECT_EQ(once.draws[i].cost, fewer.draws[i].cost);
  EXPECT_NE(once.draws[0].cost, other.draws[0].cost);
}

TEST(SeasonChance, StoppedKeepsTheDrawsThatAreFinished) {
  SeasonDoubt doubt;
  doubt.feeds = {{0, of_price({0.9, 1.0, 1.5})}};
  doubt.draws = 100;
  int asked = 0;
  const auto season = [&asked](const DrawnSeason& drawn) {
    ++asked;
    return of_days(drawn);
  };
  SeasonOptions options;
  options.watch.stop = [&asked] { return asked > 5; };
  const SeasonChances chances = season_chances(season, doubt, options);
  EXPECT_FALSE(chances.all_done());
  EXPECT_EQ(chances.draws.size(), 5U);
  EXPECT_EQ(chances.count_of(SeasonStatus::found), 5);
}

TEST(SeasonChance, RefusesAPriceOfNothing) {
  SeasonDoubt doubt;
  doubt.feeds = {{0, of_price({0.0, 1.0, 1.5})}};
  EXPECT_THROW((void)season_chances(of_days, doubt), std::invalid_argument);
}

}  // namespace
}  // namespace haymow::season_chance_test
