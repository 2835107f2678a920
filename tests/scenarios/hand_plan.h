// A season's plan made by hand, for tests of what is done with one: every horse gets
// its cheapest ration, every feed is bought in whole packs week by week as it is needed.
// Balanced and safe, not the cheapest; needs no stores, budget or limits.
#pragma once

#include <cmath>
#include <stdexcept>

#include "model/season_plan.h"
#include "scenarios/winter.h"
#include "solver/certify.h"
#include "solver/solve.h"

namespace haymow::hand {

inline double put_out_in_week(const SeasonQuestion& question, const SeasonPlan& plan,
                              std::size_t offer, std::size_t week) {
  double kg = 0.0;
  for (std::size_t h = 0; h < question.horses.size(); ++h) {
    kg += question.weeks[week].days *
          question.offers[offer].put_out(KgAsFed{plan.eaten[h][week][offer]}).in_kg();
  }
  return kg;
}

inline void buy(const SeasonQuestion& question, SeasonPlan& plan, std::size_t offer) {
  const Offer& on_offer = question.offers[offer];
  const FeedSupply& supply = question.supply[offer];
  const double kept = 1.0 - on_offer.storage_loss;
  const double on_hand = on_offer.on_hand.value_or(KgAsFed{}).in_kg();
  const double lost_of_stock = on_hand * on_offer.storage_loss;
  double there = on_hand;
  for (std::size_t w = 0; w < question.weeks.size(); ++w) {
    StockWeek week;
    week.opening = there;
    week.put_out = put_out_in_week(question, plan, offer, w);
    week.lost = w == 0 ? lost_of_stock : 0.0;
    const double short_of = week.put_out + week.lost - there;
    if (short_of > 1e-9) {
      const double pack = supply.pack.value_or(KgAsFed{short_of / kept}).in_kg();
      const int packs = static_cast<int>(std::ceil(short_of / kept / pack - 1e-9));
      week.bought = packs * pack;
      week.lost += week.bought * on_offer.storage_loss;
      OrderLine order;
      order.week = w;
      order.offer = offer;
      order.amount = KgAsFed{week.bought};
      if (supply.pack) order.packs = packs;
      order.goods = week.bought * supply.price_per_kg[w];
      order.delivery = week.bought * on_offer.delivery_per_kg;
      plan.cost += order.goods + order.delivery;
      plan.orders.push_back(order);
    }
    week.closing = there + week.bought - week.lost - week.put_out;
    there = week.closing;
    plan.stock[offer].push_back(week);
  }
  const double gone = on_hand - std::max(0.0, plan.stock[offer].back().closing) / kept;
  if (supply.can_be_bought || on_hand <= 0.0) return;
  plan.cost += gone * (supply.price_per_kg.front() + on_offer.delivery_per_kg);
}

inline SeasonPlan plan_season(const SeasonQuestion& question) {
  SeasonPlan plan;
  std::vector<std::vector<double>> fed;
  for (const RationQuestion& ration : question.rations) {
    const LinearProgram program = formulate(ration).program;
    const Solution solution = solve(program);
    if (solution.status != Status::optimal) {
      plan.status = SeasonStatus::none;
      return plan;
    }
    plan.certificate = certify(program, solution);
    fed.push_back(solution.columns);
    fed.back().resize(ration.offers.size());
  }
  for (const SeasonHorse& horse : question.horses) {
    auto& weeks = plan.eaten.emplace_back();
    for (const std::size_t ration : horse.ration_of_week) weeks.push_back(fed[ration]);
  }
  plan.stock.resize(question.offers.size());
  for (std::size_t f = 0; f < question.offers.size(); ++f) buy(question, plan, f);
  std::stable_sort(plan.orders.begin(), plan.orders.end(),
                   [](const OrderLine& a, const OrderLine& b) { return a.week < b.week; });
  plan.lower_bound = 0.99 * plan.cost;
  plan.in_whole_packs = true;
  plan.status = SeasonStatus::found;
  return plan;
}

inline Planners planners() { return {plan_season, plan_season}; }

}  // namespace haymow::hand
