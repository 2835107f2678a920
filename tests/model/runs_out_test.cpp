#include "model/runs_out.h"

#include <gtest/gtest.h>

#include <limits>
#include <stdexcept>

#include "tests/model/hand_yard.h"

namespace haymow::runs_out_test {
namespace {

using namespace hand_made;

constexpr double lb = kg_per_lb;

Offer stock_of_hay(double kg, double loss = 0.0) {
  Offer hay = fed("hay");
  hay.on_hand = KgAsFed{kg};
  hay.storage_loss = loss;
  return hay;
}

std::vector<RunsOut> at(const SeasonQuestion& yard, double kg_a_day) {
  return runs_out(yard, {std::vector<double>(yard.weeks.size(), kg_a_day)});
}

TEST(RunsOut, IsTheFirstDayForWhichWhatIsLeftIsNotEnough) {
  // 100 kg less a tenth in the store: 90. At 8 a day, 11 days take 88; on the twelfth,
  // 11 days after the first, 2 of 8 are there.
  const auto out = at(yard_of(1, 8.0, 70, {stock_of_hay(100.0, 0.1)}), 8.0);
  ASSERT_EQ(out.size(), 1U);
  EXPECT_NEAR(out[0].stock_kg, 90.0, 1e-12);
  EXPECT_EQ(out[0].day, 11);
  EXPECT_FALSE(out[0].too_old);
  EXPECT_NEAR(out[0].needed_kg, 560.0, 1e-9);
  EXPECT_NEAR(out[0].short_kg, 470.0, 1e-9);
}

TEST(RunsOut, TellsWhatIsLeftOfWhatLasts) {
  const auto out = at(yard_of(1, 8.0, 10, {stock_of_hay(100.0)}), 8.0);
  EXPECT_FALSE(out[0].day);
  EXPECT_NEAR(out[0].left_kg, 20.0, 1e-9);
}

TEST(RunsOut, ExactlyEnoughLasts) {
  EXPECT_FALSE(at(yard_of(1, 0.1, 70, {stock_of_hay(7.0)}), 0.1)[0].day);
}

TEST(RunsOut, FollowsTheWeeks) {
  // Four a day in the first week (28), then eight: 52 left last 6 days more.
  const SeasonQuestion yard = yard_of(1, 8.0, 21, {stock_of_hay(80.0)});
  EXPECT_EQ(runs_out(yard, {{4.0, 8.0, 8.0}})[0].day, 7 + 6);
}

TEST(RunsOut, WhatIsTooOldIsNotFed) {
  SeasonQuestion yard = yard_of(1, 8.0, 70, {stock_of_hay(500.0)});
  yard.supply[0].keeps = Days{30};
  const auto out = at(yard, 8.0);
  EXPECT_EQ(out[0].day, 30);
  EXPECT_TRUE(out[0].too_old);
}

TEST(RunsOut, LeavesOutWhatIsNotOnHand) {
  EXPECT_TRUE(at(yard_of(1, 8.0, 70, {fed("hay")}), 8.0).empty());
}

// Slides of an extension course on balancing a ration
// (https://cdn.slideserve.com/tuwa/balancing-a-ration-it-s-not-magic): 3,000 bales of 80 lb
// are 240,000 lb for 150 head and 210 days, 1,143 lb a day, 7.6 lb a head.
TEST(RunsOut, PublishedStockOfBalesLastsThePublishedDays) {
  const SeasonQuestion yard = yard_of(1, 1.0, 280, {stock_of_hay(3000 * 80.0 * lb)});
  EXPECT_EQ(at(yard, 240'000.0 / 210.0 * lb)[0].day, 210);
  // The printed 1,143 is rounded up: the 210th day is short of its last 30 lb.
  EXPECT_EQ(at(yard, 1143.0 * lb)[0].day, 209);
  EXPECT_NEAR(150 * 7.6, 1143.0, 5.0);
}

// A horse forum, reckoning 18.2 lb a head: 11 mostly small horses on 10 short tons,
// "100 days". 20,000 lb / (11 x 18.2) = 99.9.
TEST(RunsOut, PublishedTonsForElevenHorsesLastTheHundredDays) {
  const SeasonQuestion yard = yard_of(1, 1.0, 210, {stock_of_hay(20'000.0 * lb)});
  EXPECT_EQ(at(yard, 11 * 18.18 * lb)[0].day, 100);
  EXPECT_NEAR(*at(yard, 11 * 18.2 * lb)[0].day, 100, 1);
}

TEST(RunsOut, MoreHayNeverRunsOutEarlier) {
  constexpr int never = std::numeric_limits<int>::max();
  for (const double a_day : {0.3, 7.0, 9.9}) {
    int before = 0;
    for (int kg = 1; kg < 800; kg += 7) {
      const auto out = at(yard_of(1, 8.0, 70, {stock_of_hay(kg, 0.03)}), a_day);
      const int day = out[0].day.value_or(never);
      EXPECT_GE(day, before) << kg << " kg at " << a_day;
      before = day;
    }
    if (a_day < 9.0) {
      EXPECT_EQ(before, never);
    }
  }
}

TEST(RunsOut, RefusesWhatDoesNotFit) {
  const SeasonQuestion yard = yard_of(1, 8.0, 21, {stock_of_hay(80.0)});
  EXPECT_THROW((void)runs_out(yard, {}), std::invalid_argument);
  EXPECT_THROW((void)runs_out(yard, {{1.0, 2.0}}), std::invalid_argument);
  EXPECT_THROW((void)runs_out(yard, {{1.0, 2.0, -1.0}}), std::invalid_argument);
}

}  // namespace
}  // namespace haymow::runs_out_test
