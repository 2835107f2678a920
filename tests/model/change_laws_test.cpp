// Laws of every change from one ration to another, tried on many horses and stables
// drawn from the feed table.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

#include "model/change_plan.h"
#include "model/practical.h"
#include "solver/certify.h"
#include "solver/solve.h"
#include "tests/model/any_stable.h"

namespace haymow::change_laws_test {
namespace {

// Something a yard might feed, well or badly: a forage and up to four other feeds.
std::vector<double> any_amounts(const RationQuestion& question) {
  std::vector<double> amounts(question.offers.size(), 0.0);
  const double bodyweight = question.horse.bodyweight.in_kg();
  const auto any_offer = [&] { return *rc::gen::inRange<std::size_t>(0, amounts.size()); };
  std::size_t forage = any_offer();
  while (!question.offers[forage].feed.is_long_forage()) forage = (forage + 1) % amounts.size();
  amounts[forage] = any_stable::between(1.1, 2.5) / 100.0 * bodyweight;
  for (int i = *rc::gen::inRange(1, 5); i > 0; --i) {
    const std::size_t j = any_offer();
    if (j == forage) continue;
    const Feed& feed = question.offers[j].feed;
    const Weighing weighing = weighing_of(feed.group);
    const bool by_the_gram = weighing.step.in_kg() < 0.05;
    const double most = feed.is_long_forage() ? 0.018 : (by_the_gram ? 0.0002 : 0.003);
    amounts[j] = any_stable::between(0.0, 1.0) * most * bodyweight;
  }
  return amounts;
}

// A change to the ration that the program would advise.
Changeover any_change() {
  Changeover change;
  change.question = *rc::gen::exec(any_stable::question);
  change.question.horse.wishes.clear();
  change.formulation = formulate(change.question);
  const Solution solution = solve(change.formulation.program);
  RC_PRE(solution.status == Status::optimal);
  const auto practical = practical_ration(change.question, change.formulation, solution.cost);
  RC_PRE(practical.has_value());
  change.then = practical->amounts;
  change.now = any_amounts(change.question);
  // Now and then today's ration is a sound one too.
  if (*rc::gen::arbitrary<bool>()) {
    for (Offer& offer : change.question.offers) {
      offer.price_per_kg = offer.price_per_kg * any_stable::between(0.3, 3.0);
    }
    const Solution other = solve(formulate(change.question).program);
    if (other.status == Status::optimal) change.now = other.columns;
  }
  return change;
}

bool kept(const Changeover& change, std::size_t i, const std::vector<double>& amounts) {
  return change.formulation.rows[i].kept(amounts);
}

// The proof of change_plan.h, with numbers.
RC_GTEST_PROP(ChangeLaws, AMixtureKeepsWhatBothEndsKeep, ()) {
  const Changeover change = any_change();
  const double t = any_stable::between(0.0, 1.0);
  std::vector<double> mixture;
  for (std::size_t j = 0; j < change.now.size(); ++j) {
    mixture.push_back((1.0 - t) * change.now[j] + t * change.then[j]);
  }
  for (std::size_t i = 0; i < change.formulation.rows.size(); ++i) {
    const RowMeaning& row = change.formulation.rows[i];
    // A share of nothing is no share.
    if (!row.value(change.now) || !row.value(change.then)) continue;
    if (!row.kept(change.now) || !row.kept(change.then)) continue;
    RC_ASSERT(row.kept(mixture, 1.1e-6));
  }
}

RC_GTEST_PROP(ChangeLaws, EveryStepKeepsEveryLimitThatBothEndsKeep, ()) {
  const Changeover change = any_change();
  const ChangePlan plan = plan_change(change);
  RC_TAG(!plan.changes ? "the same"
                       : (plan.safe         ? "a plan"
                          : plan.too_little ? "too little is fed"
                                            : "no safe plan"));
  RC_ASSERT(plan.safe || plan.steps.empty());
  for (const ChangeStep& step : plan.steps) {
    for (std::size_t i = 0; i < change.formulation.rows.size(); ++i) {
      const RowMeaning& row = change.formulation.rows[i];
      const bool law =
          row.family == RowFamily::maker || (row.limit && row.limit->strength != Strength::guide);
      if (!law || !row.value(change.now)) continue;
      if (kept(change, i, change.now) && kept(change, i, change.then)) {
        RC_ASSERT(kept(change, i, step.amounts));
      }
    }
  }
}

RC_GTEST_PROP(ChangeLaws, TheDaysAddUp, ()) {
  const Changeover change = any_change();
  const int over = *rc::gen::inRange(10, 30);
  const ChangePlan plan = plan_change(change, over);
  if (plan.steps.empty()) return;
  RC_ASSERT(plan.days >= fewest_change_days);
  RC_ASSERT(plan.days >= over);
  RC_ASSERT(plan.steps.size() >= 4U);
  int next = 1;
  for (const ChangeStep& step : plan.steps) {
    RC_ASSERT(step.from_day == next);
    if (step.to_day) {
      RC_ASSERT(*step.to_day >= step.from_day);
      next = *step.to_day + 1;
    }
  }
  RC_ASSERT(!plan.steps.back().to_day);
  RC_ASSERT(plan.steps.back().from_day == plan.days + 1);
  RC_ASSERT(plan.steps.back().amounts == change.then);
}

RC_GTEST_PROP(ChangeLaws, AmountsAreWholeStepsOfTheScaleAndNeverTurnBack, ()) {
  const Changeover change = any_change();
  const ChangePlan plan = plan_change(change);
  std::vector<double> before = change.now;
  for (const ChangeStep& step : plan.steps) {
    for (std::size_t j = 0; j < before.size(); ++j) {
      const Offer& offer = change.question.offers[j];
      const double steps =
          step.amounts[j] / (1.0 - offer.waste) / weighing_of(offer.feed.group).step.in_kg();
      // The ration arrived at and the one left may be in finer steps.
      const bool there = std::abs(step.amounts[j] - change.then[j]) < 1e-9 ||
                         std::abs(step.amounts[j] - change.now[j]) < 1e-9;
      RC_ASSERT(there || std::abs(steps - std::round(steps)) < 1e-6);
      if (change.then[j] >= change.now[j]) RC_ASSERT(step.amounts[j] >= before[j] - 1e-9);
      if (change.then[j] <= change.now[j]) RC_ASSERT(step.amounts[j] <= before[j] + 1e-9);
    }
    before = step.amounts;
  }
}

// Only a falling concentrate may go faster, and bucket feed in all no faster than
// 250 g from one day to the next.
RC_GTEST_PROP(ChangeLaws, NoStepGoesFasterThanAQuarter, ()) {
  const Changeover change = any_change();
  const ChangePlan plan = plan_change(change);
  std::vector<double> before = change.now;
  for (const ChangeStep& step : plan.steps) {
    double added = 0.0;
    for (std::size_t j = 0; j < before.size(); ++j) {
      const Offer& offer = change.question.offers[j];
      const bool forage = offer.feed.is_forage();
      if (!forage && !is_concentrate(change, j)) continue;
      const double moved = (step.amounts[j] - change.now[j]) / (1.0 - offer.waste);
      const double whole = (change.then[j] - change.now[j]) / (1.0 - offer.waste);
      const double scale = weighing_of(offer.feed.group).step.in_kg();
      if (forage || whole > 0.0) {
        RC_ASSERT(std::abs(moved) <= step.share * std::abs(whole) + 2.0 * scale + 1e-9);
      }
      if (!forage) {
        added += std::max(0.0, (step.amounts[j] - before[j]) / (1.0 - offer.waste));
      }
    }
    RC_ASSERT(added <= 0.25 + 1e-6);
    before = step.amounts;
  }
  if (!plan.steps.empty()) RC_ASSERT(plan.steps.front().share <= 0.25);
}

}  // namespace
}  // namespace haymow::change_laws_test
