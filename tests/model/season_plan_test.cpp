// Buying as people buy, on yards that can be reckoned on paper.
#include "model/season_plan.h"

#include <gtest/gtest.h>

#include <set>

#include "tests/model/hand_yard.h"

namespace haymow::season_plan_test {
namespace {

using namespace hand_made;

SeasonPlan found(const SeasonQuestion& yard, const SeasonOptions& options = {}) {
  SeasonPlan plan = plan_season(yard, options);
  EXPECT_EQ(plan.status, SeasonStatus::found);
  EXPECT_TRUE(plan.certificate.holds());
  EXPECT_LE(plan.largest_imbalance, 1e-9);
  EXPECT_LE(plan.lower_bound.in_units(), plan.cost.in_units() * (1.0 + 1e-9));
  return plan;
}

std::set<std::size_t> order_days(const SeasonPlan& plan) {
  std::set<std::size_t> days;
  for (const OrderLine& line : plan.orders) days.insert(line.week);
  return days;
}

TEST(SeasonPlan, OrdersOnceWhereNothingIsGainedByOrderingAgain) {
  const SeasonPlan plan = found(yard_of(1, 10.0, 70, {fed("hay"), fed("dearer", 2.0)}));
  ASSERT_EQ(plan.orders.size(), 1U);
  EXPECT_EQ(plan.orders[0].week, 0U);
  EXPECT_NEAR(plan.orders[0].amount.in_kg(), 700.0, 1e-6);
  EXPECT_NEAR(plan.cost.in_units(), 700.0, 1e-6);
}

TEST(SeasonPlan, FeedsAlikeFromWeekToWeekWhereNothingChanges) {
  // Two hays of one price: any mixture costs the same.
  const SeasonPlan plan = found(yard_of(1, 10.0, 70, {fed("hay"), fed("other hay")}));
  for (const auto& week : plan.eaten[0]) EXPECT_EQ(week, plan.eaten[0][0]);
}

TEST(SeasonPlan, OrdersAsFarAheadAsTheStoreHolds) {
  SeasonQuestion yard = yard_of(1, 10.0, 70, {fed("hay")});
  yard.stores = {{"barn", KgAsFed{250.0}, std::nullopt}};
  yard.supply[0].store = 0;
  const SeasonPlan plan = found(yard);
  // Three weeks fit: ten weeks take four orders.
  EXPECT_EQ(order_days(plan).size(), 4U);
  for (const StockWeek& week : plan.stock[0]) EXPECT_LE(week.opening + week.bought, 250.0 + 1e-6);
}

TEST(SeasonPlan, OrdersBeforeThePriceRises) {
  SeasonQuestion yard = yard_of(1, 10.0, 56, {fed("hay")});
  for (std::size_t w = 4; w < 8; ++w) set_price(yard, 0, w, 2.0);
  EXPECT_NEAR(found(yard).cost.in_units(), 560.0, 1e-6);
  yard.stores = {{"barn", KgAsFed{290.0}, std::nullopt}};
  yard.supply[0].store = 0;
  // Full on the first day of the fourth week, 220 are left for the dear ones.
  EXPECT_NEAR(found(yard).cost.in_units(), 280.0 + 220.0 + 2.0 * 60.0, 1e-6);
}

TEST(SeasonPlan, BuysWholePacksAndPaysForTheLastOne) {
  SeasonQuestion yard = yard_of(1, 10.0, 70, {fed("hay")});
  yard.supply[0].pack = KgAsFed{18.0};
  const SeasonPlan plan = found(yard);
  EXPECT_TRUE(plan.in_whole_packs);
  EXPECT_EQ(plan.orders.at(0).packs, 39);  // 38.9
  EXPECT_NEAR(plan.cost.in_units(), 39 * 18.0, 1e-6);
  EXPECT_NEAR(plan.lower_bound.in_units(), 700.0, 1e-6);
}

TEST(SeasonPlan, LeavesOutAFeedThatIsNotWorthAWholeBag) {
  // Half a kilogram a day of oats is worth feeding at its price, a bag of 500 kg is not.
  const auto feed = [](const std::string& name, FeedGroup group, double protein, double price) {
    return offer_of(feed_of(name, group, 1000.0,
                            {{Nutrient::energy, 10.0}, {Nutrient::crude_protein, protein}}),
                    price);
  };
  SeasonQuestion yard = empty_yard(
      28, {feed("hay", FeedGroup::hay, 50.0, 1.0), feed("better hay", FeedGroup::hay, 100.0, 1.1),
           feed("pulses", FeedGroup::protein, 250.0, 1.05)});
  add_ration(yard, 10.0);
  yard.rations[0].needs.rows.push_back(need_of(Nutrient::crude_protein, 600.0));
  add_horse(yard, "Juniper", 0);
  const double loose = found(yard).cost.in_units();
  EXPECT_NEAR(loose, 28.0 * (10.0 + 0.5 * 0.05), 1e-6);
  yard.supply[2].pack = KgAsFed{500.0};
  EXPECT_NEAR(found(yard).cost.in_units(), 28.0 * (10.0 + 2.0 * 0.1), 1e-6);
}

TEST(SeasonPlan, OrdersTheAmountFromWhichItIsCheaper) {
  SeasonQuestion yard = yard_of(1, 10.0, 70, {fed("hay")});
  yard.supply[0].cheaper = {{KgAsFed{720.0}, Money{0.1}}};
  EXPECT_NEAR(found(yard).cost.in_units(), 720.0 * 0.9, 1e-6);
  yard.supply[0].cheaper = {{KgAsFed{800.0}, Money{0.1}}};
  EXPECT_NEAR(found(yard).cost.in_units(), 700.0, 1e-6);  // 720 for 800 kg
}

TEST(SeasonPlan, PaysForWholeLoadsAndOrdersAtLeastTheLeast) {
  SeasonQuestion yard = yard_of(1, 10.0, 70, {fed("hay")});
  yard.supply[0].delivery = DeliveryTerms{Money{40.0}, KgAsFed{500.0}};
  const SeasonPlan plan = found(yard);
  EXPECT_NEAR(plan.cost.in_units(), 780.0, 1e-6);
  EXPECT_NEAR(plan.lower_bound.in_units(), 700.0 + 700.0 * 40.0 / 500.0, 1e-6);
  yard.supply[0].least_order = KgAsFed{1000.0};
  EXPECT_NEAR(found(yard).cost.in_units(), 1080.0, 1e-6);
}

TEST(SeasonPlan, OrdersAgainBeforeWhatIsThereIsTooOld) {
  SeasonQuestion yard = yard_of(1, 10.0, 70, {fed("haylage")});
  yard.supply[0].keeps = Days{28.0};
  const SeasonPlan plan = found(yard);
  EXPECT_EQ(order_days(plan).size(), 3U);
  EXPECT_NEAR(plan.cost.in_units(), 700.0, 1e-6);
}

// --- packs that do not keep once open ---

SeasonQuestion haylage_yard(int horses, double haylage_price) {
  SeasonQuestion yard = yard_of(horses, 10.0, 28, {fed("hay", 1.0), fed("haylage", haylage_price)});
  yard.supply[1].pack = KgAsFed{210.0};
  yard.supply[1].keeps_opened = Days{7.0};
  return yard;
}

TEST(SeasonPlan, FeedsHaylageWhereTheYardEatsABaleInTime) {
  const SeasonPlan plan = found(haylage_yard(3, 0.8));
  EXPECT_NEAR(plan.cost.in_units(), 0.8 * 840.0, 1e-6);
}

TEST(SeasonPlan, LeavesHaylageOutWhereABaleWouldGoOffAndBeThrownAway) {
  // One horse eats 70 of 210 kg in time: 168 a week at 0.80 against 70 of hay.
  const SeasonPlan plan = found(haylage_yard(1, 0.8));
  EXPECT_NEAR(plan.cost.in_units(), 280.0, 1e-6);
}

TEST(SeasonPlan, ThrowsTheRestOfABaleAwayWhereThatIsCheaperStill) {
  const SeasonPlan plan = found(haylage_yard(1, 0.2));
  EXPECT_NEAR(plan.cost.in_units(), 0.2 * 840.0, 1e-6);
  EXPECT_NEAR(plan.stock[1][0].spoiled, 140.0, 1e-6);
}

// --- what cannot be ---

TEST(SeasonPlan, SaysThatThereIsNone) {
  Offer hay = fed("hay");
  hay.on_hand = KgAsFed{100.0};
  const SeasonPlan plan = plan_season(yard_of(1, 10.0, 28, {hay}));
  EXPECT_EQ(plan.status, SeasonStatus::none);
  EXPECT_TRUE(plan.eaten.empty());
}

TEST(SeasonPlan, OutOfTimeKeepsABoundThatHolds) {
  const SeasonQuestion yard = yard_of(1, 10.0, 182, {fed("hay"), fed("dearer", 2.0)});
  const SeasonPlan plan = plan_season(yard, {.time_limit_seconds = 0.0});
  EXPECT_EQ(plan.status, SeasonStatus::limit_reached);
  EXPECT_GT(plan.lower_bound.in_units(), 0.0);
  EXPECT_LE(plan.lower_bound.in_units(), 1820.0 + 1e-6);
}

}  // namespace
}  // namespace haymow::season_plan_test
