#include "scenarios/report_json_chances.h"

#include <string>
#include <utility>

#include "scenarios/order_chances.h"
#include "scenarios/report_json_season.h"
#include "scenarios/scenario_dates.h"

namespace haymow {
namespace {

Json told(const QuantileTold& quantile) {
  return {{"at_most", number(quantile.value)},
          {"low", number(quantile.low)},
          {"high", number(quantile.high)}};
}

Json amount(const std::optional<EnoughAmount>& amount) {
  if (!amount) return nullptr;
  return {{"kg", amount->kg}, {"packs", amount->packs ? Json(*amount->packs) : Json(nullptr)}};
}

Json orders_of(const WinterAnswer& answer) {
  Json out = Json::array();
  for (const OrderChance& one : order_chances(answer)) {
    const FeedSupply& supply = answer.question.supply[one.offer];
    out.push_back({{"feed", answer.question.offers[one.offer].name},
                   {"pack", supply.pack ? Json(supply.pack_name) : Json(nullptr)},
                   {"plan", amount(one.plan)},
                   {"nine_in_ten", amount(one.enough)}});
  }
  return out;
}

// Weeks of a draw begin as those of the plan do, and there may be more of them.
std::string first_day(const Scenario& scenario, std::size_t week) {
  return iso_text(days_after(*scenario.from, days_in_week * static_cast<int>(week)));
}

Json draws_of(const Scenario& scenario, const WinterAnswer& answer) {
  Json out = Json::array();
  for (const SeasonDraw& draw : answer.chances->draws) {
    const bool found = draw.status == SeasonStatus::found;
    Json feeds = Json::array();
    for (const DrawnFeed& feed : draw.drawn.feeds) {
      feeds.push_back({{"feed", answer.question.offers[feed.offer].name},
                       {"price_share", feed.price},
                       {"bale_share", feed.bale},
                       {"energy_share", feed.energy},
                       {"crude_protein_share", feed.crude_protein}});
    }
    Json fails = nullptr;
    if (draw.failure && !draw.failure->misses.empty()) {
      const SeasonMiss& miss = draw.failure->misses.front();
      Json names = Json::array();
      for (const std::size_t h : miss.horses) names.push_back(answer.question.horses[h].name);
      fails = {{"first_week_from", first_day(scenario, draw.failure->first_week)},
               {"horses", std::move(names)},
               {"row", miss.row ? row_of(*miss.row) : Json(nullptr)}};
    }
    out.push_back({{"status", season_status(draw.status, true)},
                   {"until", iso_text(days_after(*scenario.until, draw.drawn.days_more))},
                   {"feeds", std::move(feeds)},
                   {"least_cost", found ? number(draw.cost.in_units()) : Json(nullptr)},
                   {"fails_first", std::move(fails)}});
  }
  return out;
}

}  // namespace

Json chances_json(const Scenario& scenario, const WinterAnswer& answer) {
  if (!answer.chances) return nullptr;
  const SeasonChances& chances = *answer.chances;
  return {{"seed", chances.seed},
          {"draws_asked", chances.asked},
          {"draws_planned", chances.draws.size()},
          {"draws_without_plan", chances.count_of(SeasonStatus::none)},
          {"draws_not_known", chances.count_of(SeasonStatus::failed)},
          {"least_cost_as_told", number(answer.plan.lower_bound.in_units())},
          {"least_cost_middle", told(chances.cost(0.5))},
          {"least_cost_nine_in_ten", told(chances.cost(most_winters))},
          {"orders", orders_of(answer)},
          {"draws_fed_by_all_orders",
           chances.enough ? Json(chances.enough->winters_all) : Json(nullptr)},
          {"draws", draws_of(scenario, answer)}};
}

}  // namespace haymow
