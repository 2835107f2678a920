#include "scenarios/stretch.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <stdexcept>
#include <string>

#include "scenarios/report_stretch.h"
#include "scenarios/scenario_dates.h"

namespace haymow::stretch_test {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::SizeIs;

// 30 bales of 18 kg less 2 %: 529.2 kg.
Scenario yard(const std::string& horses, const std::string& can_be_had = "40 bales of 18 kg",
              const std::string& season = "{from: 2027-02-01, until: 2027-03-21}") {
  return read_scenario(
      "money: GBP\nseason: " + season + "\nhorses:\n" + horses +
          "forage:\n"
          "  - {feed: 'meadow hay, average', name: our hay, on hand: 30 bales of 18 kg,\n"
          "     price: 4.50 per bale, waste: 8 %, storage loss: 2 %}\n"
          "  - {feed: 'meadow hay, late cut', name: bought hay, price: 7.00 per 18 kg small bale,\n"
          "     can be had: " +
          can_be_had +
          ", waste: 8 %}\n"
          "market:\n"
          "  - {feed: 'oats, rolled', name: oats, price: 11.50 per 20 kg bag}\n"
          "  - {feed: soya bean meal, price: 16.50 per 20 kg bag}\n"
          "  - {feed: balancer pellet, price: 28.00 per 20 kg bag}\n"
          "  - {feed: vitamin and mineral powder, price: 21.00 per 3 kg tub}\n"
          "  - {feed: salt, price: 11.00 per 25 kg bag}\n",
      "yard.yaml");
}

const std::string cob =
    "  - {name: Cob, bodyweight: 500 kg, work: light, fed now: {our hay: 12 kg, salt: 30 g}}\n";
const std::string fern =
    "  - {name: Fern, bodyweight: 460 kg, work: none, fed now: {our hay: 9 kg, salt: 20 g}}\n";
const std::string untold = "  - {name: Ash, bodyweight: 460 kg, work: none}\n";

std::string told(const Scenario& scenario) {
  return write_text(stretch_report(scenario, stretch(scenario), {}), 200, false);
}

TEST(Stretch, RunsOutByHand) {
  // 21 kg a day of 529.2: 25 days take 525. 1 February and 25 days: 26 February.
  const Scenario scenario = yard(cob + fern);
  const StretchAnswer answer = stretch(scenario);
  ASSERT_THAT(answer.runs_out, SizeIs(1));
  EXPECT_NEAR(answer.runs_out[0].stock_kg, 529.2, 1e-9);
  EXPECT_EQ(answer.runs_out[0].day, 25);
  EXPECT_NEAR(answer.runs_out[0].short_kg, 49 * 21.0 - 529.2, 1e-6);
  EXPECT_THAT(told(scenario), HasSubstr("Fed as today, our hay runs out on 26 Feb 2027"));
}

TEST(Stretch, CountsTheCheapestRationWhereNobodySaysWhatIsFed) {
  const Scenario scenario = yard(cob + untold);
  const StretchAnswer answer = stretch(scenario);
  ASSERT_THAT(answer.today, SizeIs(2));
  EXPECT_TRUE(answer.today[0].told);
  EXPECT_FALSE(answer.today[1].told);
  // An idle 460 kg horse eats about 2 % of its weight.
  EXPECT_NEAR(answer.today[1].put_out_a_day[0][0], 9.5, 2.5);
  EXPECT_THAT(told(scenario), HasSubstr("does not say what Ash is fed today"));
  ASSERT_TRUE(answer.latest);
  EXPECT_THAT(told(scenario), HasSubstr("Ash is planned from the first day all the same"));
}

TEST(Stretch, SaysWhatIsFedBesideWhatIsOnOffer) {
  const Scenario scenario = yard(
      "  - {name: Cob, bodyweight: 500 kg, work: light, fed now: {our hay: 12 kg, carrots: 1 "
      "kg}}\n");
  const StretchAnswer answer = stretch(scenario);
  EXPECT_THAT(answer.today[0].extra, SizeIs(1));
  EXPECT_EQ(answer.runs_out[0].day, 44);  // 529.2 / 12
  EXPECT_FALSE(answer.latest);
  EXPECT_THAT(told(scenario), HasSubstr("Cob is fed carrots, of which the file has no stock"));
}

TEST(Stretch, EveryFigureIsCertified) {
  const StretchAnswer answer = stretch(yard(cob + fern));
  ASSERT_TRUE(answer.found());
  EXPECT_TRUE(complete(answer));
  EXPECT_TRUE(answer.plan.certificate.holds());
  ASSERT_TRUE(answer.latest);
  EXPECT_TRUE(answer.latest->fits.certificate.holds());
  ASSERT_TRUE(answer.latest->misses);
  EXPECT_GT(answer.latest->misses->proof, certificate_tolerance);
  for (const BreakEven& price : answer.break_even) {
    EXPECT_TRUE(price.below.holds());
    EXPECT_TRUE(price.above.holds());
  }
  ASSERT_TRUE(answer.reserve);
  EXPECT_THAT(answer.short_feeds, SizeIs(1));
}

TEST(Stretch, TheLatestDayIsBeforeTheHayRunsOut) {
  const StretchAnswer answer = stretch(yard(cob + fern));
  ASSERT_TRUE(answer.latest);
  const int begin = first_day_of_change(answer.question, answer.latest->fits);
  EXPECT_LT(begin, *answer.runs_out[0].day);
  // And what is fed as today by then is there: 21 kg a day.
  EXPECT_LE(7.0 * static_cast<double>(answer.latest->fits.weeks) * 21.0, 529.2);
}

TEST(Stretch, MoreHayNeverBringsTheDayForward) {
  const StretchAnswer less = stretch(yard(cob + fern, "30 bales of 18 kg"));
  const StretchAnswer more = stretch(yard(cob + fern, "60 bales of 18 kg"));
  ASSERT_TRUE(less.latest && more.latest);
  EXPECT_LE(less.latest->fits.weeks, more.latest->fits.weeks);
  EXPECT_EQ(less.runs_out[0].day, more.runs_out[0].day);
}

TEST(Stretch, FourWeeksMoreCostNoLess) {
  const StretchAnswer answer = stretch(yard(cob + fern, "as wanted"));
  ASSERT_TRUE(answer.reserve);
  ASSERT_EQ(answer.reserve->plan.status, SeasonStatus::found);
  EXPECT_EQ(answer.reserve->question.weeks.size(), answer.question.weeks.size() + 4);
  EXPECT_GE(answer.reserve->plan.lower_bound, answer.plan.lower_bound);
}

TEST(Stretch, SaysWhatFailsAndWhatWouldMendIt) {
  const Scenario scenario = yard(cob + fern, "2 bales of 18 kg");
  const StretchAnswer answer = stretch(scenario);
  EXPECT_EQ(answer.plan.status, SeasonStatus::none);
  ASSERT_TRUE(answer.failure);
  ASSERT_TRUE(answer.mends);
  ASSERT_FALSE(answer.mends->more_feed.empty());
  EXPECT_FALSE(answer.latest);
  EXPECT_FALSE(answer.reserve);
  const std::string text = told(scenario);
  EXPECT_THAT(text, HasSubstr("No safe plan lasts through the week from "));
  EXPECT_THAT(text, HasSubstr("bales"));
  EXPECT_THAT(text, Not(HasSubstr("The cheapest plan")));
}

TEST(Stretch, TheMendIsEnough) {
  const StretchAnswer answer = stretch(yard(cob + fern, "2 bales of 18 kg"));
  ASSERT_TRUE(answer.mends);
  for (const MoreFeed& more : answer.mends->more_feed) {
    if (more.offer != 1) continue;
    const int bales = 2 + more.packs.value();
    const auto with = [&](int count) {
      return stretch(yard(cob + fern, std::to_string(count) + " bales of 18 kg")).found();
    };
    EXPECT_TRUE(with(bales));
    EXPECT_FALSE(with(bales - 1));
  }
}

TEST(Stretch, LeavesOutHorsesThatAreAVetsBusiness) {
  const StretchAnswer answer =
      stretch(yard(cob + "  - {name: Wisp, bodyweight: 480 kg, work: none, health: [colic]}\n"));
  EXPECT_THAT(answer.refused, ElementsAre(1U));
  EXPECT_FALSE(complete(answer));
  ASSERT_THAT(answer.today, SizeIs(1));
}

TEST(Stretch, NeedsASeason) {
  Scenario scenario = yard(cob);
  scenario.from.reset();
  EXPECT_THROW((void)stretch(scenario), std::invalid_argument);
}

}  // namespace
}  // namespace haymow::stretch_test
