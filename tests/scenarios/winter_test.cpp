#include "scenarios/winter.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <sstream>
#include <string>

#include "scenarios/csv.h"
#include "scenarios/report_winter.h"
#include "scenarios/season_files.h"
#include "tests/scenarios/hand_plan.h"

namespace haymow::winter_test {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::SizeIs;

Scenario yard(const std::string& more_horses = "") {
  return read_scenario(
      "yard: Thorn & Son, \"Low\" Farm\n"
      "money: GBP\n"
      "season: {from: 2027-11-15, until: 2028-03-10}\n"
      "horses:\n"
      "  - {name: 'Cob, the', bodyweight: 500 kg, work: light}\n"
      "  - {name: Twin, bodyweight: 500 kg, work: light}\n"
      "  - {name: Fern, bodyweight: 560 kg, foaling: 2028-02-20}\n" +
          more_horses +
          "forage:\n"
          "  - {feed: 'meadow hay, average', name: hay, price: 5 per 20 kg bale, waste: 5 %}\n"
          "market:\n"
          "  - {feed: 'oats, rolled', name: oats, price: 11.60 per 20 kg bag}\n"
          "  - {feed: soya bean meal, price: 16.50 per 20 kg bag}\n"
          "  - {feed: stud cubes, price: 13.60 per 20 kg bag}\n"
          "  - {feed: alfalfa chaff, price: 15.50 per 15 kg bag}\n"
          "  - {feed: balancer pellet, name: balancer, price: 28 per 20 kg bag}\n"
          "  - {feed: vitamin and mineral powder, name: minerals, price: 21 per 3 kg tub}\n"
          "  - {feed: limestone flour, price: 6.50 per 3 kg tub}\n"
          "  - {feed: salt, price: 11 per 25 kg bag}\n",
      "yard.yaml");
}

WinterAnswer answer_of(const Scenario& scenario) { return winter(scenario, hand::planners()); }

std::string text_of(const Scenario& scenario, const WinterAnswer& answer, bool verbose = false) {
  return write_text(winter_report(scenario, answer, {Units::metric, verbose}), 100, false);
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

/// The last column but `behind` of a CSV line, in hundredths.
Pennies money_in(const std::string& line, int behind) {
  std::string rest = line;
  for (int i = 0; i < behind; ++i) rest = rest.substr(0, rest.rfind(','));
  return std::llround(100.0 * std::stod(rest.substr(rest.rfind(',') + 1)));
}

TEST(Winter, PlanIsBilledToThePenny) {
  const Scenario scenario = yard();
  const WinterAnswer answer = answer_of(scenario);
  ASSERT_EQ(answer.plan.status, SeasonStatus::found);
  ASSERT_TRUE(answer.bills);
  EXPECT_LT(answer.bills->largest_difference, 1e-9);
  Pennies all = 0;
  const auto lines = lines_of(bills_csv(scenario, answer));
  for (std::size_t i = 1; i < lines.size(); ++i) all += money_in(lines[i], 1);
  EXPECT_EQ(all, answer.bills->total);
  // Horses that eat the same pay the same, but for a penny of rounding.
  EXPECT_NEAR(static_cast<double>(answer.bills->horses[0].total),
              static_cast<double>(answer.bills->horses[1].total), 1.0);
}

TEST(Winter, OrdersAddUpToWhatIsPaid) {
  const Scenario scenario = yard();
  const WinterAnswer answer = answer_of(scenario);
  Pennies all = 0;
  const auto lines = lines_of(orders_csv(scenario, answer));
  for (std::size_t i = 1; i < lines.size(); ++i)
    all += money_in(lines[i], 2) + money_in(lines[i], 1);
  EXPECT_EQ(all, answer.bills->total);
}

TEST(Winter, CsvQuotesNamesWithCommas) {
  const Scenario scenario = yard();
  EXPECT_THAT(bills_csv(scenario, answer_of(scenario)), HasSubstr("\r\n\"Cob, the\",2027-11,16,"));
  EXPECT_EQ(csv_field("a \"b\""), "\"a \"\"b\"\"\"");
}

TEST(Winter, ReportBeginsWithTheCost) {
  const Scenario scenario = yard();
  const WinterAnswer answer = answer_of(scenario);
  const std::string text = text_of(scenario, answer);
  EXPECT_THAT(text, HasSubstr("117 days, 3 horses"));
  EXPECT_LT(text.find("Feed for this winter costs"), text.find("What to order"));
  EXPECT_LT(text.find("What to order"), text.find("What to bill"));
  // Horses fed alike are told once.
  EXPECT_THAT(text, HasSubstr("Cob, the and Twin"));
  if (const char* file = std::getenv("HAYMOW_WINTER_SAMPLE")) std::ofstream(file) << text;
}

TEST(Winter, WeekMoreAndLessAreSolvedAgain) {
  const Scenario scenario = yard();
  const WinterAnswer answer = answer_of(scenario);
  ASSERT_TRUE(answer.other->week_less.has_value());
  EXPECT_EQ(answer.other->week_more.status, SeasonStatus::found);
  EXPECT_EQ(answer.other->week_less->status, SeasonStatus::found);
  EXPECT_EQ(answer.other->dearer_hay.status, SeasonStatus::found);
  EXPECT_GT(answer.other->week_more.more.in_units(), 0.0);
  EXPECT_LT(answer.other->week_less->more.in_units(), 0.0);
  EXPECT_GT(answer.other->dearer_hay.more.in_units(), 0.0);
}

TEST(Winter, TellsWhomItLeavesOut) {
  const Scenario scenario =
      yard("  - {name: Wisp, bodyweight: 480 kg, work: none, health: [colic]}\n");
  const WinterAnswer answer = answer_of(scenario);
  EXPECT_FALSE(complete(answer));
  EXPECT_THAT(text_of(scenario, answer),
              HasSubstr("Not planned, and in none of the sums above: Wisp"));
  EXPECT_THAT(winter_json(scenario, answer), HasSubstr("\"refused\""));
}

TEST(Winter, SaysWhoHasNoRationAndFromWhen) {
  const Scenario scenario = read_scenario(
      "money: GBP\nseason: {from: 2027-11-15, until: 2028-03-10}\nhorses:\n"
      "  - {name: Racer, bodyweight: 500 kg, work: light, calendar: [{from: 2028-01-10, work: very "
      "heavy}]}\n"
      "forage:\n  - {feed: oat straw, price: 90 per tonne}\n"
      "  - {feed: 'meadow hay, average', name: hay, price: 5 per 20 kg bale}\n"
      "market:\n  - {feed: balancer pellet, price: 28 per 20 kg bag}\n"
      "  - {feed: salt, price: 11 per 25 kg bag}\n"
      "  - {feed: vitamin and mineral powder, price: 21 per 3 kg tub}\n",
      "yard.yaml");
  const WinterAnswer answer = answer_of(scenario);
  ASSERT_EQ(answer.plan.status, SeasonStatus::none);
  ASSERT_THAT(answer.without_ration, SizeIs(1));
  EXPECT_THAT(text_of(scenario, answer), HasSubstr("Racer has no ration from 10 Jan 2028 on"));
}

TEST(Winter, CalendarHasOrdersChangesAndChecks) {
  const Scenario scenario = yard();
  const std::string file = season_calendar(scenario, answer_of(scenario));
  EXPECT_THAT(file, HasSubstr("UID:order-2027-11-15-thorn-son-low-farm@haymow.invalid"));
  EXPECT_THAT(file, HasSubstr("UID:condition-2027-11-29-thorn-son-low-farm@haymow.invalid"));
  EXPECT_THAT(file, HasSubstr("Ration changes: Fern"));
  EXPECT_EQ(file, season_calendar(scenario, answer_of(scenario)));
}

TEST(SeasonSpells, JoinWeeksThatAScaleCannotTellApart) {
  const Scenario scenario = yard();
  const WinterAnswer answer = answer_of(scenario);
  const auto spells = spells_of_horse(answer.question, answer.plan, 0);
  ASSERT_THAT(spells, SizeIs(1));
  EXPECT_EQ(spells[0].last_week, answer.question.weeks.size() - 1);
  EXPECT_THAT(fed_alike(answer.question, answer.plan), SizeIs(2));
}

TEST(SeasonSpells, RoundToTheStepsOfTheScale) {
  EXPECT_NEAR(in_steps(KgAsFed{9.26}, FeedGroup::hay), 9.3, 1e-12);
  EXPECT_NEAR(in_steps(KgAsFed{0.0621}, FeedGroup::mineral), 0.060, 1e-12);
  EXPECT_NEAR(in_steps(KgAsFed{0.0012}, FeedGroup::mineral), 0.001, 1e-12);
  EXPECT_EQ(in_steps(KgAsFed{0.0}, FeedGroup::hay), 0.0);
}

TEST(StockTold, KnowsWhenAFeedRunsOut) {
  std::vector<StockWeek> stock(3);
  stock[0].opening = 100.0;
  stock[0].closing = 40.0;
  stock[1].opening = 40.0;
  stock[1].closing = 0.0;
  const auto told = stock_told(stock);
  ASSERT_TRUE(told);
  EXPECT_EQ(told->runs_out_in, 1u);
  EXPECT_EQ(told->lowest_kg, 0.0);
  EXPECT_FALSE(stock_told(std::vector<StockWeek>(3)));
}

}  // namespace
}  // namespace haymow::winter_test
