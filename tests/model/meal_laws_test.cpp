// Laws that hold for every printed meal of every horse in every stable.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "model/practical.h"
#include "solver/certify.h"
#include "solver/solve.h"
#include "tests/model/any_stable.h"

namespace haymow::meal_laws_test {
namespace {

// Now and then with unlike meals, scoops that were weighed, and few bucket feeds.
RationQuestion any_question_with_scoops() {
  RationQuestion question = any_stable::question();
  if (*rc::gen::inRange(0, 2) == 0) {
    double left = 1.0;
    for (int meal = 1; meal <= question.meals; ++meal) {
      const int more = question.meals - meal;
      const double share =
          more == 0 ? left : std::round(100.0 * left * any_stable::between(0.2, 0.6)) / 100.0;
      question.horse.meal_shares.push_back({"meal " + std::to_string(meal), share});
      left -= share;
    }
  }
  for (Offer& offer : question.offers) {
    if (!offer.feed.is_bucket_feed() || *rc::gen::inRange(0, 4) != 0) continue;
    offer.fed_in = WholePortion{KgAsFed{any_stable::between(0.2, 1.5)}, "scoop"};
  }
  if (*rc::gen::inRange(0, 3) == 0) question.horse.bucket_feeds = *rc::gen::inRange(2, 6);
  return question;
}

// By its own figure, or the highest of its group: worked out again, not asked of
// the program's rows.
double starch_g(const RationQuestion& question, const Offer& offer, KgAsFed eaten) {
  if (const auto known = offer.feed.per_kg_as_fed(Nutrient::starch)) {
    return *known * eaten.in_kg();
  }
  const auto group = question.highest.find(offer.feed.group);
  if (group == question.highest.end()) return 0.0;
  return group->second[Nutrient::starch].value_or(0.0) * offer.feed.dry(eaten).in_kg();
}

RC_GTEST_PROP(MealLaws, EveryPrintedMealKeepsItsLimitsAndTheyAddUpToTheDay, ()) {
  const RationQuestion question = *rc::gen::exec(any_question_with_scoops);
  const Formulation formulation = formulate(question);
  const Solution solution = solve(formulation.program);
  RC_PRE(solution.status == Status::optimal);
  const auto practical =
      practical_ration(question, formulation, certify(formulation.program, solution).lower_bound);
  RC_TAG(practical ? std::string(name_of(practical->choices.fineness)) + ", scoops " +
                         std::string(name_of(practical->choices.portions))
                   : "none");
  if (!practical) return;

  const double bodyweight = question.horse.bodyweight.in_kg();
  RC_ASSERT(static_cast<int>(practical->meals.size()) == question.meals);
  std::vector<int> day(question.offers.size(), 0);
  for (const Meal& meal : practical->meals) {
    double starch = 0.0;
    double dry = 0.0;
    for (const MealPortion& p : meal.portions) {
      const Offer& offer = question.offers[p.offer];
      RC_ASSERT(offer.feed.is_bucket_feed());
      RC_ASSERT(p.steps > 0);
      const double steps = p.put_out / practical->weighings[p.offer].step;
      RC_ASSERT(std::abs(steps - p.steps) < 1e-9);
      const KgAsFed eaten = offer.eaten(p.put_out);
      starch += starch_g(question, offer, eaten);
      dry += offer.feed.dry(eaten).in_kg();
      day[p.offer] += p.steps;
    }
    for (const Limit& limit : question.limits) {
      if (!limit.forced) continue;
      if (limit.id == "starch_meal/max") {
        RC_ASSERT(starch <= limit.number * bodyweight * (1.0 + 1e-6));
      }
      if (limit.id == "meal_size/max") {
        RC_ASSERT(dry <= limit.number / 100.0 * bodyweight * (1.0 + 1e-6));
      }
    }
    RC_ASSERT(std::abs(starch - meal.starch_g) <= 1e-6 * std::max(1.0, starch));
    RC_ASSERT(std::abs(dry - meal.dry_matter.in_kg()) <= 1e-9);
  }
  for (std::size_t j = 0; j < question.offers.size(); ++j) {
    if (question.offers[j].feed.is_bucket_feed()) RC_ASSERT(day[j] == practical->steps[j]);
  }
}

// The stables of fixed seeds, so that the share is the same everywhere. Before
// half and fine steps and exact amounts it was 91 % over seeds 1 to 4000, now it
// is 99.8 %; nothing here may loosen a rule for it.
TEST(MealLaws, NearlyEveryStableWithARationHasOneInSteps) {
  int with_ration = 0;
  int in_steps = 0;
  for (std::uint64_t seed = 1; seed <= 400; ++seed) {
    const RationQuestion question =
        rc::gen::exec(any_stable::question)(rc::Random(seed), 50).value();
    const Formulation formulation = formulate(question);
    const Solution solution = solve(formulation.program);
    if (solution.status != Status::optimal) continue;
    ++with_ration;
    const auto practical =
        practical_ration(question, formulation, certify(formulation.program, solution).lower_bound);
    if (!practical) continue;
    ++in_steps;
    EXPECT_TRUE(broken_rows(formulation.rows, practical->amounts).empty()) << "seed " << seed;
  }
  EXPECT_GT(with_ration, 200);
  EXPECT_GE(in_steps, with_ration * 0.98) << in_steps << " of " << with_ration;
}

}  // namespace
}  // namespace haymow::meal_laws_test
