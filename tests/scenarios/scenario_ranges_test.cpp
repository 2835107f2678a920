// What is only known as a range, as it is read and as it is drawn and told. What is wrong
// with a range is in mistakes/.
#include "scenarios/scenario_ranges.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

#include "scenarios/order_chances.h"
#include "scenarios/report_winter.h"
#include "scenarios/season_doubt.h"
#include "scenarios/winter_files.h"
#include "tests/scenarios/files.h"

namespace haymow::scenario_ranges_test {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::SizeIs;

/// Four weeks of one horse; `hay` are further keys of its hay, in lines of their own.
Scenario yard(const std::string& may_end, const std::string& hay) {
  return read_scenario(
      "money: GBP\n"
      "season: {from: 2027-11-15, until: 2027-12-12" +
          (may_end.empty() ? "" : ", may end: " + may_end) +
          "}\n"
          "horses:\n"
          "  - {name: Cob, bodyweight: 500 kg, work: light}\n"
          "forage:\n"
          "  - feed: meadow hay, average\n"
          "    name: hay\n" +
          hay +
          "market:\n"
          "  - {feed: 'oats, rolled', name: oats, price: 11.60 per 20 kg bag}\n"
          "  - {feed: balancer pellet, name: balancer, price: 28 per 20 kg bag}\n"
          "  - {feed: vitamin and mineral powder, name: minerals, price: 21 per 3 kg tub}\n"
          "  - {feed: limestone flour, price: 6.50 per 3 kg tub}\n"
          "  - {feed: salt, price: 11 per 25 kg bag}\n",
      "yard.yaml");
}

const Offer& hay_of(const Scenario& scenario) { return scenario.stable.offers.front(); }

FeedRanges ranges_of_hay(const Scenario& scenario) {
  for (const FeedDoubt& doubt : scenario.feed_doubts) {
    if (doubt.offer == 0) return doubt.ranges;
  }
  return {};
}

void expect_shares(const std::optional<Triangle>& range, double least, double most) {
  ASSERT_TRUE(range);
  EXPECT_NEAR(range->least, least, 1e-12);
  EXPECT_EQ(range->likeliest, 1.0);
  EXPECT_NEAR(range->most, most, 1e-12);
}

std::string told(const Scenario& scenario, const WinterAnswer& answer) {
  return write_text(winter_report(scenario, answer, {}), 200, false);
}

TEST(ScenarioRanges, AreSharesOfWhatTheFileReckonsWith) {
  const Scenario scenario =
      read_scenario(test_files::text_of("everything.yaml"), "everything.yaml");
  const FeedRanges ranges = ranges_of_hay(scenario);
  expect_shares(ranges.price, 4.20 / 4.50, 5.50 / 4.50);
  expect_shares(ranges.bale, 16.0 / 18.0, 20.0 / 18.0);
  expect_shares(ranges.energy, 7.8 / 8.4, 8.9 / 8.4);
  expect_shares(ranges.crude_protein, 60.0 / 71.0, 85.0 / 71.0);
  ASSERT_TRUE(scenario.may_end);
  EXPECT_EQ(scenario.may_end->least, -19.0);
  EXPECT_EQ(scenario.may_end->most, 10.0);
  EXPECT_THAT(scenario.feed_doubts, SizeIs(1));
}

TEST(ScenarioRanges, AreReadInUnitsOtherThanThoseOfTheFigure) {
  const Scenario scenario = yard("",
                                 "    price: 150 per tonne\n"
                                 "    analysis: {dry matter: 80 %, energy: 8 MJ/kg DM}\n"
                                 "    may be: {price: 0.12 to 0.18 per kg, energy: 6 MJ/kg as fed "
                                 "to 6.8 MJ/kg as fed}\n");
  expect_shares(ranges_of_hay(scenario).price, 0.8, 1.2);
  expect_shares(ranges_of_hay(scenario).energy, 7.5 / 8.0, 8.5 / 8.0);
}

TEST(ScenarioRanges, OfABaleAreAroundTheWeightThatIsAssumed) {
  const Scenario scenario = yard("", "    price: 5 per bale\n    may be: {bale: 18 to 24 kg}\n");
  ASSERT_TRUE(hay_of(scenario).assumed_weight);
  expect_shares(ranges_of_hay(scenario).bale, 1.0, 24.0 / 18.0);
}

TEST(ScenarioRanges, ArePutAsideWhereAQuestionGoesBeyondThem) {
  const Scenario scenario = read_scenario(
      "money: GBP\nseason: {from: 2027-11-15, until: 2027-12-12, may end: 2027-12-01 to "
      "2027-12-20}\n"
      "horses: [{name: Cob, bodyweight: 500 kg, work: light}]\n"
      "forage: [{feed: 'meadow hay, average', name: hay, price: 5 per 20 kg bale, may be: {price: "
      "4 to 6 per bale}}]\n"
      "ask: [{prices: {hay: 9 per 20 kg bale}, season: {until: 2028-01-10}}]\n",
      "yard.yaml");
  ASSERT_THAT(scenario.asked, SizeIs(1));
  EXPECT_FALSE(season_doubt(scenario.asked.front().scenario));
  EXPECT_TRUE(season_doubt(scenario));
}

TEST(WinterChances, AreToldBesideThePlan) {
  const Scenario scenario =
      yard("2027-12-05 to 2027-12-31",
           "    price: 5 per 20 kg bale\n"
           "    may be: {price: 4.50 to 7 per bale, bale: 17 to 21 kg, energy: 7.8 to 9 MJ/kg "
           "DM}\n");
  const WinterAnswer answer = winter(scenario, season_planners());
  ASSERT_TRUE(answer.chances && answer.chances->all_done());
  const auto middle = answer.chances->cost(0.5).value;
  const auto nine = answer.chances->cost(0.9).value;
  ASSERT_TRUE(middle && nine);
  EXPECT_GT(*nine, *middle);
  // Longer than dear: no winter of the draws can cost more than the longest at the worst.
  EXPECT_LT(*nine,
            47.0 / 28.0 * 7.0 / 5.0 * 20.0 / 17.0 * 1.2 * answer.plan.lower_bound.in_units());
  const std::string text = told(scenario, answer);
  EXPECT_THAT(text, HasSubstr("nine in ten can be fed for " + Wording::money(*nine)));
  EXPECT_THAT(text, HasSubstr("the last day, 5 Dec 2027 to 31 Dec 2027; the price, the weight of a "
                              "bale and the energy of hay"));
  EXPECT_THAT(text, HasSubstr("100 winters were drawn; the same file draws the same ones"));
  const auto orders = order_chances(answer);
  ASSERT_FALSE(orders.empty());
  ASSERT_TRUE(orders.front().enough && orders.front().enough->packs);
  EXPECT_GT(*orders.front().enough->packs, *orders.front().plan.packs);
  EXPECT_EQ(told(scenario, winter(scenario, season_planners())), text);
}

TEST(WinterChances, WithoutAPlanAreCountedAndExplained) {
  // The hay on hand lasts 28 days; half of all winters are longer.
  const std::string stock = "    on hand: 15.5 bales of 20 kg\n    price: 5 per bale\n";
  const Scenario scenario = yard("2027-12-05 to 2028-01-15", stock);
  const WinterAnswer answer = winter(scenario, season_planners());
  ASSERT_EQ(answer.plan.status, SeasonStatus::found);
  ASSERT_TRUE(answer.chances);
  const int none = answer.chances->count_of(SeasonStatus::none);
  EXPECT_GT(none, answer.chances->asked / 10);
  const std::string text = told(scenario, answer);
  EXPECT_THAT(text, HasSubstr("In more than one winter of ten there is no plan"));
  EXPECT_THAT(text, HasSubstr("no plan lasts through the week from"));
  EXPECT_THAT(text, HasSubstr("for Cob"));
}

TEST(WinterChances, AreNotDrawnWhereNothingIsARange) {
  const Scenario scenario = yard("", "    price: 5 per 20 kg bale\n");
  const WinterAnswer answer = winter(scenario, season_planners());
  EXPECT_FALSE(answer.chances);
  EXPECT_THAT(told(scenario, answer), Not(HasSubstr("nine in ten")));
  EXPECT_THAT(winter_json(scenario, answer), HasSubstr("\"chances\": null"));
}

TEST(WinterChances, StoppedAreToldAsFarAsTheyCame) {
  const Scenario scenario =
      yard("", "    price: 5 per 20 kg bale\n    may be: {price: 4 to 7 per bale}\n");
  bool stopped = false;
  Watch watch;
  watch.season.stop = [&] { return stopped; };
  watch.season.tell = [&](const SeasonProgress& at) {
    stopped = stopped || (at.step == SeasonStep::draws && at.done == 7);
  };
  const WinterAnswer answer = winter(scenario, season_planners(watch));
  EXPECT_TRUE(answer.stopped);
  EXPECT_TRUE(answer.other);
  ASSERT_TRUE(answer.chances);
  EXPECT_THAT(answer.chances->draws, SizeIs(7));
  const std::string text = told(scenario, answer);
  EXPECT_THAT(text, HasSubstr("Stopped before it was done"));
  EXPECT_THAT(text, HasSubstr("It was stopped: 7 of 100 winters were planned"));
}

}  // namespace
}  // namespace haymow::scenario_ranges_test
