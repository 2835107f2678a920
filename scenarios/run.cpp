#include "scenarios/run.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "feeds/feed_table.h"
#include "model/meal_shares.h"
#include "model/share_stock.h"
#include "scenarios/barn_in_steps.h"
#include "scenarios/exact_answer.h"
#include "scenarios/warm_start.h"
#include "solver/conflict.h"
#include "solver/solve.h"

namespace haymow {
namespace {

// More than four bucket meals a day is for the keeper to decide.
constexpr int most_meals_chosen = 4;
// What a keeper may save by feeding once more a day before it is worth the walk,
// as a share of the cost. Common practice, no source.
constexpr double worth_a_meal = 0.02;

const HighestKnown& table_highest() {
  static const HighestKnown highest = highest_known(feed_table());
  return highest;
}

// Chooses the number of meals of `question`, which its keeper leaves open, and returns
// its formulation. Only two limits hang on the meals, so the programs differ in two
// bounds, and each starts where the one before has stopped.
Formulation with_fewest_meals(RationQuestion& question) {
  const int fewest = question.meals;
  question.meals = std::max(most_meals_chosen, fewest);
  Formulation formulation = formulate(question);
  WarmSolver solver(formulation.program);
  const auto cost_with = [&](int meals) -> std::optional<double> {
    change_meals(question, formulation, meals);
    const auto rows = formulation.program.rows();
    for (std::size_t i = 0; i < rows.size(); ++i) {
      if (solver.program().rows()[i].upper == rows[i].upper) continue;
      solver.set_row_bounds(static_cast<int>(i), rows[i].lower, rows[i].upper);
    }
    const Solution solution = solver.solve();
    if (solution.status != Status::optimal) return std::nullopt;
    return solution.cost;
  };
  const auto cheapest = cost_with(question.meals);
  for (int meals = fewest; cheapest && meals < most_meals_chosen; ++meals) {
    const auto cost = cost_with(meals);
    if (cost && *cost <= *cheapest * (1.0 + worth_a_meal)) return formulation;
  }
  // Also when there is no ration: then the reason told is not the size of meals
  // that nobody asked for.
  change_meals(question, formulation, std::max(most_meals_chosen, fewest));
  return formulation;
}

// Stocks that must last the season are shared; when the meals chosen leave no
// way to share them, with as many meals as may be chosen.
void share_stocks(std::vector<RationQuestion>& questions, Days season,
                  const std::vector<Days>& days) {
  StockShares shares = share_stock(questions, season, days);
  if (!shares.cheapest) {
    std::vector<RationQuestion> with_more_meals = questions;
    for (RationQuestion& question : with_more_meals) {
      if (!question.horse.meals) question.meals = most_meals_chosen;
    }
    StockShares more = share_stock(with_more_meals, season, days);
    if (more.cheapest) shares = std::move(more);
  }
  for (std::size_t h = 0; h < questions.size(); ++h) {
    questions[h].stock_a_day = std::move(shares.a_day[h]);
    choose_fewest_meals(questions[h]);
  }
  share_what_is_spare(questions, season, days);
}

// The rows of a conflict as a person knows them: a margin is part of its floor.
std::vector<RowMeaning> conflict_of(const GuardedRation& guarded) {
  std::vector<RowMeaning> rows;
  const auto conflict = find_conflict(guarded.formulation.program);
  if (!conflict) return rows;
  for (const Bound& bound : conflict->members) {
    if (bound.of != Bound::Of::row) continue;
    const RowMeaning& row = guarded.formulation.rows[static_cast<std::size_t>(bound.index)];
    if (row.family != RowFamily::margin) rows.push_back(row);
  }
  return rows;
}

// Puts the guarded program and its answer in the place of the plain one's. When
// nothing keeps the promise, what could be promised and what stands in the way.
GuardedRation promised(HorseAnswer& out, double probability) {
  const Money cost_without{out.solution.cost};
  GuardedRation guarded = guarded_ration(out.question, out.formulation, probability);
  out.promise = PromiseMade{guarded.promise, cost_without, guarded.largest_miss, {}, {}};
  if (guarded.solution.status == Status::infeasible) {
    out.promise->most = most_confident(out.question, out.formulation, probability);
    out.promise->conflict = conflict_of(guarded);
    out.status = AnswerStatus::none;
  }
  out.formulation = guarded.formulation;
  out.solution = guarded.solution;
  return guarded;
}

}  // namespace

bool is_refused(const Horse& horse) {
  return std::any_of(horse.health.begin(), horse.health.end(), refuses_planning);
}

void choose_fewest_meals(RationQuestion& question) {
  if (!question.horse.meals) static_cast<void>(with_fewest_meals(question));
}

std::string_view name_of(AnswerStatus status) {
  switch (status) {
    case AnswerStatus::found:
      return "found";
    case AnswerStatus::none:
      return "none";
    case AnswerStatus::refused:
      return "refused";
    case AnswerStatus::failed:
      return "failed";
  }
  return "";
}

AnswerStatus worse(AnswerStatus one, AnswerStatus other) {
  if (one == AnswerStatus::failed || other == AnswerStatus::failed) return AnswerStatus::failed;
  return one == AnswerStatus::found ? other : one;
}

RationQuestion question_for(const Horse& horse, const std::vector<Offer>& offers, int meals) {
  return {horse, offers, nrc_2007(horse), limits_for(horse), meals, table_highest(), {}};
}

namespace {

// `formulation`, where it is there, is what formulating the question would give.
HorseAnswer answer_to(RationQuestion question, std::optional<Formulation> formulation,
                      const RunOptions& options) {
  HorseAnswer out;
  out.question = std::move(question);
  if (is_refused(out.question.horse)) {
    out.status = AnswerStatus::refused;
    return out;
  }
  out.formulation = formulation ? std::move(*formulation) : formulate(out.question);
  const auto start = start_for(out.question, out.formulation.program, options.before);
  out.solution = solve(out.formulation.program, {.start = start ? &*start : nullptr});
  if (out.solution.status == Status::infeasible) {
    out.no_ration = options.brief ? clash_alone(out.formulation)
                                  : explain_no_ration(out.question, out.formulation, feed_table());
    const bool proven = out.no_ration->proof_strength > certificate_tolerance;
    out.status = proven ? AnswerStatus::none : AnswerStatus::failed;
    if (options.exact && !confirmed_exactly(out)) out.status = AnswerStatus::failed;
    return out;
  }
  std::optional<GuardedRation> guarded;
  if (options.confidence && out.solution.status == Status::optimal) {
    guarded = promised(out, *options.confidence);
    if (out.solution.status == Status::infeasible) return out;
  }
  out.certificate = certify(out.formulation.program, out.solution);
  if (out.solution.status != Status::optimal || !out.certificate.holds()) return out;
  if (options.exact && !confirmed_exactly(out)) return out;
  out.status = AnswerStatus::found;
  out.ration = ration_from(out.question, out.formulation, out.solution.columns);
  if (options.brief) return out;
  const double bound = out.certificate.lower_bound;
  out.practical = guarded ? practical_guarded(out.question, *guarded, bound)
                          : practical_ration(out.question, out.formulation, bound);
  out.explanation = explain(out.question, out.formulation, out.solution);
  if (out.question.grass) {
    // As the figures have it: a promise against bad batches has columns of its own.
    std::vector<double> amounts = out.amounts_to_feed();
    amounts.resize(out.question.offers.size());
    out.grass = check_grass(out.question, formulate(out.question), amounts);
  }
  return out;
}

// A ration that cannot be weighed in whole steps gets another meal before it is
// printed to the gram, where the keeper leaves the meals open.
HorseAnswer answer_to_weigh(RationQuestion question, std::optional<Formulation> formulation,
                            const RunOptions& options) {
  HorseAnswer first = answer_to(std::move(question), std::move(formulation), options);
  const bool may_help = first.status == AnswerStatus::found || first.promise;
  if (first.practical || !may_help || first.question.horse.meals || options.brief) return first;
  for (int meals = first.question.meals + 1; meals <= most_meals_chosen; ++meals) {
    RationQuestion more = first.question;
    more.meals = meals;
    HorseAnswer next = answer(std::move(more), options);
    if (next.practical) return next;
  }
  return first;
}

}  // namespace

HorseAnswer answer(RationQuestion question, const RunOptions& options) {
  return answer_to(std::move(question), std::nullopt, options);
}

AnswerStatus HorseAnswer::worst() const {
  AnswerStatus worst = status;
  for (const HorseAnswer& other : other_spells) worst = worse(worst, other.status);
  return worst;
}

std::vector<HorseAnswer> run(const Scenario& scenario, const RunOptions& options) {
  const Stable& stable = scenario.stable;
  const auto season = months_of(scenario.from, scenario.until);
  std::vector<RationQuestion> questions;
  std::vector<std::optional<Formulation>> formulations;
  std::vector<GrassSpell> spells;
  std::vector<std::size_t> horse_of;
  for (std::size_t h = 0; h < stable.horses.size(); ++h) {
    const Horse& horse = stable.horses[h];
    const int fewest = horse.health.contains(HealthState::cannot_chew) ? least_meals_of_mash : 1;
    for (GrassSpell& spell : spells_of(horse, season)) {
      RationQuestion question = question_for(horse, stable.offers, horse.meals.value_or(fewest));
      if (spell.month) question = with_grass(std::move(question), *spell.month);
      questions.push_back(std::move(question));
      formulations.emplace_back();
      if (!horse.meals) formulations.back() = with_fewest_meals(questions.back());
      spells.push_back(std::move(spell));
      horse_of.push_back(h);
    }
  }
  if (stable.season) {
    std::vector<Days> days;
    days.reserve(spells.size());
    for (const GrassSpell& spell : spells) days.push_back(spell.days);
    share_stocks(questions, *stable.season, days);
    formulations.assign(questions.size(), std::nullopt);  // of other shares and meals
  }
  std::vector<HorseAnswer> answers;
  answers.reserve(stable.horses.size());
  for (std::size_t q = 0; q < questions.size(); ++q) {
    HorseAnswer next =
        answer_to_weigh(std::move(questions[q]), std::move(formulations[q]), options);
    next.spell = std::move(spells[q]);
    if (horse_of[q] < answers.size()) {
      answers[horse_of[q]].other_spells.push_back(std::move(next));
    } else {
      answers.push_back(std::move(next));
    }
  }
  if (options.brief) return answers;
  if (stable.season) keep_to_the_barn(answers, *stable.season);
  for (HorseAnswer& each : answers) each.change = change_over(scenario, each);
  return answers;
}

}  // namespace haymow
