#include "model/season_today.h"

#include <gtest/gtest.h>

#include "tests/model/hand_yard.h"

namespace haymow::season_today_test {
namespace {

using namespace hand_made;

// Ten weeks of 70 kg; haylage can be bought at twice the price of the hay on hand.
SeasonQuestion yard_with_hay(double kg) {
  Offer hay = fed("hay", 1.0);
  hay.on_hand = KgAsFed{kg};
  SeasonQuestion yard = yard_of(1, 10.0, 70, {hay, fed("haylage", 2.0)});
  yard.horses[0].fed_before = std::vector<double>{10.0, 0.0};
  return yard;
}

TEST(LatestChange, LeavesHayForTheWeekOfTheChange) {
  // In a week half of the day's feed may be new. Four weeks take 280 kg; then 35 at least
  // go with the change: 315. A fifth week leaves none of the 350 to change with.
  const SeasonQuestion yard = yard_with_hay(350.0);
  const auto latest = latest_change(yard);
  ASSERT_TRUE(latest);
  EXPECT_EQ(latest->fits.weeks, 4U);
  EXPECT_TRUE(latest->fits.certificate.holds());
  // 350 kg of each, whenever it is changed.
  EXPECT_NEAR(latest->fits.cost.in_units(), 350.0 + 700.0, 1e-6);
  ASSERT_TRUE(latest->misses);
  EXPECT_EQ(latest->misses->weeks, 5U);
  EXPECT_GT(latest->misses->proof, certificate_tolerance);
  // The middle of the fourth week, so that half is new in the middle of the fifth.
  EXPECT_EQ(first_day_of_change(yard, latest->fits), 21 + 3);
}

TEST(LatestChange, IsTheSameTriedWeekByWeek) {
  for (const double kg : {110.0, 245.0, 349.0, 500.0, 640.0}) {
    const SeasonQuestion yard = yard_with_hay(kg);
    const auto latest = latest_change(yard);
    ASSERT_TRUE(latest) << kg;
    for (std::size_t weeks = 0; weeks <= yard.weeks.size(); ++weeks) {
      const FedAsToday trial = feed_as_today(yard, weeks);
      EXPECT_TRUE(trial.is_known());
      EXPECT_EQ(trial.fits, weeks <= latest->fits.weeks) << kg << " kg, " << weeks << " weeks";
    }
  }
}

TEST(LatestChange, MayTakeTheWholeSeason) {
  const auto latest = latest_change(yard_with_hay(700.0));
  ASSERT_TRUE(latest);
  EXPECT_EQ(latest->fits.weeks, 10U);
  EXPECT_FALSE(latest->misses);
  EXPECT_NEAR(latest->fits.cost.in_units(), 700.0, 1e-6);
}

TEST(LatestChange, IsNotKnownWithoutWhatIsFedNow) {
  SeasonQuestion yard = yard_with_hay(350.0);
  yard.horses[0].fed_before.reset();
  EXPECT_FALSE(latest_change(yard));
}

TEST(LatestChange, IsNoneWhereNotEvenAChangeAtOnceHasAPlan) {
  // 20 kg of hay: the first week's change alone takes 52.
  EXPECT_FALSE(latest_change(yard_with_hay(20.0)));
}

TEST(FedAsToday, AsksNothingOfTodaysFeedingButItsHay) {
  // Today's 12 kg are more than the ration's 10: fed all the same, three weeks 252 kg.
  SeasonQuestion yard = yard_with_hay(400.0);
  yard.horses[0].fed_before = std::vector<double>{12.0, 0.0};
  const FedAsToday trial = feed_as_today(yard, 3);
  EXPECT_TRUE(trial.fits);
  EXPECT_NEAR(trial.cost.in_units(), 400.0 + 2.0 * (490.0 - 148.0), 1e-6);
  EXPECT_FALSE(feed_as_today(yard, 5).fits);
}

}  // namespace
}  // namespace haymow::season_today_test
