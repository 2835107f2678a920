// The JSON of `haymow stretch`; docs/reference/json-report.md describes it.
#include "scenarios/report_json_stretch.h"

#include "scenarios/report_json_season.h"
#include "scenarios/report_json_season_failure.h"
#include "scenarios/scenario_dates.h"
#include "scenarios/wording.h"

namespace haymow {
namespace {

class StretchJson {
 public:
  StretchJson(const Scenario& scenario, const StretchAnswer& answer)
      : scenario_(scenario), answer_(answer), question_(answer.question) {}

  void add_to(Json& out) const {
    out["season"] = season_of(scenario_);
    out["assumptions"] = answer_.assumptions;
    out["stopped"] = answer_.stopped_in.has_value();
    out["today"] = today();
    out["runs_out"] = runs_out();
    out["plan"] = answer_.found() ? plan_of(question_, answer_.plan) : Json(nullptr);
    out["latest_change"] = answer_.latest ? latest() : Json(nullptr);
    out["short_feeds"] = short_feeds();
    out["break_even"] = break_even();
    out["four_weeks_longer"] = answer_.reserve ? reserve() : Json(nullptr);
    out["failure"] = season_failure_json(scenario_, question_, answer_.failure, answer_.mends);
    out["refused"] = Json::array();
    for (const std::size_t h : answer_.refused) {
      out["refused"].push_back({{"name", scenario_.stable.horses[h].name},
                                {"reasons", refusal(scenario_.stable.horses[h])}});
    }
  }

 private:
  std::string date(int after) const { return iso_text(days_after(*scenario_.from, after)); }
  std::string first_day(const SeasonQuestion& q, std::size_t week) const {
    return first_day_of(scenario_, q.weeks[week]);
  }
  const std::string& feed(std::size_t f) const { return question_.offers[f].name; }
  Json today() const {
    Json out = Json::array();
    for (const FedToday& horse : answer_.today) {
      Json feeds = Json::array();
      for (std::size_t f = 0; f < question_.offers.size(); ++f) {
        const double kg = horse.put_out_a_day[f].front();
        if (kg > 0.0) feeds.push_back({{"feed", feed(f)}, {"kg_put_out", kg}});
      }
      out.push_back({{"name", question_.horses[horse.horse].name},
                     {"from", horse.told ? "the file" : "the cheapest ration"},
                     {"feeds_of_first_day", std::move(feeds)},
                     {"not_on_offer", horse.extra}});
    }
    for (const std::string& name : answer_.unknown) {
      out.push_back({{"name", name},
                     {"from", "not known"},
                     {"feeds_of_first_day", Json::array()},
                     {"not_on_offer", Json::array()}});
    }
    return out;
  }

  Json runs_out() const {
    Json out = Json::array();
    for (const RunsOut& stock : answer_.runs_out) {
      out.push_back({{"feed", feed(stock.offer)},
                     {"kg_there", stock.stock_kg},
                     {"kg_needed", stock.needed_kg},
                     {"days", stock.day ? Json(*stock.day) : Json(nullptr)},
                     {"runs_out_on", stock.day ? Json(date(*stock.day)) : Json(nullptr)},
                     {"too_old", stock.too_old},
                     {"kg_short", stock.short_kg},
                     {"kg_left", stock.left_kg}});
    }
    return out;
  }

  Json plan_of(const SeasonQuestion& q, const SeasonPlan& plan) const {
    return {{"cost", plan.cost.in_units()},
            {"lower_bound", plan.lower_bound.in_units()},
            {"in_whole_packs", plan.in_whole_packs},
            {"certificate", certificate_of(plan.certificate)},
            {"largest_imbalance_kg", number(plan.largest_imbalance)},
            {"orders", orders_of(q, plan)},
            {"horses", horses_of(q, plan)}};
  }

  Json orders_of(const SeasonQuestion& q, const SeasonPlan& plan) const {
    Json out = Json::array();
    for (const OrderLine& order : plan.orders) {
      Json line = order_of(scenario_, q, order);
      line["goods"] = order.goods.in_units();
      line["delivery"] = order.delivery.in_units();
      out.push_back(std::move(line));
    }
    return out;
  }

  Json horses_of(const SeasonQuestion& q, const SeasonPlan& plan) const {
    Json out = Json::array();
    for (std::size_t h = 0; h < q.horses.size(); ++h) {
      Json spells = Json::array();
      for (const FeedingSpell& spell : spells_of_horse(q, plan, h)) {
        spells.push_back(spell_of(scenario_, q, plan, h, spell));
      }
      out.push_back({{"name", q.horses[h].name}, {"spells", std::move(spells)}});
    }
    return out;
  }

  Json latest() const {
    const LatestChange& change = *answer_.latest;
    const std::size_t weeks = question_.weeks.size();
    const bool forced = change.misses.has_value();
    const Json later = forced && change.misses->weeks < weeks
                           ? Json(first_day(question_, change.misses->weeks))
                           : Json(nullptr);
    return {
        {"forced", forced},
        {"by", forced ? Json(date(first_day_of_change(question_, change.fits))) : Json(nullptr)},
        {"first_week_changed_from",
         forced ? Json(first_day(question_, change.fits.weeks)) : Json(nullptr)},
        {"least_cost", change.fits.cost.in_units()},
        {"certificate", certificate_of(change.fits.certificate)},
        {"no_plan_from", later},
        {"proof_strength", forced ? number(change.misses->proof) : Json(nullptr)}};
  }

  Json short_feeds() const {
    Json out = Json::array();
    for (const ShortFeed& short_feed : answer_.short_feeds) {
      Json order = Json::array();
      if (short_feed.who_first) {
        for (const WorthToHorse& worth : *short_feed.who_first) {
          Json instead = Json::array();
          for (const Instead& i : worth.instead) {
            instead.push_back({{"feed", feed(i.offer)}, {"kg_put_out_more", i.kg}});
          }
          order.push_back({{"name", question_.horses[worth.horse].name},
                           {"kg_at_least", worth.least_kg},
                           {"kg_at_most", worth.most_kg},
                           {"saves_per_kg", number(worth.saves_per_kg)},
                           {"because_of", worth.demand ? row_of(*worth.demand) : Json(nullptr)},
                           {"instead", std::move(instead)}});
        }
      }
      out.push_back({{"feed", feed(short_feed.offer)},
                     {"known", short_feed.who_first.has_value()},
                     {"order", std::move(order)},
                     {"worth_per_kg_on_hand", number(short_feed.worth_per_kg)}});
    }
    return out;
  }

  Json break_even() const {
    Json out = Json::array();
    for (const BreakEven& price : answer_.break_even) {
      const double now = question_.supply[price.offer].price_per_kg.front().in_units();
      Json steps = Json::array();
      for (const BoughtStep& step : price.steps) {
        steps.push_back({{"price_per_kg_from", now + step.dearer_from},
                         {"price_per_kg_to", now + step.dearer_to},
                         {"kg_bought", step.bought_kg}});
      }
      out.push_back(
          {{"feed", feed(price.offer)},
           {"price_per_kg", now},
           {"kg_bought", price.bought_kg},
           {"less_above_per_kg", price.dearer ? number(now + *price.dearer) : Json(nullptr)},
           {"kg_bought_above", price.dearer ? number(price.above_kg) : Json(nullptr)},
           {"certificate_below", certificate_of(price.below)},
           {"certificate_above", certificate_of(price.above)},
           {"steps", std::move(steps)}});
    }
    return out;
  }

  Json reserve() const {
    const LongerWinter& longer = *answer_.reserve;
    const bool found = longer.plan.status == SeasonStatus::found;
    Json out{{"until", last_day_of(scenario_, longer.question.weeks.back())},
             {"found", found},
             {"costs_more",
              found ? number((longer.plan.cost - answer_.plan.cost).in_units()) : Json(nullptr)},
             {"plan", found ? plan_of(longer.question, longer.plan) : Json(nullptr)}};
    out["to_buy"] = Json::array();
    for (std::size_t f = 0; found && f < question_.offers.size(); ++f) {
      const double now = bought_kg(answer_.plan, f);
      const double then = bought_kg(longer.plan, f);
      if (std::max(now, then) <= 0.0) continue;
      out["to_buy"].push_back({{"feed", feed(f)}, {"kg", then}, {"kg_in_the_plan", now}});
    }
    return out;
  }

  const Scenario& scenario_;
  const StretchAnswer& answer_;
  const SeasonQuestion& question_;
};

}  // namespace

void add_stretch(Json& document, const Scenario& scenario, const StretchAnswer& answer) {
  StretchJson(scenario, answer).add_to(document);
}

std::string_view stretch_status(const StretchAnswer& answer) {
  return season_status(answer.plan.status, complete(answer));
}

}  // namespace haymow
