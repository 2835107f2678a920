// The feed-room sheet: who shares a row, what is minded, what is bought.
#include "scenarios/sheet.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "scenarios/report_parts.h"

namespace haymow::sheet_test {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;

Scenario yard(const std::string& horses, const std::string& hay = "price: 0.20 per kg",
              const std::string& season = "") {
  return read_scenario("yard: Brook\nmoney: GBP\n" + season + "horses:\n" + horses +
                           "forage:\n"
                           "  - {feed: \"meadow hay, average\", name: hay, " +
                           hay +
                           "}\n"
                           "market:\n"
                           "  - {feed: \"oats, rolled\", name: oats, price: 11.60 per 20 kg bag, "
                           "comes in: bags}\n"
                           "  - {feed: soya bean meal, price: 0.80 per kg}\n"
                           "  - {feed: \"sugar beet pulp, unmolassed\", name: beet, price: 0.70 "
                           "per kg}\n"
                           "  - {feed: balancer pellet, price: 1.30 per kg}\n"
                           "  - {feed: vitamin and mineral powder, price: 6.00 per kg}\n"
                           "  - {feed: salt, price: 0.50 per kg}\n",
                       "brook.yaml");
}

const std::string two_alike =
    "  - {name: Ash, bodyweight: 500 kg, work: light}\n"
    "  - {name: Birch, bodyweight: 500 kg, work: light}\n";

Sheet sheet_of(const Scenario& scenario) {
  return feed_room_sheet(scenario, run(scenario), Units::metric);
}

TEST(Sheet, GivesHorsesThatAreFedAlikeOneRow) {
  const Sheet sheet = sheet_of(yard(two_alike));
  ASSERT_THAT(sheet.rows, SizeIs(1));
  EXPECT_THAT(sheet.rows[0].horses, ElementsAre("Ash", "Birch"));
}

TEST(Sheet, PartsThoseWhoMustNotHaveTheSame) {
  const Sheet sheet =
      sheet_of(yard("  - {name: Ash, bodyweight: 500 kg, work: light}\n"
                    "  - {name: Birch, bodyweight: 500 kg, work: light, feeds: {none: [beet]}}\n"));
  ASSERT_THAT(sheet.rows, SizeIs(2));
  EXPECT_THAT(sheet.rows[0].mind, IsEmpty());
  EXPECT_THAT(sheet.rows[1].mind, ElementsAre("never beet"));
}

TEST(Sheet, TellsWhatIsSoakedInTheBucketAndHow) {
  const Sheet sheet = sheet_of(
      yard("  - {name: Ash, bodyweight: 500 kg, work: light, feeds: {exactly: {beet: 500 g}}}\n"));
  ASSERT_THAT(sheet.rows, SizeIs(1));
  bool told = false;
  for (const auto& bucket : sheet.rows[0].buckets) {
    for (const std::string& portion : bucket) told = told || portion.ends_with("beet (soaked)");
  }
  EXPECT_TRUE(told);
  EXPECT_THAT(sheet.soaking.sentences, Contains(HasSubstr("Ash: Soak beet:")));
}

TEST(Sheet, SendsAHorseThatIsIllToTheVetAndFeedsItNothing) {
  const Sheet sheet =
      sheet_of(yard(two_alike + "  - {name: Cedar, bodyweight: 500 kg, work: none, health: "
                                "[colic]}\n"));
  EXPECT_THAT(sheet.not_fed, ElementsAre("Cedar: no plan; this needs a vet"));
  ASSERT_THAT(sheet.rows, SizeIs(1));
  EXPECT_THAT(sheet.rows[0].horses, ElementsAre("Ash", "Birch"));
}

TEST(Sheet, BuysHayForFourWeeksLessWhatIsThere) {
  const Scenario scenario =
      yard(two_alike, "price: 0.20 per kg, on hand: 100 kg, can be had: 20 t");
  const auto answers = run(scenario);
  double a_day = 0.0;
  for (const HorseAnswer& answer : answers) {
    for (const Portion& p : ration_to_feed(answer).portions) {
      if (p.offer == 0) a_day += p.put_out.in_kg();
    }
  }
  const Sheet sheet = feed_room_sheet(scenario, answers, Units::metric);
  EXPECT_EQ(sheet.shopping_days, 28);
  ASSERT_FALSE(sheet.to_buy.empty());
  EXPECT_EQ(sheet.to_buy[0].feed, "hay");
  EXPECT_THAT(sheet.to_buy[0].why, HasSubstr("100.0 kg on hand"));
  EXPECT_NEAR(std::stod(sheet.to_buy[0].amount), a_day * 28 - 100.0, 0.51);
}

TEST(Sheet, BuysOnlyToTheEndOfAShortSeason) {
  const Sheet sheet = sheet_of(
      yard(two_alike, "price: 0.20 per kg", "season: {from: 2026-11-01, until: 2026-11-10}\n"));
  EXPECT_EQ(sheet.shopping_days, 10);
  EXPECT_EQ(sheet.from, "from 1 Nov");
}

TEST(Sheet, NeverLeavesOutTheCautions) {
  const Sheet sheet = sheet_of(yard(two_alike));
  EXPECT_THAT(sheet.stop, HasSubstr("call the vet"));
  EXPECT_THAT(sheet.cautions, Contains(HasSubstr("Water and salt always")));
  EXPECT_THAT(sheet.certificate, HasSubstr("certified"));
}

}  // namespace
}  // namespace haymow::sheet_test
