#include "scenarios/stretch.h"

#include <algorithm>
#include <map>
#include <utility>

#include "model/season_supply.h"
#include "scenarios/fed_now.h"
#include "scenarios/run.h"
#include "scenarios/scenario_dates.h"
#include "scenarios/season.h"
#include "solver/certify.h"
#include "solver/solve.h"

namespace haymow {
namespace {

// Enough for the plan to notice, little enough to stay at the margin.
constexpr double more_kg = 100.0;

bool is_long_forage(FeedGroup group) {
  return group == FeedGroup::hay || group == FeedGroup::haylage || group == FeedGroup::straw;
}

// Horses of the question are those of the stable that are not refused, in its order.
std::vector<const Horse*> planned_horses(const Scenario& scenario) {
  std::vector<const Horse*> horses;
  for (const Horse& horse : scenario.stable.horses) {
    if (!is_refused(horse)) horses.push_back(&horse);
  }
  return horses;
}

std::optional<std::vector<double>> cheapest_put_out(const RationQuestion& ration) {
  const Formulation formulation = formulate(ration);
  const Solution solution = solve(formulation.program);
  if (solution.status != Status::optimal || !certify(formulation.program, solution).holds()) {
    return std::nullopt;
  }
  std::vector<double> kg;
  for (std::size_t f = 0; f < ration.offers.size(); ++f) {
    kg.push_back(std::max(0.0, ration.offers[f].put_out(KgAsFed{solution.columns[f]}).in_kg()));
  }
  return kg;
}

FedToday told_today(const Horse& horse, std::size_t h, const SeasonQuestion& question) {
  const FedNow fed = fed_now_of(horse, question.offers);
  FedToday today{h, true, fed.extra, {}};
  for (std::size_t f = 0; f < question.offers.size(); ++f) {
    const double kg = question.offers[f].put_out(KgAsFed{fed.amounts[f]}).in_kg();
    today.put_out_a_day.emplace_back(question.weeks.size(), kg);
  }
  return today;
}

std::optional<FedToday> reckoned_today(
    std::size_t h, const SeasonQuestion& question,
    std::map<std::size_t, std::optional<std::vector<double>>>& known) {
  FedToday today{h, false, {}, {}};
  today.put_out_a_day.assign(question.offers.size(),
                             std::vector<double>(question.weeks.size(), 0.0));
  for (std::size_t w = 0; w < question.weeks.size(); ++w) {
    const std::size_t r = question.horses[h].ration_of_week[w];
    if (!known.contains(r)) known[r] = cheapest_put_out(question.rations[r]);
    if (!known[r]) return std::nullopt;
    for (std::size_t f = 0; f < question.offers.size(); ++f) {
      today.put_out_a_day[f][w] = (*known[r])[f];
    }
  }
  return today;
}

void find_today(const Scenario& scenario, StretchAnswer& answer) {
  const auto horses = planned_horses(scenario);
  const SeasonQuestion& question = answer.question;
  std::map<std::size_t, std::optional<std::vector<double>>> known;
  std::vector<std::vector<double>> yard(question.offers.size(),
                                        std::vector<double>(question.weeks.size(), 0.0));
  for (std::size_t h = 0; h < horses.size(); ++h) {
    auto today = horses[h]->fed_now.empty() ? reckoned_today(h, question, known)
                                            : told_today(*horses[h], h, question);
    if (!today) {
      answer.unknown.push_back(horses[h]->name);
      continue;
    }
    for (std::size_t f = 0; f < yard.size(); ++f) {
      for (std::size_t w = 0; w < question.weeks.size(); ++w) {
        yard[f][w] += today->put_out_a_day[f][w];
      }
    }
    answer.today.push_back(std::move(*today));
  }
  answer.runs_out = runs_out(question, yard);
}

std::optional<Money> worth_of_more(const StretchAnswer& answer, std::size_t f, const Watch& watch) {
  if (!answer.found()) return std::nullopt;
  SeasonQuestion more = answer.question;
  Offer& offer = more.offers[f];
  offer.on_hand = offer.on_hand.value_or(KgAsFed{0.0}) + KgAsFed{more_kg};
  const SeasonPlan plan = plan_season(more, watch.options(Packs::any));
  if (plan.status != SeasonStatus::found) return std::nullopt;
  const Money saved = answer.plan.lower_bound - plan.lower_bound;
  return plain_cost_per_kg(more, f, 0) + Money{saved.in_units() / more_kg};
}

// What is on hand and runs out, and cannot be bought as it is wanted.
bool is_short(const StretchAnswer& answer, const RunsOut& feed) {
  const FeedSupply& supply = answer.question.supply[feed.offer];
  if (supply.can_be_bought && !supply.can_be_had) return false;
  if (!is_long_forage(answer.question.offers[feed.offer].feed.group)) return false;
  if (feed.day && !feed.too_old) return true;
  return answer.found() && answer.plan.stock[feed.offer].back().closing < least_forage_told_kg;
}

void find_short_feeds(StretchAnswer& answer, const Watch& watch) {
  for (const RunsOut& feed : answer.runs_out) {
    if (!is_short(answer, feed)) continue;
    answer.short_feeds.push_back({feed.offer, who_first(answer.question, feed.offer),
                                  worth_of_more(answer, feed.offer, watch)});
  }
}

void find_prices(StretchAnswer& answer, const Watch& watch) {
  for (std::size_t f = 0; f < answer.question.offers.size(); ++f) {
    const FeedGroup group = answer.question.offers[f].feed.group;
    if (group != FeedGroup::hay && group != FeedGroup::haylage) continue;
    if (bought_kg(answer.plan, f) <= 0.0) continue;
    auto price = break_even(answer.question, f, watch.options());
    if (price) answer.break_even.push_back(std::move(*price));
  }
}

void find_plan(StretchAnswer& answer, const Watch& watch) {
  answer.plan = plan_season(answer.question, watch.options());
  if (answer.plan.status != SeasonStatus::none) return;
  answer.failure = explain_season_failure(answer.question, watch.options());
  if (answer.failure) {
    answer.mends = season_mends(answer.question, *answer.failure, watch.options());
  }
}

// Half of a part would read as all of it.
void forget_unfinished(StretchAnswer& answer) {
  if (!answer.knows(StretchPart::plan)) answer.mends.reset();
  if (!answer.knows(StretchPart::latest)) answer.latest.reset();
  if (!answer.knows(StretchPart::prices)) answer.break_even.clear();
  if (!answer.knows(StretchPart::reserve)) answer.reserve.reset();
  if (!answer.knows(StretchPart::who_first)) answer.short_feeds.clear();
}

void find_reserve(Scenario scenario, StretchAnswer& answer, const Watch& watch) {
  scenario.until = days_after(*scenario.until, weeks_in_reserve * days_in_week);
  LongerWinter longer{season_question(scenario), {}};
  longer.plan = plan_season(longer.question, watch.options());
  answer.reserve = std::move(longer);
}

}  // namespace

StretchAnswer stretch(const Scenario& scenario, const Watch& watch) {
  StretchAnswer answer;
  answer.question = season_question(scenario);
  answer.refused = refused_horses(scenario);
  answer.assumptions = season_assumptions(scenario);
  if (answer.question.horses.empty()) {
    answer.plan.status = SeasonStatus::none;
    return answer;
  }
  // Does one part, unless an earlier one was stopped.
  const auto work = [&](StretchPart part, std::string_view what, auto find) {
    if (answer.stopped_in) return;
    watch.now(what);
    find();
    if (watch.stopped()) answer.stopped_in = part;
  };
  work(StretchPart::plan, "planning the season", [&] {
    find_today(scenario, answer);
    find_plan(answer, watch);
  });
  if (answer.found()) {
    work(StretchPart::latest, "by when to change",
         [&] { answer.latest = latest_change(answer.question, watch.options()); });
    work(StretchPart::prices, "what bought hay may cost", [&] { find_prices(answer, watch); });
    work(StretchPart::reserve, "four weeks more", [&] { find_reserve(scenario, answer, watch); });
  }
  work(StretchPart::who_first, "who gets it first", [&] { find_short_feeds(answer, watch); });
  forget_unfinished(answer);
  return answer;
}

bool complete(const StretchAnswer& answer) { return answer.found() && answer.refused.empty(); }

double bought_kg(const SeasonPlan& plan, std::size_t offer) {
  double kg = 0.0;
  for (const OrderLine& order : plan.orders) {
    if (order.offer == offer) kg += order.amount.in_kg();
  }
  return kg;
}

}  // namespace haymow
