#include "model/season_failure.h"

#include <gtest/gtest.h>

#include "tests/model/hand_yard.h"

namespace haymow::season_failure_test {
namespace {

using namespace hand_made;

TEST(SeasonFailure, IsNoneWhereThereIsAPlan) {
  EXPECT_FALSE(explain_season_failure(yard_of(1, 10.0, 28, {fed("hay")})));
}

TEST(SeasonFailure, IsInTheFirstWeekThatTheHayDoesNotReach) {
  Offer hay = fed("hay");
  hay.on_hand = KgAsFed{250.0};
  // 70 a week: three weeks are fed, in the fourth 30 of 70 kg are short.
  const auto failure = explain_season_failure(yard_of(1, 10.0, 70, {hay}));
  ASSERT_TRUE(failure);
  EXPECT_EQ(failure->first_week, 3U);
  EXPECT_FALSE(failure->only_the_pace);
  double short_mj = 0.0;
  for (const SeasonMiss& miss : failure->misses) {
    ASSERT_TRUE(miss.row);
    EXPECT_EQ(miss.row->id, "energy/min");
    EXPECT_EQ(miss.horses, (std::vector<std::size_t>{0}));
    short_mj += 7.0 * miss.by;
  }
  EXPECT_NEAR(short_mj, 30.0 * mj_per_kg_fed, 1e-6);
}

TEST(SeasonFailure, NamesTheHorseThatCanHaveNoRationAtAll) {
  SeasonQuestion yard = yard_of(1, 10.0, 28, {fed("hay")});
  const std::size_t starved = add_ration(yard, 10.0);
  yard.rations[starved].needs.rows.push_back(need_of(Nutrient::crude_protein, 100.0));
  add_horse(yard, "other", 0);
  yard.horses.back().ration_of_week[2] = starved;
  const auto failure = explain_season_failure(yard);
  ASSERT_TRUE(failure);
  EXPECT_EQ(failure->first_week, 2U);
  ASSERT_EQ(failure->misses.size(), 1U);
  EXPECT_EQ(failure->misses[0].week, 2U);
  EXPECT_EQ(failure->misses[0].horses, (std::vector<std::size_t>{1}));
  EXPECT_EQ(failure->misses[0].row->id, "crude_protein/min");
}

TEST(SeasonFailure, TellsANeedThatJumpsFromOneThatCannotBeMet) {
  // All hay is gone on the first day but for haylage: three quarters too much at once.
  SeasonQuestion yard = yard_of(1, 10.0, 28, {fed("hay"), fed("haylage")});
  yard.supply[0].can_be_bought = false;
  yard.horses[0].fed_before = std::vector<double>{10.0, 0.0};
  const auto failure = explain_season_failure(yard);
  ASSERT_TRUE(failure);
  EXPECT_EQ(failure->first_week, 0U);
  EXPECT_TRUE(failure->only_the_pace);
  ASSERT_FALSE(failure->misses.empty());
  EXPECT_FALSE(failure->misses[0].row);
}

TEST(SeasonFailure, ASeasonCutShortKeepsItsFirstWeeks) {
  const SeasonQuestion yard = yard_of(2, 10.0, 70, {fed("hay")});
  const SeasonQuestion cut = first_weeks(yard, 4);
  EXPECT_EQ(cut.weeks.size(), 4U);
  EXPECT_EQ(cut.supply[0].price_per_kg.size(), 4U);
  EXPECT_EQ(cut.horses[1].ration_of_week.size(), 4U);
}

}  // namespace
}  // namespace haymow::season_failure_test
