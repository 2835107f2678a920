// What a season's plan costs, feed by feed, and what each horse is billed for, month by
// month: kilograms and whole hundredths of the currency that add up to the total.
//
// The rule: everything that a feed costs in the season (goods, delivery, what was on hand
// and is gone; and so also what the store, the feeder and the end of the season leave
// uneaten) is divided among the horses by the kilograms of it that are put out for them.
// A kilogram costs the same all season, whenever it was bought and whoever eats it.
#pragma once

#include <cstddef>
#include <vector>

#include "model/pennies.h"
#include "model/season_plan.h"

namespace haymow {

/// One feed over the whole season. Kilograms as fed, of the store's side of the scale.
struct FeedMoney {
  Money goods;     // bought, without delivery
  Money delivery;  // also of what is on hand, where it is reckoned with its delivery
  Money on_hand;   // what was on hand and is gone, as it is reckoned
  double bought_kg = 0.0;
  double gone_kg = 0.0;  // of what was on hand
  double put_out_kg = 0.0;
  double eaten_kg = 0.0;
  double lost_kg = 0.0;     // in the store
  double spoiled_kg = 0.0;  // thrown away
  double left_kg = 0.0;     // bought and still there when the season ends

  [[nodiscard]] Money cost() const { return goods + delivery + on_hand; }
};

/// Where the money of the season goes; the parts add up to the cost.
struct MoneyGoes {
  Money eaten;
  Money wasted;   // put out and not eaten
  Money lost;     // in the store
  Money spoiled;  // thrown away
  Money left;     // bought and still there when the season ends
  Money delivery;
};

/// The total by what it was paid for.
struct Paid {
  std::vector<Pennies> goods;     // one an order line of the plan
  std::vector<Pennies> delivery;  // one an order line of the plan
  std::vector<Pennies> on_hand;   // one an offer: what was on hand and is gone
};

/// Of one horse in one month.
struct MonthOfBill {
  int days = 0;
  std::vector<double> put_out_kg;  // one an offer
  std::vector<Pennies> money;      // one an offer
  Pennies total = 0;
};

struct HorseBill {
  std::vector<MonthOfBill> months;
  std::vector<double> put_out_kg;  // one an offer, of the season
  Pennies total = 0;
};

struct SeasonBills {
  std::vector<FeedMoney> feeds;  // one an offer
  MoneyGoes goes;
  Paid paid;
  std::vector<HorseBill> horses;  // of the season's, in its order
  std::vector<Pennies> by_month;
  std::vector<Pennies> by_feed;
  Pennies total = 0;
  double largest_difference = 0.0;  // of the feeds' cost from the plan's, relative
};

/// `days_in_month`: [week][month], the days of a week that are in each month. First the
/// total is divided among the horses, then each horse's among its months, then a month's
/// among its feeds, so that the bills and the feeds come within a hundredth of their
/// exact shares.
[[nodiscard]] SeasonBills season_bills(const SeasonQuestion& question, const SeasonPlan& plan,
                                       const std::vector<std::vector<int>>& days_in_month);

}  // namespace haymow
