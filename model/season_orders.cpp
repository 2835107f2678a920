#include "model/season_orders.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "model/season_supply.h"

namespace haymow {
namespace {

// Amounts of room, money and feed that differ by so little, relative, are the same.
constexpr double same_kg_share = 1e-9;

bool fits(double amount, double most) {
  return amount <= most + same_kg_share * std::max(1.0, std::abs(most));
}

// What all feeds together have of each store and each month's budget.
class Yard {
 public:
  Yard(const SeasonQuestion& question, const std::vector<FeedDemand>& demand, Bought bought)
      : question_(question), demand_(demand), bought_(std::move(bought)) {}

  [[nodiscard]] const Bought& bought() const { return bought_; }
  void set_all(const Bought& kg) { bought_ = kg; }
  void set(std::size_t offer, std::vector<double> kg) { bought_[offer] = std::move(kg); }

  /// True when the feed is never short and all feeds fit, with `kg` of this one.
  [[nodiscard]] bool allows(std::size_t offer, const std::vector<double>& kg) const {
    return first_short_week(question_, offer, demand_[offer], kg) == question_.weeks.size() &&
           leaves_room(offer, kg);
  }

  /// The same, be the feed short or not.
  [[nodiscard]] bool leaves_room(std::size_t offer, const std::vector<double>& kg) const {
    const FeedSupply& supply = question_.supply[offer];
    double all = 0.0;
    for (const double each : kg) all += each;
    if (!supply.can_be_bought && all > 0.0) return false;
    if (supply.can_be_had && !fits(all, supply.can_be_had->in_kg())) return false;
    return in_store(offer, kg) && in_budget(offer, kg);
  }

  [[nodiscard]] bool allows_all() const {
    for (std::size_t f = 0; f < bought_.size(); ++f) {
      if (!allows(f, bought_[f])) return false;
    }
    return true;
  }

 private:
  // In the store when the week's deliveries have come, as they came through the gate.
  [[nodiscard]] std::vector<double> held(std::size_t offer, const std::vector<double>& kg) const {
    std::vector<double> out;
    const double kept = 1.0 - question_.offers[offer].storage_loss;
    double stock = opening_kg(question_.offers[offer]);
    for (std::size_t w = 0; w < kg.size(); ++w) {
      out.push_back(stock / kept + kg[w]);
      const double used = demand_[offer].put_out[w] + demand_[offer].thrown_away[w];
      stock = std::max(0.0, stock + kg[w] * kept - used);
    }
    return out;
  }

  [[nodiscard]] bool in_store(std::size_t offer, const std::vector<double>& kg) const {
    const auto store = question_.supply[offer].store;
    if (!store) return true;
    for (const bool volume : {false, true}) {
      const auto room = room_of(question_, *store, volume);
      if (!room) continue;
      std::vector<double> all(kg.size(), 0.0);
      for (std::size_t f = 0; f < bought_.size(); ++f) {
        if (question_.supply[f].store != store) continue;
        const double unit = volume ? question_.supply[f].cubic_metres_per_kg : 1.0;
        const std::vector<double> here = held(f, f == offer ? kg : bought_[f]);
        for (std::size_t w = 0; w < all.size(); ++w) all[w] += unit * here[w];
      }
      for (const double each : all) {
        if (!fits(each, *room)) return false;
      }
    }
    return true;
  }

  [[nodiscard]] bool in_budget(std::size_t offer, const std::vector<double>& kg) const {
    for (std::size_t m = 0; m < question_.budget.size(); ++m) {
      if (!question_.budget[m]) continue;
      double spent = 0.0;
      for (std::size_t f = 0; f < bought_.size(); ++f) {
        const std::vector<double>& here = f == offer ? kg : bought_[f];
        for (std::size_t w = 0; w < here.size(); ++w) {
          if (question_.weeks[w].month != m || here[w] <= 0.0) continue;
          const OrderCost cost = order_cost(question_, f, w, here[w]);
          spent += cost.goods + cost.delivery;
        }
      }
      if (!fits(spent, question_.budget[m]->in_units())) return false;
    }
    return true;
  }

  const SeasonQuestion& question_;
  const std::vector<FeedDemand>& demand_;
  Bought bought_;
};

double in_packs(const SeasonQuestion& question, std::size_t offer, double kg, Packs packs) {
  const FeedSupply& supply = question.supply[offer];
  if (supply.least_order && kg > 0.0) kg = std::max(kg, supply.least_order->in_kg());
  if (packs == Packs::any || !supply.pack) return kg;
  const double pack = supply.pack->in_kg();
  return std::max(0.0, std::ceil(kg / pack * (1.0 - same_kg_share) - same_kg_share)) * pack;
}

double bought_cost(const SeasonQuestion& question, std::size_t offer,
                   const std::vector<double>& bought) {
  double sum = 0.0;
  for (std::size_t w = 0; w < bought.size(); ++w) {
    if (bought[w] <= 0.0) continue;
    const OrderCost cost = order_cost(question, offer, w, bought[w]);
    sum += cost.goods + cost.delivery;
  }
  return sum;
}

// Bought, brought, and taken from what was on hand; without end when the feed runs out.
double feed_cost(const SeasonQuestion& question, std::size_t offer, const FeedDemand& demand,
                 const std::vector<double>& bought) {
  const auto stock = stock_of(question, offer, demand, bought);
  double sum = stock ? opening_cost(question, offer, *stock) : unlimited;
  return sum + bought_cost(question, offer, bought);
}

// What the relaxation has bought by each week, rounded up.
std::vector<double> rounded_up(const SeasonQuestion& question, std::size_t offer,
                               const std::vector<double>& suggested, Packs packs) {
  std::vector<double> out(suggested.size(), 0.0);
  double asked = 0.0;
  double had = 0.0;
  for (std::size_t w = 0; w < suggested.size(); ++w) {
    asked += suggested[w];
    if (asked <= had + same_kg_share * std::max(1.0, asked)) continue;
    out[w] = in_packs(question, offer, asked - had, packs);
    had += out[w];
  }
  return out;
}

// No more than has to be there, and no sooner.
std::vector<double> just_in_time(const SeasonQuestion& question, std::size_t offer,
                                 const FeedDemand& demand, Packs packs) {
  std::vector<double> out(question.weeks.size(), 0.0);
  while (true) {
    const std::size_t week = first_short_week(question, offer, demand, out);
    if (week == out.size()) return out;
    const auto needed = needed_in(question, offer, demand, out, week, week);
    out[week] = in_packs(question, offer, out[week] + needed.value_or(0.0), packs);
    if (first_short_week(question, offer, demand, out) <= week) return out;  // cannot be helped
  }
}

// The best chain of orders of one feed that covers the weeks before some week.
struct Chain {
  double cost = 0.0;
  double order_days = 0.0;  // a day on which something else comes too counts little
  std::vector<double> bought;
};

class Chains {
 public:
  Chains(const SeasonQuestion& question, std::size_t offer, const FeedDemand& demand,
         const Yard& yard, const std::vector<bool>& order_days, Packs packs)
      : question_(question),
        offer_(offer),
        demand_(demand),
        yard_(yard),
        order_days_(order_days),
        packs_(packs),
        best_(question.weeks.size() + 1) {}

  std::optional<Chain> cheapest() {
    const std::size_t end = question_.weeks.size();
    offer_chain({0.0, 0.0, std::vector<double>(end, 0.0)});
    for (std::size_t week = 0; week < end; ++week) {
      if (best_[week]) extend(*best_[week], week);
    }
    return best_[end];
  }

 private:
  void offer_chain(Chain chain) {
    auto& best = best_[first_short_week(question_, offer_, demand_, chain.bought)];
    const double near = same_kg_share * std::max(1.0, std::abs(chain.cost));
    if (!best || chain.cost < best->cost - near ||
        (chain.cost <= best->cost + near && chain.order_days < best->order_days)) {
      best = std::move(chain);
    }
  }

  // Orders on a day that is cheaper than all days from it to the week that is short.
  void extend(const Chain& chain, std::size_t short_week) {
    double cheapest = unlimited;
    for (std::size_t week = short_week + 1; week-- > 0;) {
      if (chain.bought[week] > 0.0) return;  // in the order of time
      const double price = plain_cost_per_kg(question_, offer_, week).in_units();
      if (price >= cheapest) continue;
      cheapest = price;
      for (std::size_t through = short_week; through < question_.weeks.size(); ++through) {
        const auto needed = needed_in(question_, offer_, demand_, chain.bought, week, through);
        if (!needed || !order(chain, week, *needed)) break;
      }
      fill_the_room(chain, week);
    }
  }

  // Whatever the amount that makes for a better price or a full load, too.
  bool order(const Chain& chain, std::size_t week, double kg) {
    const FeedSupply& supply = question_.supply[offer_];
    if (!append(chain, week, kg)) return false;
    for (const QuantityPrice& cheaper : supply.cheaper) {
      if (cheaper.from.in_kg() > kg) append(chain, week, cheaper.from.in_kg());
    }
    if (supply.delivery) {
      const double load = supply.delivery->load.in_kg();
      double full = std::ceil(kg / load) * load;
      if (packs_ == Packs::whole && supply.pack) {
        const double pack = supply.pack->in_kg();
        full = std::floor(full / pack + same_kg_share) * pack;
      }
      if (full > kg) append(chain, week, full);
    }
    return true;
  }

  bool append(const Chain& chain, std::size_t week, double kg) {
    Chain longer = chain;
    longer.bought[week] = in_packs(question_, offer_, kg, packs_);
    if (!yard_.leaves_room(offer_, longer.bought)) return false;
    longer.cost = bought_cost(question_, offer_, longer.bought);
    longer.order_days += order_days_[week] ? 0.01 : 1.0;
    offer_chain(std::move(longer));
    return true;
  }

  // The most that may come, found by halving: it may end in the middle of a week.
  void fill_the_room(const Chain& chain, std::size_t week) {
    double low = 0.0;
    double high = 0.0;
    const auto all =
        needed_in(question_, offer_, demand_, chain.bought, week, question_.weeks.size() - 1);
    if (!all && question_.supply[offer_].keeps) return;
    high = all.value_or(0.0);
    std::vector<double> trial = chain.bought;
    for (int halving = 0; halving < 50 && high > low; ++halving) {
      const double middle = (low + high) / 2.0;
      trial[week] = middle;
      (yard_.leaves_room(offer_, trial) ? low : high) = middle;
    }
    const FeedSupply& supply = question_.supply[offer_];
    if (packs_ == Packs::whole && supply.pack) {
      low = std::floor(low / supply.pack->in_kg() + same_kg_share) * supply.pack->in_kg();
    }
    if (low > 0.0) append(chain, week, low);
  }

  const SeasonQuestion& question_;
  std::size_t offer_;
  const FeedDemand& demand_;
  const Yard& yard_;
  const std::vector<bool>& order_days_;
  Packs packs_;
  std::vector<std::optional<Chain>> best_;  // by the first week that is short
};

// Heavy feeds first: they set the days on which the others come along.
std::vector<std::size_t> by_weight(const std::vector<FeedDemand>& demand) {
  std::vector<std::pair<double, std::size_t>> sorted;
  for (std::size_t f = 0; f < demand.size(); ++f) {
    double sum = 0.0;
    for (const double kg : demand[f].put_out) sum += kg;
    sorted.emplace_back(-sum, f);
  }
  std::sort(sorted.begin(), sorted.end());
  std::vector<std::size_t> order;
  for (const auto& [weight, f] : sorted) order.push_back(f);
  return order;
}

}  // namespace

std::optional<Bought> order_season(const SeasonQuestion& question,
                                   const std::vector<FeedDemand>& demand, const Bought& suggested,
                                   Packs packs) {
  Bought early;
  Bought late;
  for (std::size_t f = 0; f < demand.size(); ++f) {
    early.push_back(rounded_up(question, f, suggested[f], packs));
    late.push_back(just_in_time(question, f, demand[f], packs));
  }
  Yard yard(question, demand, early);
  if (!yard.allows_all()) yard.set_all(late);
  if (!yard.allows_all()) {
    // Each feed as the one way or the other, whichever the rest leaves room for.
    for (std::size_t f = 0; f < demand.size() && !yard.allows_all(); ++f) yard.set(f, early[f]);
    if (!yard.allows_all()) return std::nullopt;
  }
  std::vector<bool> order_days(question.weeks.size(), false);
  for (const std::size_t f : by_weight(demand)) {
    const std::vector<double> now = yard.bought()[f];
    const auto chain = Chains(question, f, demand[f], yard, order_days, packs).cheapest();
    const double cost = feed_cost(question, f, demand[f], now);
    if (chain && fits(feed_cost(question, f, demand[f], chain->bought), cost)) {
      yard.set(f, chain->bought);
    }
    for (std::size_t w = 0; w < order_days.size(); ++w) {
      if (yard.bought()[f][w] > 0.0) order_days[w] = true;
    }
  }
  return yard.bought();
}

double cost_of(const SeasonQuestion& question, const std::vector<FeedDemand>& demand,
               const Bought& bought) {
  double sum = 0.0;
  for (std::size_t f = 0; f < bought.size(); ++f) {
    sum += feed_cost(question, f, demand[f], bought[f]);
  }
  return sum;
}

std::vector<OrderLine> order_lines(const SeasonQuestion& question, const Bought& bought,
                                   Packs packs) {
  std::vector<OrderLine> lines;
  for (std::size_t w = 0; w < question.weeks.size(); ++w) {
    for (std::size_t f = 0; f < bought.size(); ++f) {
      const double kg = bought[f][w];
      if (kg <= 0.0) continue;
      const OrderCost cost = order_cost(question, f, w, kg);
      OrderLine line{w, f, KgAsFed{kg}, std::nullopt, Money{cost.goods}, Money{cost.delivery}};
      if (packs == Packs::whole && question.supply[f].pack) {
        line.packs = static_cast<int>(std::lround(kg / question.supply[f].pack->in_kg()));
      }
      lines.push_back(line);
    }
  }
  return lines;
}

}  // namespace haymow
