#include "scenarios/report_json_season.h"

#include <utility>

#include "scenarios/scenario_dates.h"

namespace haymow {

std::string_view season_status(SeasonStatus status, bool complete) {
  switch (status) {
    case SeasonStatus::found:
      return complete ? "found" : "none";
    case SeasonStatus::none:
      return "none";
    case SeasonStatus::limit_reached:
      return "limit_reached";
    case SeasonStatus::failed:
      return "failed";
  }
  return "";
}

Json number(const std::optional<Money>& money) {
  return money ? number(money->in_units()) : Json(nullptr);
}

Json season_of(const Scenario& scenario) {
  return {{"from", iso_text(*scenario.from)}, {"until", iso_text(*scenario.until)}};
}

std::string first_day_of(const Scenario& scenario, const SeasonWeek& week) {
  return iso_text(days_after(*scenario.from, week.first_day));
}

std::string last_day_of(const Scenario& scenario, const SeasonWeek& week) {
  return iso_text(days_after(*scenario.from, week.first_day + week.days - 1));
}

Json order_of(const Scenario& scenario, const SeasonQuestion& question, const OrderLine& order) {
  const std::string& pack = question.supply[order.offer].pack_name;
  return {{"date", first_day_of(scenario, question.weeks[order.week])},
          {"feed", question.offers[order.offer].name},
          {"kg", order.amount.in_kg()},
          {"packs", order.packs ? Json(*order.packs) : Json(nullptr)},
          {"pack", order.packs ? Json(pack) : Json(nullptr)}};
}

Json spell_of(const Scenario& scenario, const SeasonQuestion& question, const SeasonPlan& plan,
              std::size_t horse, const FeedingSpell& spell) {
  Json feeds = Json::array();
  for (const SpellFeed& fed : spell.feeds) {
    feeds.push_back({{"feed", question.offers[fed.offer].name},
                     {"kg_as_fed", plan.eaten[horse][spell.first_week][fed.offer]},
                     {"kg_put_out_in_steps", fed.put_out_kg}});
  }
  return {{"from", first_day_of(scenario, question.weeks[spell.first_week])},
          {"until", last_day_of(scenario, question.weeks[spell.last_week])},
          {"feeds", std::move(feeds)}};
}

}  // namespace haymow
