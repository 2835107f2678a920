#include "model/season_bills.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numeric>
#include <stdexcept>

#include "model/pennies.h"

namespace haymow::season_bills_test {
namespace {

// 10.00 among three: 3.34, 3.33, 3.33, the odd hundredth to the first of equals.
TEST(Pennies, OddOnesGoToTheLargestRemainders) {
  EXPECT_EQ(divide(1000, {1.0, 1.0, 1.0}), (std::vector<Pennies>{334, 333, 333}));
  EXPECT_EQ(divide(100, {0.5, 0.25, 0.25}), (std::vector<Pennies>{50, 25, 25}));
  EXPECT_EQ(divide(7, {0.0, 0.0}), (std::vector<Pennies>{4, 3}));
  EXPECT_TRUE(divide(0, {}).empty());
  EXPECT_THROW((void)divide(1, {}), std::invalid_argument);
  EXPECT_THROW((void)divide(1, {1.0, -1.0}), std::invalid_argument);
}

// The textbook example of the method (A to F with 47,000, 16,000, 15,900, 12,000, 6,000
// and 3,100 votes, ten seats): 5, 2, 1, 1, 1, 0. Source: the article "Largest remainder
// method" of an encyclopedia, Hare quota.
TEST(Pennies, AreSharedOutAsSeatsAre) {
  EXPECT_EQ(divide(10, {47000.0, 16000.0, 15900.0, 12000.0, 6000.0, 3100.0}),
            (std::vector<Pennies>{5, 2, 1, 1, 1, 0}));
}

RC_GTEST_PROP(Pennies, AddUpAndAreWithinAHundredth, ()) {
  const auto total = *rc::gen::inRange<Pennies>(0, 100000000);
  const auto parts =
      *rc::gen::nonEmpty(rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 1000000)));
  std::vector<double> shares(parts.begin(), parts.end());
  const double sum = std::accumulate(shares.begin(), shares.end(), 0.0);
  const auto money = divide(total, shares);
  RC_ASSERT(std::accumulate(money.begin(), money.end(), Pennies{0}) == total);
  for (std::size_t i = 0; i < shares.size() && sum > 0.0; ++i) {
    const double exact = static_cast<double>(total) * shares[i] / sum;
    RC_ASSERT(std::abs(static_cast<double>(money[i]) - exact) < 1.0 + 1e-6);
  }
}

Offer offer(double price, double waste, double loss) {
  Offer made;
  made.name = "feed";
  made.price_per_kg = Money{price};
  made.waste = waste;
  made.storage_loss = loss;
  return made;
}

/// A plan that balances, of `horses` who eat `kg` a day of each feed in each week, times
/// a factor of their own; everything bought in the first week, `extra` kg too many.
struct Case {
  SeasonQuestion question;
  SeasonPlan plan;
  std::vector<std::vector<int>> days_in_month;
};

Case plan_of(const std::vector<std::vector<double>>& kg_a_day, const std::vector<double>& prices,
             double extra) {
  Case out;
  out.question.months = {"2026-11", "2026-12"};
  const std::size_t weeks = 5;
  for (std::size_t w = 0; w < weeks; ++w) {
    out.question.weeks.push_back({static_cast<int>(7 * w), 7, w < 4 ? 0u : 1u});
    out.days_in_month.push_back(w < 4 ? std::vector<int>{7, 0} : std::vector<int>{2, 5});
  }
  for (std::size_t f = 0; f < prices.size(); ++f) {
    out.question.offers.push_back(offer(prices[f], 0.1, 0.05));
    FeedSupply supply;
    supply.price_per_kg.assign(weeks, Money{prices[f]});
    out.question.supply.push_back(supply);
  }
  std::vector<double> a_week(prices.size(), 0.0);
  for (const auto& kg : kg_a_day) {
    out.question.horses.push_back({"horse", std::vector<std::size_t>(weeks, 0), {}});
    out.plan.eaten.emplace_back(weeks, kg);
    for (std::size_t f = 0; f < prices.size(); ++f) a_week[f] += 7.0 * kg[f] / 0.9;
  }
  for (std::size_t f = 0; f < prices.size(); ++f) {
    const double bought = (static_cast<double>(weeks) * a_week[f] + extra) / 0.95;
    OrderLine order;
    order.offer = f;
    order.amount = KgAsFed{bought};
    order.goods = bought * Money{prices[f]};
    order.delivery = Money{12.34};
    out.plan.orders.push_back(order);
    out.plan.cost += order.goods + order.delivery;
    auto& stock = out.plan.stock.emplace_back();
    double there = bought * 0.95;
    for (std::size_t w = 0; w < weeks; ++w) {
      StockWeek week;
      week.bought = w == 0 ? bought : 0.0;
      week.lost = 0.05 * week.bought;
      week.opening = w == 0 ? 0.0 : there;
      week.put_out = a_week[f];
      there -= a_week[f];
      week.closing = there;
      stock.push_back(week);
    }
  }
  return out;
}

RC_GTEST_PROP(SeasonBills, AddUpToTheHundredthEveryWay, ()) {
  const auto horses = *rc::gen::inRange<std::size_t>(1, 8);
  const auto feeds = *rc::gen::inRange<std::size_t>(1, 6);
  const auto some = [](int most) { return *rc::gen::inRange(0, most) / 1000.0; };
  std::vector<std::vector<double>> kg(horses);
  std::vector<double> prices(feeds);
  for (auto& of_horse : kg) {
    for (std::size_t f = 0; f < feeds; ++f) of_horse.push_back(some(12000));
  }
  for (double& price : prices) price = some(3000);
  const Case made = plan_of(kg, prices, some(90000));
  const SeasonBills bills = season_bills(made.question, made.plan, made.days_in_month);

  RC_ASSERT(bills.largest_difference < 1e-9);
  Pennies all = 0;
  std::vector<Pennies> by_month(2, 0);
  std::vector<Pennies> by_feed(feeds, 0);
  for (const HorseBill& bill : bills.horses) {
    Pennies of_horse = 0;
    for (std::size_t m = 0; m < 2; ++m) {
      const MonthOfBill& month = bill.months[m];
      RC_ASSERT(std::accumulate(month.money.begin(), month.money.end(), Pennies{0}) == month.total);
      of_horse += month.total;
      by_month[m] += month.total;
      for (std::size_t f = 0; f < feeds; ++f) by_feed[f] += month.money[f];
    }
    RC_ASSERT(of_horse == bill.total);
    all += of_horse;
  }
  RC_ASSERT(all == bills.total);
  RC_ASSERT(bills.total == nearest_penny(made.plan.cost));
  RC_ASSERT(by_month == bills.by_month);
  RC_ASSERT(by_feed == bills.by_feed);
  for (std::size_t f = 0; f < feeds; ++f) {
    const double exact = 100.0 * bills.feeds[f].cost().in_units();
    RC_ASSERT(std::abs(static_cast<double>(by_feed[f]) - exact) < 1.6);
  }
  Pennies paid = 0;
  for (const auto* part : {&bills.paid.goods, &bills.paid.delivery, &bills.paid.on_hand}) {
    paid += std::accumulate(part->begin(), part->end(), Pennies{0});
  }
  RC_ASSERT(paid == bills.total);
  const MoneyGoes& goes = bills.goes;
  const Money sum = goes.eaten + goes.wasted + goes.lost + goes.spoiled + goes.left + goes.delivery;
  RC_ASSERT(std::abs(sum.in_units() - made.plan.cost.in_units()) <
            1e-9 * (1.0 + made.plan.cost.in_units()));
}

// Two horses, one eats three times what the other eats: so do their bills, and waste and
// delivery with them.
TEST(SeasonBills, GoByTheKilogramsPutOut) {
  const Case made = plan_of({{9.0}, {3.0}}, {0.25}, 40.0);
  const SeasonBills bills = season_bills(made.question, made.plan, made.days_in_month);
  const double total = made.plan.cost.in_units();
  EXPECT_NEAR(static_cast<double>(bills.horses[0].total), 75.0 * total, 1.0);
  EXPECT_NEAR(bills.horses[0].put_out_kg[0], 35 * 10.0, 1e-9);
  EXPECT_NEAR(bills.horses[0].months[1].put_out_kg[0], 5 * 10.0, 1e-9);
  EXPECT_EQ(bills.horses[0].months[0].days, 30);
  EXPECT_NEAR(bills.feeds[0].left_kg, 40.0, 1e-9);
}

TEST(SeasonBills, WhatNobodyAteIsSharedByTheDays) {
  const Case made = plan_of({{0.0}, {0.0}}, {1.0}, 10.0);
  const SeasonBills bills = season_bills(made.question, made.plan, made.days_in_month);
  EXPECT_NEAR(static_cast<double>(bills.horses[0].total),
              static_cast<double>(bills.horses[1].total), 1.0);
  EXPECT_EQ(bills.horses[0].total + bills.horses[1].total, bills.total);
}

}  // namespace
}  // namespace haymow::season_bills_test
