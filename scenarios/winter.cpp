#include "scenarios/winter.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

#include "feeds/feed_table.h"
#include "scenarios/run.h"
#include "scenarios/scenario_dates.h"
#include "scenarios/season.h"
#include "scenarios/season_doubt.h"
#include "solver/solve.h"

namespace haymow {
namespace {

SeasonQuestion with_days(Scenario scenario, int more) {
  scenario.until = days_after(*scenario.until, more);
  return season_question(scenario);
}

SeasonQuestion with_dearer_hay(SeasonQuestion question) {
  for (std::size_t f = 0; f < question.offers.size(); ++f) {
    if (question.offers[f].feed.group != FeedGroup::hay) continue;
    for (Money& price : question.supply[f].price_per_kg) price = (1.0 + hay_dearer_by) * price;
    question.offers[f].price_per_kg = (1.0 + hay_dearer_by) * question.offers[f].price_per_kg;
    for (QuantityPrice& cheaper : question.supply[f].cheaper) {
      cheaper.less_per_kg = (1.0 + hay_dearer_by) * cheaper.less_per_kg;
    }
  }
  // What a ration question reads of an offer is its price too.
  for (RationQuestion& ration : question.rations) {
    for (std::size_t f = 0; f < question.offers.size(); ++f) {
      ration.offers[f].price_per_kg = question.offers[f].price_per_kg;
    }
  }
  return question;
}

OtherwiseCosts otherwise(const Scenario& scenario, const WinterAnswer& answer,
                         const Planners& planners) {
  const Money now = answer.plan.lower_bound;
  const auto more = [&](const SeasonQuestion& question) {
    const SeasonPlan plan = planners.bound(question);
    return OtherCost{plan.status, plan.lower_bound - now};
  };
  OtherwiseCosts out;
  planners.watch.now("what a week more would cost");
  out.week_more = more(with_days(scenario, days_in_week));
  planners.watch.now("what a week less would cost");
  if (days_between(*scenario.from, *scenario.until).in_days() >= days_in_week) {
    out.week_less = more(with_days(scenario, -days_in_week));
  }
  planners.watch.now("what dearer hay would cost");
  out.dearer_hay = more(with_dearer_hay(answer.question));
  return out;
}

std::vector<HorseWithoutRation> without_ration(const SeasonQuestion& question) {
  std::vector<HorseWithoutRation> found;
  std::vector<std::optional<NoRation>> why(question.rations.size());
  for (std::size_t r = 0; r < question.rations.size(); ++r) {
    const Formulation formulation = formulate(question.rations[r]);
    if (solve(formulation.program).status != Status::infeasible) continue;
    why[r] = explain_no_ration(question.rations[r], formulation, feed_table());
  }
  for (std::size_t h = 0; h < question.horses.size(); ++h) {
    const auto& rations = question.horses[h].ration_of_week;
    for (std::size_t w = 0; w < rations.size(); ++w) {
      if (!why[rations[w]]) continue;
      found.push_back({h, w, rations[w], *why[rations[w]]});
      break;
    }
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const auto& a, const auto& b) { return a.week < b.week; });
  return found;
}

}  // namespace

WinterAnswer winter(const Scenario& scenario, const Planners& planners) {
  WinterAnswer answer;
  answer.question = season_question(scenario);
  answer.refused = refused_horses(scenario);
  answer.assumptions = season_assumptions(scenario);
  if (answer.question.horses.empty()) {
    answer.plan.status = SeasonStatus::none;
    return answer;
  }
  planners.watch.now("planning the winter");
  answer.plan = planners.plan(answer.question);
  answer.stopped = planners.watch.stopped();
  if (answer.plan.status == SeasonStatus::none && !answer.stopped) {
    planners.watch.now("why there is no plan");
    answer.without_ration = without_ration(answer.question);
    if (answer.without_ration.empty() && planners.explain) {
      answer.failure = planners.explain(answer.question);
      if (answer.failure && planners.mend) {
        answer.mends = planners.mend(answer.question, *answer.failure);
      }
    }
    answer.stopped = planners.watch.stopped();
  }
  const bool in_time = answer.plan.status == SeasonStatus::found;
  const bool some = answer.plan.status == SeasonStatus::limit_reached && !answer.plan.eaten.empty();
  if (!in_time && !some) return answer;
  std::vector<std::vector<int>> days;
  for (const SeasonWeek& week : answer.question.weeks) {
    days.push_back(days_by_month(*scenario.from, week, answer.question.months.size()));
  }
  answer.bills = season_bills(answer.question, answer.plan, days);
  if (!in_time || answer.stopped) return answer;
  answer.other = otherwise(scenario, answer, planners);
  answer.stopped = planners.watch.stopped();
  if (answer.stopped) {
    answer.other.reset();  // one that is absent would be one without a plan
    return answer;
  }
  const auto doubt = season_doubt(scenario);
  if (doubt && planners.draw) {
    planners.watch.now("how the winter may turn out");
    answer.chances = planners.draw(season_of_draw(scenario), *doubt);
    answer.stopped = planners.watch.stopped();
  }
  return answer;
}

double gap_of(const SeasonPlan& plan) {
  const double cost = plan.cost.in_units();
  if (cost <= 0.0) return 0.0;
  return std::max(0.0, cost - plan.lower_bound.in_units()) / cost;
}

bool complete(const WinterAnswer& answer) { return answer.bills && answer.refused.empty(); }

}  // namespace haymow
