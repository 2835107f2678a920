#include "scenarios/season.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <numeric>
#include <stdexcept>
#include <string>

namespace haymow::season_test {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::SizeIs;

// A yard with what a test adds: keys of the file, horses, terms of the hay.
Scenario yard(const std::string& keys, const std::string& horses, const std::string& hay = "") {
  return read_scenario("money: GBP\n" + keys + "horses:\n" + horses +
                           "forage:\n"
                           "  - {feed: 'meadow hay, late cut', name: hay, price: 5 per 20 kg bale" +
                           hay +
                           "}\n"
                           "market:\n"
                           "  - {feed: balancer pellet, price: 28 per 20 kg bag}\n"
                           "  - {feed: salt, price: 11 per 25 kg bag}\n",
                       "yard.yaml");
}

const std::string winter = "season: {from: 2026-11-01, until: 2027-04-20}\n";
const std::string cob = "  - {name: Cob, bodyweight: 500 kg, work: light}\n";

TEST(SeasonWeeks, AreSevenDaysAndTheLastIsShorter) {
  const auto weeks = weeks_of({2026, 11, 1}, {2027, 4, 20});
  // 30 + 31 + 31 + 28 + 31 + 20 = 171 days.
  ASSERT_THAT(weeks, SizeIs(25));
  EXPECT_EQ(weeks.back().first_day, 168);
  EXPECT_EQ(weeks.back().days, 3);
  EXPECT_EQ(weeks[0].month, 0u);
  EXPECT_EQ(weeks[4].month, 0u);  // from 29 November
  EXPECT_EQ(weeks[5].month, 1u);  // from 6 December
  EXPECT_EQ(weeks.back().month, 5u);
}

TEST(SeasonWeeks, KnowTheLeapDay) {
  const Date from{2028, 2, 20};
  const auto weeks = weeks_of(from, {2028, 3, 5});
  int days = 0;
  for (const SeasonWeek& week : weeks) days += week.days;
  EXPECT_EQ(days, 15);  // ten in February 2028, five in March
  // From 27 February: 27, 28, 29, then four of March.
  EXPECT_THAT(days_by_month(from, weeks[1], 2), ElementsAre(3, 4));
  // In 2027 the same week has one day fewer of February.
  EXPECT_THAT(days_by_month({2027, 2, 20}, weeks[1], 2), ElementsAre(2, 5));
}

TEST(SeasonWeeks, OneDayIsAWeekOfOneDay) {
  const auto weeks = weeks_of({2026, 12, 31}, {2026, 12, 31});
  ASSERT_THAT(weeks, SizeIs(1));
  EXPECT_EQ(weeks[0].days, 1);
}

TEST(SeasonQuestion, CountsMonthsOverTheTurnOfTheYear) {
  const SeasonQuestion season = season_question(yard(winter, cob));
  EXPECT_THAT(season.months,
              ElementsAre("2026-11", "2026-12", "2027-01", "2027-02", "2027-03", "2027-04"));
}

TEST(SeasonQuestion, AsksEachRationOnce) {
  const SeasonQuestion season =
      season_question(yard(winter, cob + "  - {name: Twin, bodyweight: 500 kg, work: light}\n" +
                                       "  - {name: Heavy, bodyweight: 620 kg, work: light}\n"));
  EXPECT_THAT(season.rations, SizeIs(2));
  EXPECT_EQ(season.horses[0].ration_of_week, season.horses[1].ration_of_week);
  EXPECT_NE(season.horses[0].ration_of_week, season.horses[2].ration_of_week);
  EXPECT_THAT(season.horses[0].ration_of_week, SizeIs(season.weeks.size()));
}

// A week is fed by its middle day: work from Monday 1 February counts for the week of
// 31 January to 6 February, whose middle is the third.
TEST(SeasonQuestion, WorkChangesWithTheWeekThatHasMostOfIt) {
  const SeasonQuestion season = season_question(
      yard(winter,
           "  - {name: Cob, bodyweight: 500 kg, work: light, calendar: [{from: 2027-02-01, work: "
           "heavy}]}\n"));
  const auto& rations = season.horses[0].ration_of_week;
  ASSERT_THAT(season.rations, SizeIs(2));
  EXPECT_EQ(season.weeks[13].first_day, 91);  // 31 January
  EXPECT_EQ(rations[12], 0u);
  EXPECT_EQ(rations[13], 1u);
  EXPECT_GT(*season.rations[1].needs.rows.front().floor,
            1.2 * *season.rations[0].needs.rows.front().floor);
}

TEST(SeasonQuestion, MareGoesFromFoalToMilk) {
  const SeasonQuestion season =
      season_question(yard(winter, "  - {name: Fern, bodyweight: 560 kg, foaling: 2027-03-14}\n"));
  const auto stage = [&](std::size_t week) {
    return describe(season.rations[season.horses[0].ration_of_week[week]].horse.stage);
  };
  EXPECT_THAT(stage(0), HasSubstr("month 7"));
  EXPECT_THAT(stage(18), HasSubstr("month 11"));  // 7 to 13 March
  EXPECT_THAT(stage(19), HasSubstr("milk"));      // from 14 March
  EXPECT_THAT(stage(24), HasSubstr("month 2"));
}

TEST(SeasonQuestion, YoungsterGrowsEveryFourWeeks) {
  const SeasonQuestion season = season_question(
      yard(winter, "  - {name: Colt, bodyweight: 240 kg, age: 7 months, mature weight: 520 kg}\n"));
  EXPECT_THAT(season.rations, SizeIs(7));
  for (std::size_t r = 1; r < season.rations.size(); ++r) {
    EXPECT_GT(season.rations[r].horse.bodyweight, season.rations[r - 1].horse.bodyweight);
  }
}

TEST(SeasonQuestion, TakesTheColdOfTheMonth) {
  const Scenario scenario =
      yard(winter + "climate: {november to december: 4 C, january: -6 C, february to april: 5 C}\n",
           "  - {name: Clipped, bodyweight: 500 kg, work: light, cold: {critical: 2 C}}\n" + cob);
  const SeasonQuestion season = season_question(scenario);
  EXPECT_THAT(season.rations, SizeIs(2));  // Clipped in January; both at other times
  const auto energy = [&](std::size_t week) {
    return *season.rations[season.horses[0].ration_of_week[week]]
                .needs.find(Nutrient::energy)
                ->floor;
  };
  EXPECT_GT(energy(10), energy(0));  // from 10 January
  EXPECT_EQ(energy(20), energy(0));
}

TEST(SeasonQuestion, PricesAreThoseOfTheDayTheOrderComes) {
  const SeasonQuestion season = season_question(
      yard(winter, cob, ", prices: {november: 4 per bale, january to march: 6 per bale}"));
  const auto& prices = season.supply[0].price_per_kg;
  EXPECT_DOUBLE_EQ(prices[4].in_units(), 4.0 / 20.0);   // 29 November
  EXPECT_DOUBLE_EQ(prices[5].in_units(), 5.0 / 20.0);   // 6 December: `price`
  EXPECT_DOUBLE_EQ(prices[10].in_units(), 6.0 / 20.0);  // 10 January
  EXPECT_EQ(season.supply[0].pack, KgAsFed{20.0});
  EXPECT_EQ(season.supply[0].pack_name, "bale");
}

TEST(SeasonQuestion, CheaperByTheOrderIsSoMuchLess) {
  const SeasonQuestion season =
      season_question(yard(winter, cob, ", cheaper from: {100 bales: 4.60 per bale}"));
  ASSERT_THAT(season.supply[0].cheaper, SizeIs(1));
  EXPECT_EQ(season.supply[0].cheaper[0].from, KgAsFed{2000.0});
  EXPECT_NEAR(season.supply[0].cheaper[0].less_per_kg.in_units(), 0.02, 1e-12);
}

TEST(SeasonQuestion, WhatIsOnHandIsNotBoughtUnlessTold) {
  const SeasonQuestion only = season_question(yard(winter, cob, ", on hand: 100 bales"));
  EXPECT_FALSE(only.supply[0].can_be_bought);
  EXPECT_EQ(only.offers[0].on_hand, KgAsFed{2000.0});

  const Scenario scenario = yard(winter, cob, ", on hand: 100 bales, can be had: 50 bales");
  const SeasonQuestion more = season_question(scenario);
  EXPECT_TRUE(more.supply[0].can_be_bought);
  EXPECT_EQ(more.supply[0].can_be_had, KgAsFed{1000.0});
  EXPECT_EQ(more.offers[0].on_hand, KgAsFed{2000.0});
  // One ration for the whole season may use both.
  EXPECT_EQ(scenario.stable.offers[0].on_hand, KgAsFed{3000.0});
}

TEST(SeasonQuestion, StoresMeasureBalesByTheirSize) {
  const Scenario scenario =
      yard(winter + "stores: [{name: Barn, room: 100 small bales}]\n", cob, ", kept in: barn");
  const SeasonQuestion season = season_question(scenario);
  EXPECT_NEAR(*season.stores[0].room_cubic_metres, 12.0, 1e-9);
  ASSERT_TRUE(season.supply[0].store);
  // 100 x 40 x 30 cm for a bale of 20 kg.
  EXPECT_NEAR(season.supply[0].cubic_metres_per_kg, 0.12 / 20.0, 1e-12);
}

TEST(SeasonQuestion, BudgetIsOneAMonthOfTheSeason) {
  const SeasonQuestion season =
      season_question(yard(winter + "budget: {november: 900, march: 300}\n", cob));
  ASSERT_THAT(season.budget, SizeIs(6));
  EXPECT_EQ(season.budget[0], Money{900.0});
  EXPECT_FALSE(season.budget[1]);
  EXPECT_EQ(season.budget[4], Money{300.0});
  EXPECT_TRUE(season_question(yard(winter, cob)).budget.empty());
}

TEST(SeasonQuestion, TellsWhomItLeavesOut) {
  const Scenario scenario =
      yard(winter, cob + "  - {name: Wisp, bodyweight: 480 kg, work: none, health: [colic]}\n");
  EXPECT_THAT(season_question(scenario).horses, SizeIs(1));
  EXPECT_THAT(refused_horses(scenario), ElementsAre(1u));
}

TEST(SeasonQuestion, NeedsASeason) {
  EXPECT_THROW((void)season_question(yard("", cob)), std::invalid_argument);
}

TEST(SeasonAssumptions, SayWhenAMareIsExpectedToFoal) {
  const Scenario scenario =
      yard(winter, "  - {name: Fern, bodyweight: 560 kg, pregnant: month 9}\n" + cob);
  const auto told = season_assumptions(scenario);
  ASSERT_THAT(told, SizeIs(1));
  // 340 days less eight months of 30.4 days, rounded up: day 96.
  EXPECT_THAT(told[0], HasSubstr("2027-02-05"));
}

}  // namespace
}  // namespace haymow::season_test
