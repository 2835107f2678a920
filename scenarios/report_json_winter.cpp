// The JSON of `haymow winter`; docs/reference/json-report.md describes it.
#include "scenarios/report_json_winter.h"

#include "scenarios/report_json_chances.h"
#include "scenarios/report_json_season.h"
#include "scenarios/report_json_season_failure.h"
#include "scenarios/report_winter.h"
#include "scenarios/wording.h"

namespace haymow {
namespace {

double units(Pennies pennies) { return static_cast<double>(pennies) / 100.0; }

class WinterJson {
 public:
  WinterJson(const Scenario& scenario, const WinterAnswer& answer)
      : scenario_(scenario), answer_(answer), question_(answer.question) {}

  void add_to(Json& out) const {
    out["season"] = season_of(scenario_);
    out["months"] = question_.months;
    out["weeks"] = weeks();
    out["assumptions"] = answer_.assumptions;
    out["cost"] = found() ? Json(units(answer_.bills->total)) : Json(nullptr);
    out["lower_bound"] = has_bound() ? number(answer_.plan.lower_bound.in_units()) : Json(nullptr);
    out["gap_share"] = found() ? number(gap_of(answer_.plan)) : Json(nullptr);
    out["stopped"] = answer_.stopped;
    out["in_whole_packs"] = answer_.plan.in_whole_packs;
    out["certificate"] = found() ? certificate_of(answer_.plan.certificate) : Json(nullptr);
    out["largest_imbalance_kg"] = found() ? number(answer_.plan.largest_imbalance) : Json(nullptr);
    out["cost_by_month"] = found() ? by_month() : Json::array();
    out["cost_by_feed"] = found() ? by_feed() : Json::array();
    out["money_goes"] = found() ? goes() : Json(nullptr);
    out["otherwise"] = answer_.other ? otherwise() : Json(nullptr);
    out["chances"] = chances_json(scenario_, answer_);
    out["orders"] = found() ? orders() : Json::array();
    out["stock"] = found() ? stock() : Json::array();
    out["horses"] = horses();
    out["failure"] = season_failure_json(scenario_, question_, answer_.failure, answer_.mends);
  }

 private:
  bool found() const { return answer_.bills.has_value(); }
  bool has_bound() const { return found() || answer_.plan.status == SeasonStatus::limit_reached; }
  std::string first_day(std::size_t week) const {
    return first_day_of(scenario_, question_.weeks[week]);
  }
  std::string last_day(std::size_t week) const {
    return last_day_of(scenario_, question_.weeks[week]);
  }

  Json weeks() const {
    Json out = Json::array();
    for (std::size_t w = 0; w < question_.weeks.size(); ++w) {
      out.push_back({{"from", first_day(w)},
                     {"until", last_day(w)},
                     {"days", question_.weeks[w].days},
                     {"month", question_.months[question_.weeks[w].month]}});
    }
    return out;
  }

  Json by_month() const {
    std::vector<Pennies> ordered(question_.months.size(), 0);
    for (std::size_t i = 0; i < answer_.plan.orders.size(); ++i) {
      ordered[question_.weeks[answer_.plan.orders[i].week].month] +=
          answer_.bills->paid.goods[i] + answer_.bills->paid.delivery[i];
    }
    Json out = Json::array();
    for (std::size_t m = 0; m < ordered.size(); ++m) {
      out.push_back({{"month", question_.months[m]},
                     {"days", answer_.bills->horses.front().months[m].days},
                     {"to_pay", units(ordered[m])},
                     {"to_bill", units(answer_.bills->by_month[m])}});
    }
    return out;
  }

  Json by_feed() const {
    Json out = Json::array();
    for (std::size_t f = 0; f < question_.offers.size(); ++f) {
      const FeedMoney& feed = answer_.bills->feeds[f];
      out.push_back({{"feed", question_.offers[f].name},
                     {"cost", units(answer_.bills->by_feed[f])},
                     {"goods", feed.goods.in_units()},
                     {"delivery", feed.delivery.in_units()},
                     {"on_hand", feed.on_hand.in_units()},
                     {"kg_bought", feed.bought_kg},
                     {"kg_of_on_hand", feed.gone_kg},
                     {"kg_lost", feed.lost_kg},
                     {"kg_spoiled", feed.spoiled_kg},
                     {"kg_put_out", feed.put_out_kg},
                     {"kg_as_fed", feed.eaten_kg},
                     {"kg_left", feed.left_kg}});
    }
    return out;
  }

  Json goes() const {
    const MoneyGoes& goes = answer_.bills->goes;
    return {{"eaten", goes.eaten.in_units()}, {"wasted", goes.wasted.in_units()},
            {"lost", goes.lost.in_units()},   {"spoiled", goes.spoiled.in_units()},
            {"left", goes.left.in_units()},   {"delivery", goes.delivery.in_units()}};
  }

  Json otherwise() const {
    const OtherwiseCosts& other = *answer_.other;
    Json not_proven = Json::array();
    const auto cost = [&](const OtherCost& asked, const char* name) {
      if (asked.status == SeasonStatus::found) return number(asked.more.in_units());
      if (asked.status != SeasonStatus::none) not_proven.push_back(name);
      return Json(nullptr);
    };
    Json out;
    out["week_more_costs"] = cost(other.week_more, "week_more_costs");
    out["week_less_costs"] =
        other.week_less ? cost(*other.week_less, "week_less_costs") : Json(nullptr);
    out["hay_dearer_share"] = hay_dearer_by;
    out["hay_dearer_costs"] = cost(other.dearer_hay, "hay_dearer_costs");
    out["not_proven"] = std::move(not_proven);
    return out;
  }

  Json orders() const {
    Json out = Json::array();
    for (std::size_t i = 0; i < answer_.plan.orders.size(); ++i) {
      const OrderLine& order = answer_.plan.orders[i];
      Json line = order_of(scenario_, question_, order);
      line["price_per_kg"] = order.goods.in_units() / order.amount.in_kg();
      line["goods"] = units(answer_.bills->paid.goods[i]);
      line["delivery"] = units(answer_.bills->paid.delivery[i]);
      out.push_back(std::move(line));
    }
    return out;
  }

  Json stock() const {
    Json out = Json::array();
    for (std::size_t f = 0; f < question_.offers.size(); ++f) {
      const auto told = stock_told(answer_.plan.stock[f]);
      if (!told) continue;
      Json weeks = Json::array();
      for (const StockWeek& week : answer_.plan.stock[f]) {
        weeks.push_back({{"kg_opening", week.opening},
                         {"kg_bought", week.bought},
                         {"kg_lost", week.lost},
                         {"kg_put_out", week.put_out},
                         {"kg_spoiled", week.spoiled},
                         {"kg_closing", week.closing}});
      }
      out.push_back(
          {{"feed", question_.offers[f].name},
           {"kg_lowest", told->lowest_kg},
           {"lowest_on", last_day(told->lowest_week)},
           {"runs_out_on", told->runs_out_in ? Json(last_day(*told->runs_out_in)) : Json(nullptr)},
           {"weeks", std::move(weeks)}});
    }
    return out;
  }

  Json horses() const {
    Json out = Json::array();
    for (std::size_t h = 0; h < question_.horses.size(); ++h) {
      Json horse{{"name", question_.horses[h].name},
                 {"status", season_status(answer_.plan.status, true)}};
      if (found()) {
        horse["bill"] = bill_of(h);
        horse["spells"] = spells_of(h);
      }
      for (const HorseWithoutRation& each : answer_.without_ration) {
        if (each.horse != h) continue;
        Json conflict = Json::array();
        for (const RowMeaning& row : each.why.conflict) conflict.push_back(row_of(row));
        horse["no_ration"] = {{"from", first_day(each.week)}, {"conflict", std::move(conflict)}};
      }
      out.push_back(std::move(horse));
    }
    for (const std::size_t h : answer_.refused) {
      out.push_back({{"name", scenario_.stable.horses[h].name},
                     {"status", "refused"},
                     {"reasons", refusal(scenario_.stable.horses[h])}});
    }
    return out;
  }

  Json bill_of(std::size_t horse) const {
    const HorseBill& bill = answer_.bills->horses[horse];
    Json months = Json::array();
    for (std::size_t m = 0; m < bill.months.size(); ++m) {
      Json feeds = Json::array();
      for (std::size_t f = 0; f < question_.offers.size(); ++f) {
        if (bill.months[m].put_out_kg[f] <= 0.0 && bill.months[m].money[f] == 0) continue;
        feeds.push_back({{"feed", question_.offers[f].name},
                         {"kg_put_out", bill.months[m].put_out_kg[f]},
                         {"cost", units(bill.months[m].money[f])}});
      }
      months.push_back({{"month", question_.months[m]},
                        {"days", bill.months[m].days},
                        {"cost", units(bill.months[m].total)},
                        {"feeds", std::move(feeds)}});
    }
    return {{"cost", units(bill.total)}, {"months", std::move(months)}};
  }

  Json spells_of(std::size_t horse) const {
    Json out = Json::array();
    for (const FeedingSpell& spell : spells_of_horse(question_, answer_.plan, horse)) {
      const std::size_t w = spell.first_week;
      const RationQuestion& ration = question_.rations[question_.horses[horse].ration_of_week[w]];
      Json grass = nullptr;
      if (ration.grass) {
        const std::size_t offer = ration.grass->offer;
        grass = {{"feed", ration.offers[offer].name},
                 {"kg_as_fed", answer_.plan.eaten[horse][w][offer]}};
      }
      Json told = spell_of(scenario_, question_, answer_.plan, horse, spell);
      told["stage"] = describe(ration.horse.stage);
      told["bodyweight_kg"] = ration.horse.bodyweight.in_kg();
      told["grass"] = std::move(grass);
      out.push_back(std::move(told));
    }
    return out;
  }

  const Scenario& scenario_;
  const WinterAnswer& answer_;
  const SeasonQuestion& question_;
};

}  // namespace

void add_winter(Json& document, const Scenario& scenario, const WinterAnswer& answer) {
  WinterJson(scenario, answer).add_to(document);
}

std::string_view winter_status(const WinterAnswer& answer) {
  return season_status(answer.plan.status, complete(answer));
}

}  // namespace haymow
