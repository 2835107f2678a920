#include "model/grazing.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <string>

#include "feeds/feed_table.h"

namespace haymow::grazing_test {
namespace {

constexpr int june = 6;
constexpr double plenty_ha = 10.0;  // a field that never ends the eating in summer

Horse horse_of(double kg, double hectares = plenty_ha) {
  Horse horse;
  horse.bodyweight = Bodyweight{kg};
  horse.stage = Idle{};
  horse.grazing = Grazing{};
  horse.grazing->hectares_a_horse = hectares;
  return horse;
}

GrassIntake eaten(double kg, double hours, Sward sward = Sward::good, bool muzzle = false) {
  return grass_eaten(horse_of(kg), june, {hours, sward, muzzle});
}

// --- against published intakes -------------------------------------------------------

// Ince et al. 2005 (abstract): ponies ate about 40 % of their daily dry matter in the
// first 3 hours; free grazing was 15 to 17 hours a day.
TEST(Grazing, PoniesEatTwoFifthsOfTheDayInThreeHours) {
  const double share = eaten(200.0, 3.0).expected / eaten(200.0, 16.0).expected;
  EXPECT_NEAR(share, 0.40, 0.02);
}

// The same: 16 to 33 g of dry matter per kg of bodyweight and day.
TEST(Grazing, FreeGrazingPoniesEatWhatWasMeasured) {
  const GrassIntake day = eaten(200.0, 16.0);
  EXPECT_LE(day.low.in_kg() / 0.200, 16.0);
  EXPECT_GE(day.high.in_kg() / 0.200, 33.0);
  EXPECT_GE(day.expected.in_kg() / 0.200, 16.0);
  EXPECT_LE(day.expected.in_kg() / 0.200, 33.0);
}

// Trade advice: on full turnout 0.45 to 0.64 kg of dry matter an hour; a horse of
// 545 kg takes 16 to 22 lb (7.3 to 10 kg) a day.
TEST(Grazing, FullTurnoutIsWhatTheTradeReckonsWith) {
  const double an_hour = (eaten(545.0, 9.0).expected - eaten(545.0, 8.0).expected).in_kg();
  EXPECT_GE(an_hour, 0.45);
  EXPECT_LE(an_hour, 0.64);
  const GrassIntake day = eaten(545.0, 24.0);
  EXPECT_NEAR(day.low.in_kg(), 7.3, 0.01);
  EXPECT_GE(day.high.in_kg(), 10.0);
  EXPECT_GE(day.expected.in_kg(), 7.3);
  EXPECT_LT(day.expected.in_kg(), 11.0);  // 2.0 % of bodyweight, a little over the 10
}

// A university and the trade: a muzzle takes away 30 to 80 %.
TEST(Grazing, AMuzzleTakesAwayWhatWasMeasured) {
  const GrassIntake bare = eaten(500.0, 4.0);
  const GrassIntake muzzled = eaten(500.0, 4.0, Sward::good, true);
  EXPECT_NEAR(muzzled.low / bare.low, 1.0 - 0.80, 1e-9);
  EXPECT_NEAR(muzzled.high / bare.high, 1.0 - 0.30, 1e-9);
}

// Horse & Hound: no useful growth from November to March.
TEST(Grazing, NothingIsSureToGrowInWinter) {
  for (const int month : {11, 12, 1, 2, 3}) {
    const GrassIntake winter = grass_eaten(horse_of(500.0, 0.5), month, {8.0, Sward::good, false});
    EXPECT_EQ(winter.low.in_kg(), 0.0) << month;
    EXPECT_EQ(winter.limit, GrassLimit::growth) << month;
    EXPECT_LT(winter.expected, eaten(500.0, 8.0).expected) << month;
  }
}

// On paper: 500 kg, 7 hours on fair grass in June: 500 x (3 x 2.667 + 4 x 1.0) x 0.5.
TEST(Grazing, AnOrdinaryDayIsTheSumOnThePage) {
  EXPECT_NEAR(eaten(500.0, 7.0, Sward::fair).expected.in_kg(), 3.0, 1e-9);
}

// 65 x 0.5 x 0.575 x 0.1 ha = 1.87 kg in June, however long it is out.
TEST(Grazing, NoMoreIsEatenThanGrows) {
  const GrassIntake day = grass_eaten(horse_of(500.0, 0.1), june, {24.0, Sward::good, false});
  EXPECT_NEAR(day.expected.in_kg(), 1.86875, 1e-9);
  EXPECT_EQ(day.limit, GrassLimit::growth);
}

TEST(Grazing, AHorseInMilkEatsMoreThanAnIdleOne) {
  Horse mare = horse_of(550.0);
  mare.stage = Lactating{2};
  EXPECT_GT(grass_eaten(mare, june, {24.0, Sward::good, false}).expected,
            eaten(550.0, 24.0).expected);
}

TEST(Grazing, BareGroundAndAClosedGateFeedNobody) {
  EXPECT_EQ(eaten(500.0, 24.0, Sward::none).high.in_kg(), 0.0);
  EXPECT_EQ(eaten(500.0, 0.0).high.in_kg(), 0.0);
  Horse indoors;
  indoors.bodyweight = Bodyweight{500.0};
  EXPECT_EQ(grass_eaten(indoors, june).high.in_kg(), 0.0);
  EXPECT_EQ(grass_eaten(horse_of(500.0), june).high.in_kg(), 0.0);  // nothing said of June
}

TEST(Grazing, EveryMonthHasAGrassOfTheTable) {
  for (int month = 1; month <= months_in_year; ++month) {
    const Feed* feed = find_feed(grass_feed_of(month));
    ASSERT_NE(feed, nullptr) << month_name(month);
    EXPECT_EQ(feed->group, FeedGroup::grass);
  }
}

// --- laws ------------------------------------------------------------------------------

struct Day {
  Horse horse;
  int month = june;
  Turnout turnout;
};

Day any_day() {
  Day day;
  day.horse = horse_of(*rc::gen::inRange(60, 900), *rc::gen::inRange(1, 400) / 100.0);
  switch (*rc::gen::inRange(0, 3)) {
    case 0:
      day.horse.stage = Lactating{2};
      break;
    case 1:
      day.horse.stage = Growing{14.0, std::nullopt};
      break;
    default:
      break;
  }
  day.month = *rc::gen::inRange(1, 13);
  day.turnout = {*rc::gen::inRange(0, 241) / 10.0,
                 *rc::gen::element(Sward::none, Sward::poor, Sward::fair, Sward::good),
                 *rc::gen::arbitrary<bool>()};
  return day;
}

GrassIntake eaten(const Day& day) { return grass_eaten(day.horse, day.month, day.turnout); }

bool no_less(const GrassIntake& a, const GrassIntake& b) {
  return a.low >= b.low && a.expected >= b.expected && a.high >= b.high;
}

RC_GTEST_PROP(GrazingLaw, TheRangeIsInOrderAndUnderTheAppetite, ()) {
  const Day day = any_day();
  const GrassIntake intake = eaten(day);
  RC_ASSERT(KgDryMatter{} <= intake.low);
  RC_ASSERT(intake.low <= intake.expected);
  RC_ASSERT(intake.expected <= intake.high);
  const double kg = day.horse.bodyweight.in_kg();
  // The largest appetite of all: a pony's, 3.8 % of bodyweight; a grown horse's 2.5 %.
  const bool grown_horse = kg > 350.0 && std::holds_alternative<Idle>(day.horse.stage);
  RC_ASSERT(intake.high.in_kg() <= kg * (grown_horse ? 0.025 : 0.038) + 1e-9);
}

RC_GTEST_PROP(GrazingLaw, MoreHoursAreNeverLessGrass, ()) {
  Day day = any_day();
  const GrassIntake before = eaten(day);
  day.turnout.hours += *rc::gen::inRange(0, 100) / 10.0;
  RC_ASSERT(no_less(eaten(day), before));
}

RC_GTEST_PROP(GrazingLaw, AMuzzleIsNeverMoreGrass, ()) {
  Day day = any_day();
  day.turnout.muzzle = true;
  const GrassIntake muzzled = eaten(day);
  day.turnout.muzzle = false;
  RC_ASSERT(no_less(eaten(day), muzzled));
}

RC_GTEST_PROP(GrazingLaw, ABetterOrLargerFieldIsNeverLessGrass, ()) {
  Day day = any_day();
  day.turnout.sward = Sward::poor;
  const GrassIntake poor = eaten(day);
  day.turnout.sward = Sward::fair;
  const GrassIntake fair = eaten(day);
  RC_ASSERT(no_less(fair, poor));
  *day.horse.grazing->hectares_a_horse *= 2.0;
  RC_ASSERT(no_less(eaten(day), fair));
}

RC_GTEST_PROP(GrazingLaw, TheHoursForAnAmountGiveThatAmount, ()) {
  Day day = any_day();
  const KgDryMatter all = eaten(day).expected;
  RC_PRE(all.in_kg() > 0.1);
  const KgDryMatter most = all * (*rc::gen::inRange(1, 100) / 100.0);
  day.turnout.hours = hours_for(day.horse, day.month, day.turnout, most);
  RC_ASSERT(std::abs((eaten(day).expected - most).in_kg()) < 1e-9);
}

TEST(Grazing, HoursThatFitAreLeftAlone) {
  const Horse horse = horse_of(500.0);
  const Turnout turnout{5.0, Sward::fair, false};
  EXPECT_EQ(hours_for(horse, june, turnout, KgDryMatter{9.0}), 5.0);
}

}  // namespace
}  // namespace haymow::grazing_test
