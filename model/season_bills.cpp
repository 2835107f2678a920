#include "model/season_bills.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

namespace haymow {
namespace {

// Kilograms put out a day for a horse in a week, of the yard's offers (grass, which
// stands behind them, is nobody's bill).
double put_out_a_day(const SeasonQuestion& question, const SeasonPlan& plan, std::size_t horse,
                     std::size_t week, std::size_t offer) {
  const double eaten = plan.eaten[horse][week][offer];
  return question.offers[offer].put_out(KgAsFed{eaten}).in_kg();
}

// What was on hand is gone as far as the store ever sank below it: what is bought later
// to take its place brings nothing back. After what the store loses.
double gone_from_store(const std::vector<StockWeek>& stock, double opening) {
  double least = opening;
  for (const StockWeek& week : stock) least = std::min(least, week.closing);
  return std::max(0.0, opening - least);
}

FeedMoney money_of_feed(const SeasonQuestion& question, const SeasonPlan& plan, std::size_t offer) {
  const Offer& on_offer = question.offers[offer];
  const FeedSupply& supply = question.supply[offer];
  FeedMoney feed;
  for (const OrderLine& order : plan.orders) {
    if (order.offer != offer) continue;
    feed.goods += order.goods;
    feed.delivery += order.delivery;
    feed.bought_kg += order.amount.in_kg();
  }
  const std::vector<StockWeek>& stock = plan.stock[offer];
  const double kept = 1.0 - on_offer.storage_loss;
  const double on_hand = on_offer.on_hand.value_or(KgAsFed{}).in_kg();
  feed.gone_kg = gone_from_store(stock, on_hand * kept) / kept;
  feed.on_hand = feed.gone_kg * supply.price_per_kg.front();
  if (!supply.delivery) feed.delivery += feed.gone_kg * on_offer.delivery_per_kg;
  for (const StockWeek& week : stock) {
    feed.put_out_kg += week.put_out;
    feed.spoiled_kg += week.spoiled;
  }
  feed.eaten_kg = on_offer.eaten(KgAsFed{feed.put_out_kg}).in_kg();
  feed.lost_kg = on_offer.storage_loss * (feed.bought_kg + feed.gone_kg);
  feed.left_kg = std::max(
      0.0, feed.bought_kg + feed.gone_kg - feed.lost_kg - feed.put_out_kg - feed.spoiled_kg);
  return feed;
}

// The goods of a feed by the kilograms that go each way.
void add_ways(const FeedMoney& feed, MoneyGoes& goes) {
  const Money goods = feed.goods + feed.on_hand;
  const double kg = feed.put_out_kg + feed.lost_kg + feed.spoiled_kg + feed.left_kg;
  goes.delivery += feed.delivery;
  if (kg <= 0.0) {
    goes.left += goods;
    return;
  }
  goes.eaten += feed.eaten_kg / kg * goods;
  goes.wasted += (feed.put_out_kg - feed.eaten_kg) / kg * goods;
  goes.lost += feed.lost_kg / kg * goods;
  goes.spoiled += feed.spoiled_kg / kg * goods;
  goes.left += feed.left_kg / kg * goods;
}

// The exact money of a horse in a month for one feed. What nobody was fed and is paid
// for all the same is shared by the days.
double exact_share(const SeasonQuestion& question, const FeedMoney& feed, double put_out_kg,
                   double put_out_by_all, int days, int days_of_season) {
  const double cost = feed.cost().in_units();
  if (put_out_by_all > 0.0) return cost * (put_out_kg / put_out_by_all);
  return cost * days / days_of_season / static_cast<double>(question.horses.size());
}

void add_days(const SeasonQuestion& question, const SeasonPlan& plan, std::size_t horse,
              const std::vector<std::vector<int>>& days_in_month, HorseBill& bill) {
  const std::size_t offers = question.offers.size();
  bill.months.resize(question.months.size());
  bill.put_out_kg.assign(offers, 0.0);
  for (MonthOfBill& month : bill.months) month.put_out_kg.assign(offers, 0.0);
  for (std::size_t w = 0; w < question.weeks.size(); ++w) {
    for (std::size_t m = 0; m < bill.months.size(); ++m) {
      const int days = days_in_month[w][m];
      bill.months[m].days += days;
      for (std::size_t f = 0; f < offers; ++f) {
        const double kg = days * put_out_a_day(question, plan, horse, w, f);
        bill.months[m].put_out_kg[f] += kg;
        bill.put_out_kg[f] += kg;
      }
    }
  }
}

using Exact = std::vector<std::vector<double>>;  // [month][offer]

double sum_of(const std::vector<double>& parts) {
  return std::accumulate(parts.begin(), parts.end(), 0.0);
}

// One entry a horse.
std::vector<Exact> exact_shares(const SeasonQuestion& question, const SeasonBills& bills) {
  const std::size_t offers = question.offers.size();
  std::vector<double> put_out_by_all(offers, 0.0);
  for (const HorseBill& bill : bills.horses) {
    for (std::size_t f = 0; f < offers; ++f) put_out_by_all[f] += bill.put_out_kg[f];
  }
  int days = 0;
  for (const SeasonWeek& week : question.weeks) days += week.days;
  std::vector<Exact> shares;
  for (const HorseBill& bill : bills.horses) {
    Exact& of_months = shares.emplace_back();
    for (const MonthOfBill& month : bill.months) {
      auto& of_feeds = of_months.emplace_back();
      for (std::size_t f = 0; f < offers; ++f) {
        of_feeds.push_back(exact_share(question, bills.feeds[f], month.put_out_kg[f],
                                       put_out_by_all[f], month.days, days));
      }
    }
  }
  return shares;
}

// From the horse's total down to each feed of each month.
void divide_bill(const Exact& exact, HorseBill& bill, SeasonBills& bills) {
  std::vector<double> of_months;
  for (const auto& of_feeds : exact) of_months.push_back(sum_of(of_feeds));
  const std::vector<Pennies> by_month = divide(bill.total, of_months);
  for (std::size_t m = 0; m < bill.months.size(); ++m) {
    MonthOfBill& month = bill.months[m];
    month.total = by_month[m];
    month.money = divide(month.total, exact[m]);
    bills.by_month[m] += month.total;
  }
}

/// One feed of one month of one horse that a penny is taken from, or given to.
struct Cell {
  Pennies* money = nullptr;
  double over = 0.0;  // pennies above its exact share
};

// The month in which a penny moved from one feed to another brings both nearest to
// their exact shares; the total of the month stays.
std::pair<Cell, Cell> best_move(const std::vector<Exact>& exact, SeasonBills& bills,
                                std::size_t from, std::size_t to) {
  std::pair<Cell, Cell> best;
  for (const bool eaten : {true, false}) {
    for (std::size_t h = 0; h < bills.horses.size(); ++h) {
      for (std::size_t m = 0; m < bills.horses[h].months.size(); ++m) {
        auto& money = bills.horses[h].months[m].money;
        const auto& shares = exact[h][m];
        if (money[from] <= 0 || (eaten && shares[to] <= 0.0)) continue;
        const Cell a{&money[from], static_cast<double>(money[from]) - 100.0 * shares[from]};
        const Cell b{&money[to], static_cast<double>(money[to]) - 100.0 * shares[to]};
        const bool better =
            best.first.money == nullptr || a.over - b.over > best.first.over - best.second.over;
        if (better) best = {a, b};
      }
    }
    if (best.first.money != nullptr) break;
  }
  return best;
}

// Many small shares, each rounded, drift from what a feed cost: pennies are moved
// between feeds until each comes to its own total.
void settle_feeds(const std::vector<Exact>& exact, SeasonBills& bills) {
  std::vector<double> costs;
  for (const FeedMoney& feed : bills.feeds) costs.push_back(feed.cost().in_units());
  bills.by_feed = divide(bills.total, costs);
  std::vector<Pennies> over(bills.by_feed.size(), 0);
  for (std::size_t f = 0; f < over.size(); ++f) over[f] = -bills.by_feed[f];
  for (const HorseBill& bill : bills.horses) {
    for (const MonthOfBill& month : bill.months) {
      for (std::size_t f = 0; f < over.size(); ++f) over[f] += month.money[f];
    }
  }
  for (;;) {
    const auto from = std::max_element(over.begin(), over.end());
    const auto to = std::min_element(over.begin(), over.end());
    if (from == over.end() || *from <= 0 || *to >= 0) return;
    const auto [a, b] = best_move(exact, bills, static_cast<std::size_t>(from - over.begin()),
                                  static_cast<std::size_t>(to - over.begin()));
    if (a.money == nullptr) return;  // cannot be: a feed above its total has a penny somewhere
    --*a.money;
    ++*b.money;
    --*from;
    ++*to;
  }
}

Paid paid_for(const SeasonPlan& plan, const SeasonBills& bills) {
  const std::size_t orders = plan.orders.size();
  std::vector<double> parts;
  for (const OrderLine& order : plan.orders) parts.push_back(order.goods.in_units());
  for (const OrderLine& order : plan.orders) parts.push_back(order.delivery.in_units());
  for (std::size_t f = 0; f < bills.feeds.size(); ++f) {
    // What the orders leave of a feed's delivery is that of its stock.
    Money delivery = bills.feeds[f].delivery;
    for (const OrderLine& order : plan.orders) {
      if (order.offer == f) delivery = delivery - order.delivery;
    }
    parts.push_back(std::max(0.0, (bills.feeds[f].on_hand + delivery).in_units()));
  }
  const std::vector<Pennies> all = divide(bills.total, parts);
  const auto at = [&](std::size_t i) { return all.begin() + static_cast<std::ptrdiff_t>(i); };
  return {{at(0), at(orders)}, {at(orders), at(2 * orders)}, {at(2 * orders), all.end()}};
}

}  // namespace

SeasonBills season_bills(const SeasonQuestion& question, const SeasonPlan& plan,
                         const std::vector<std::vector<int>>& days_in_month) {
  SeasonBills bills;
  double cost = 0.0;
  for (std::size_t f = 0; f < question.offers.size(); ++f) {
    bills.feeds.push_back(money_of_feed(question, plan, f));
    cost += bills.feeds.back().cost().in_units();
    add_ways(bills.feeds.back(), bills.goes);
  }
  const double planned = plan.cost.in_units();
  bills.largest_difference = std::abs(cost - planned) / std::max(1.0, std::abs(planned));
  bills.total = nearest_penny(plan.cost);
  bills.paid = paid_for(plan, bills);
  bills.by_month.assign(question.months.size(), 0);
  for (std::size_t h = 0; h < question.horses.size(); ++h) {
    add_days(question, plan, h, days_in_month, bills.horses.emplace_back());
  }
  const std::vector<Exact> exact = exact_shares(question, bills);
  std::vector<double> of_horses;
  for (const Exact& of_months : exact) {
    double sum = 0.0;
    for (const auto& of_feeds : of_months) sum += sum_of(of_feeds);
    of_horses.push_back(sum);
  }
  if (bills.horses.empty()) return bills;  // nobody to bill
  const std::vector<Pennies> totals = divide(bills.total, of_horses);
  for (std::size_t h = 0; h < bills.horses.size(); ++h) {
    bills.horses[h].total = totals[h];
    divide_bill(exact[h], bills.horses[h], bills);
  }
  settle_feeds(exact, bills);
  return bills;
}

}  // namespace haymow
