// A limit loosened and a change hurried, on yards that can be reckoned on paper.
#include "model/season_mends.h"

#include <gtest/gtest.h>

#include "model/change_plan.h"
#include "tests/model/hand_yard.h"

namespace haymow::season_mends_test {
namespace {

using namespace hand_made;

Offer on_hand(Offer offer, double kg) {
  offer.on_hand = KgAsFed{kg};
  return offer;
}

Limit limit_called(const std::string& id, Strength strength, double number,
                   const std::string& unit) {
  return {id, strength, number, unit, "no more than that", "made up", "", true};
}

// 10 kg a day for 70 days, 500 kg of hay and pulp that may be bought, but be no more than
// a quarter of a day's feed.
SeasonQuestion yard_with_pulp(Strength strength) {
  Offer pulp = fed("pulp", 2.0);
  pulp.feed.group = FeedGroup::fibre;
  pulp.feed.traits.insert(FeedTrait::beet);
  SeasonQuestion yard = yard_of(1, 10.0, 70, {on_hand(fed("hay"), 500.0), pulp});
  yard.rations[0].limits.push_back(
      limit_called("beet_share/max", strength, 25.0, "% of the dry matter"));
  return yard;
}

SeasonMends mends_of(const SeasonQuestion& yard) {
  const auto failure = explain_season_failure(yard);
  EXPECT_TRUE(failure);
  return failure ? season_mends(yard, *failure) : SeasonMends{};
}

TEST(SeasonLoosening, MovesAGuideByTheLeastThatWorks) {
  const SeasonQuestion yard = yard_with_pulp(Strength::guide);
  const SeasonMends mends = mends_of(yard);
  ASSERT_EQ(mends.looser.size(), 1U);
  const LooserLimit& looser = mends.looser[0];
  EXPECT_EQ(looser.row.id, "beet_share/max");
  EXPECT_NEAR(looser.from, 25.0, 1e-9);
  // 200 kg of 700 are pulp: 28.57 % in every week is the least that will do.
  EXPECT_GE(looser.to, 100.0 * 2.0 / 7.0);
  EXPECT_LE(looser.to, 100.0 * 2.0 / 7.0 * 1.03);
  EXPECT_NEAR(looser.cost.in_units(), 500.0 + 2.0 * 200.0, 1e-6);
  EXPECT_FALSE(mends.cut_short);
}

TEST(SeasonLoosening, AsSaidItMendsThePlanAndNothingTighterDoes) {
  const SeasonQuestion yard = yard_with_pulp(Strength::guide);
  const SeasonMends mends = mends_of(yard);
  ASSERT_EQ(mends.looser.size(), 1U);
  const LooserLimit& looser = mends.looser[0];
  const Moves told = [&](std::size_t h, std::size_t w) {
    for (const LooserFor& where : looser.where) {
      if (where.horse == h && where.first_week <= w && w <= where.last_week) return true;
    }
    return false;
  };
  const auto at = [&](double to) {
    return plan_season(with_looser_limit(yard, looser.row.id, to, told));
  };
  EXPECT_EQ(at(looser.to).status, SeasonStatus::found);
  EXPECT_NEAR(at(looser.to).lower_bound.in_units(), looser.cost.in_units(), 1e-6);
  EXPECT_EQ(at(28.0).status, SeasonStatus::none);
  // Looser still is never dearer.
  EXPECT_LE(at(looser.to + 20.0).lower_bound.in_units(), looser.cost.in_units() + 1e-6);
}

TEST(SeasonLoosening, SparesTheHorseThatDoesNotNeedIt) {
  SeasonQuestion yard = yard_with_pulp(Strength::guide);
  // Another that must not have pulp and has hay of its own is no part of it.
  const std::size_t choosy = add_ration(yard, 1.0);
  yard.rations[choosy].limits.push_back(
      limit_called("beet_share/max", Strength::guide, 25.0, "% of the dry matter"));
  yard.rations[choosy].horse.wishes.push_back({WishKind::none, "pulp", KgAsFed{0.0}, {}});
  add_horse(yard, "choosy", choosy);
  yard.offers[0].on_hand = KgAsFed{570.0};
  for (RationQuestion& ration : yard.rations) ration.offers[0].on_hand = KgAsFed{570.0};
  const SeasonMends mends = mends_of(yard);
  ASSERT_FALSE(mends.looser.empty());
  for (const LooserLimit& looser : mends.looser) {
    if (looser.row.id != "beet_share/max") continue;
    for (const LooserFor& where : looser.where) EXPECT_EQ(where.horse, 0U);
  }
}

TEST(SeasonLoosening, MovesAKeepersWish) {
  SeasonQuestion yard = yard_of(1, 10.0, 28, {on_hand(fed("hay"), 100.0), fed("haylage", 2.0)});
  yard.rations[0].horse.wishes.push_back({WishKind::at_most, "haylage", KgAsFed{1.0}, {}});
  const SeasonMends mends = mends_of(yard);
  ASSERT_EQ(mends.looser.size(), 1U);
  EXPECT_FALSE(mends.looser[0].row.limit);
  // 180 kg in 28 days.
  EXPECT_GE(mends.looser[0].to, 180.0 / 28.0);
  EXPECT_LE(mends.looser[0].to, 180.0 / 28.0 * 1.03);
}

class NeverLoosened : public testing::TestWithParam<Strength> {};

TEST_P(NeverLoosened, IsALawOrAVetsRule) {
  EXPECT_TRUE(mends_of(yard_with_pulp(GetParam())).looser.empty());
}
INSTANTIATE_TEST_SUITE_P(Strengths, NeverLoosened, testing::Values(Strength::law, Strength::vet));

// Hay is gone on the first day and haylage is not: three quarters too much at once.
SeasonQuestion yard_that_must_change() {
  SeasonQuestion yard = yard_of(1, 10.0, 28, {fed("hay"), fed("haylage")});
  yard.supply[0].can_be_bought = false;
  yard.horses[0].fed_before = std::vector<double>{10.0, 0.0};
  return yard;
}

TEST(FasterChange, IsToldWhereOnlyThePaceStandsInTheWay) {
  const SeasonQuestion yard = yard_that_must_change();
  const SeasonMends mends = mends_of(yard);
  ASSERT_TRUE(mends.faster);
  // All of the feed new in the middle of the first week: 3.5 days.
  EXPECT_EQ(mends.faster->days, 3);
  EXPECT_EQ(mends.faster->where, (std::vector<FasterIn>{{0, 0}}));
  EXPECT_NEAR(mends.faster->cost.in_units(), 280.0, 1e-6);
  const auto over = [&](int days) {
    return plan_season(with_faster_change(yard, days, mends.faster->where)).status;
  };
  EXPECT_EQ(over(3), SeasonStatus::found);
  EXPECT_EQ(over(4), SeasonStatus::none);
  EXPECT_EQ(over(usual_change_days), SeasonStatus::none);
}

TEST(FasterChange, IsNoMendOfHayThatIsShort) {
  EXPECT_FALSE(mends_of(yard_of(1, 10.0, 70, {on_hand(fed("hay"), 250.0)})).faster);
}

TEST(SeasonMends, SayWhenTheTimeWasUp) {
  const SeasonQuestion yard = yard_with_pulp(Strength::guide);
  const auto failure = explain_season_failure(yard);
  ASSERT_TRUE(failure);
  const SeasonMends mends = season_mends(yard, *failure, {.time_limit_seconds = 0.0});
  EXPECT_TRUE(mends.cut_short);
  EXPECT_TRUE(mends.looser.empty());
  EXPECT_FALSE(mends.faster);
}

TEST(SeasonFailure, SaysNothingWhenTheTimeWasUp) {
  EXPECT_FALSE(
      explain_season_failure(yard_with_pulp(Strength::guide), {.time_limit_seconds = 0.0}));
}

}  // namespace
}  // namespace haymow::season_mends_test
