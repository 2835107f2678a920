#include "model/season_stock.h"

#include <algorithm>
#include <cmath>
#include <deque>

#include "model/season_supply.h"

namespace haymow {
namespace {

// Short of so little, relative to the week's feed, is the arithmetic's.
constexpr double stock_rounding = 1e-9;

struct Batch {
  std::size_t week = 0;  // it came
  double kg = 0.0;
};

// The oldest first. A batch of `endless` weight is asked how much of it was taken.
class Stack {
 public:
  Stack(const SeasonQuestion& question, std::size_t offer) : question_(question), offer_(offer) {
    const double opening = opening_kg(question.offers[offer]);
    if (opening > 0.0) batches_.push_back({0, opening});
  }

  void add(std::size_t week, double kg) {
    if (kg > 0.0) batches_.push_back({week, kg});
  }

  /// Returns what is missing.
  double take(double kg) {
    while (kg > 0.0 && !batches_.empty()) {
      const double taken = std::min(kg, batches_.front().kg);
      batches_.front().kg -= taken;
      kg -= taken;
      if (batches_.front().kg <= 0.0) batches_.pop_front();
    }
    return kg;
  }

  /// Throws out what will not do for the week after `week`, and returns how much.
  double clear(std::size_t week) {
    double spoiled = 0.0;
    while (!batches_.empty() && !still_good(question_, offer_, batches_.front().week, week + 1)) {
      spoiled += batches_.front().kg;
      batches_.pop_front();
    }
    return spoiled;
  }

  [[nodiscard]] double kg() const {
    double sum = 0.0;
    for (const Batch& batch : batches_) sum += batch.kg;
    return sum;
  }

 private:
  const SeasonQuestion& question_;
  std::size_t offer_;
  std::deque<Batch> batches_;
};

bool matters(double missing, double of) { return missing > stock_rounding * std::max(1.0, of); }

}  // namespace

std::optional<std::vector<StockWeek>> stock_of(const SeasonQuestion& question, std::size_t offer,
                                               const FeedDemand& demand,
                                               const std::vector<double>& bought) {
  const Offer& feed = question.offers[offer];
  Stack stack(question, offer);
  std::vector<StockWeek> weeks;
  for (std::size_t w = 0; w < question.weeks.size(); ++w) {
    StockWeek week;
    if (w > 0) {
      week.opening = weeks.back().closing;
    } else if (feed.on_hand) {
      week.opening = feed.on_hand->in_kg();
      week.lost = week.opening - opening_kg(feed);
    }
    week.bought = bought[w];
    const double kept = bought[w] * (1.0 - feed.storage_loss);
    week.lost += bought[w] - kept;
    stack.add(w, kept);
    week.put_out = demand.put_out[w];
    if (matters(stack.take(week.put_out), week.put_out)) return std::nullopt;
    const double thrown = demand.thrown_away[w];
    week.spoiled = thrown - stack.take(thrown);
    week.spoiled += stack.clear(w);
    week.closing = stack.kg();
    weeks.push_back(week);
  }
  return weeks;
}

std::size_t first_short_week(const SeasonQuestion& question, std::size_t offer,
                             const FeedDemand& demand, const std::vector<double>& bought) {
  Stack stack(question, offer);
  for (std::size_t w = 0; w < question.weeks.size(); ++w) {
    stack.add(w, bought[w] * (1.0 - question.offers[offer].storage_loss));
    const double out = demand.put_out[w] + demand.thrown_away[w];
    if (matters(stack.take(out), out)) return w;
    stack.clear(w);
  }
  return question.weeks.size();
}

std::optional<double> needed_in(const SeasonQuestion& question, std::size_t offer,
                                const FeedDemand& demand, const std::vector<double>& bought,
                                std::size_t week, std::size_t through) {
  Stack stack(question, offer);
  double missing = 0.0;
  for (std::size_t w = 0; w <= through; ++w) {
    stack.add(w, bought[w] * (1.0 - question.offers[offer].storage_loss));
    const double out = demand.put_out[w] + demand.thrown_away[w];
    const double here = stack.take(out);
    if (matters(here, out)) {
      if (w < week || (w > week && !still_good(question, offer, week, w))) return std::nullopt;
      missing += here;
    }
    stack.clear(w);
  }
  return missing / (1.0 - question.offers[offer].storage_loss);
}

OrderCost order_cost(const SeasonQuestion& question, std::size_t offer, std::size_t week,
                     double kg) {
  const FeedSupply& supply = question.supply[offer];
  double price = supply.price_per_kg[week].in_units();
  double less = 0.0;
  for (const QuantityPrice& cheaper : supply.cheaper) {
    if (kg >= cheaper.from.in_kg() * (1.0 - stock_rounding)) {
      less = std::max(less, cheaper.less_per_kg.in_units());
    }
  }
  price = std::max(0.0, price - less);
  OrderCost cost{price * kg, question.offers[offer].delivery_per_kg.in_units() * kg};
  if (supply.delivery) {
    const double loads = std::ceil(kg / supply.delivery->load.in_kg() - stock_rounding);
    cost.delivery = supply.delivery->charge.in_units() * loads;
  }
  return cost;
}

double opening_cost(const SeasonQuestion& question, std::size_t offer,
                    const std::vector<StockWeek>& stock) {
  const Offer& feed = question.offers[offer];
  const double opening = opening_kg(feed);
  if (opening <= 0.0) return 0.0;
  double left = still_good(question, offer, 0, question.weeks.size()) ? opening : 0.0;
  for (const StockWeek& week : stock) left = std::min(left, week.closing);
  return plain_cost_per_kg(question, offer, 0).in_units() * (opening - left) /
         (1.0 - feed.storage_loss);
}

double largest_imbalance(const std::vector<std::vector<StockWeek>>& stock) {
  double largest = 0.0;
  for (const auto& feed : stock) {
    for (const StockWeek& week : feed) {
      largest = std::max(largest, std::abs(week.opening + week.bought - week.lost - week.put_out -
                                           week.spoiled - week.closing));
    }
  }
  return largest;
}

}  // namespace haymow
