#include "model/divide_meals.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "model/meal_shares.h"
#include "model/weighing.h"
#include "tests/model/hand_made.h"

namespace haymow::divide_meals_test {
namespace {

using hand_made::feed_of;
using hand_made::limit_of;
using hand_made::offer_of;
using hand_made::question_of;
using ::testing::ElementsAre;

Offer cubes(const std::string& name, double starch_g) {
  return offer_of(feed_of(name, FeedGroup::compound, 1000.0, {{Nutrient::starch, starch_g}}), 0.4);
}

RationQuestion two_cubes(int meals, double starch_a_meal_g, double dry_a_meal_kg) {
  // 100 kg, so that 1 g and 1 % a kg of bodyweight are 100 g and 1 kg.
  RationQuestion question = question_of(100.0, {cubes("oats", 400.0), cubes("beet", 50.0)}, {},
                                        {limit_of("starch_meal/max", starch_a_meal_g / 100.0),
                                         limit_of("meal_size/max", dry_a_meal_kg)});
  question.meals = meals;
  return question;
}

DayInSteps day_of(std::vector<int> steps, double step_kg = 0.1) {
  std::vector<KgAsFed> step(steps.size(), KgAsFed{step_kg});
  return {std::move(steps), std::move(step)};
}

// Steps of `offer` in each meal.
std::vector<int> steps_in(const std::vector<Meal>& meals, std::size_t offer) {
  std::vector<int> out;
  for (const Meal& meal : meals) {
    int steps = 0;
    for (const MealPortion& p : meal.portions) steps += p.offer == offer ? p.steps : 0;
    out.push_back(steps);
  }
  return out;
}

std::optional<std::vector<Meal>> divided(const RationQuestion& question, const DayInSteps& day) {
  return divide_into_meals(question, formulate(question), day);
}

TEST(DivideMeals, SixStepsInThreeMealsAreTwoEach) {
  const auto meals = divided(two_cubes(3, 1000.0, 10.0), day_of({6, 3}));
  ASSERT_TRUE(meals);
  EXPECT_THAT(steps_in(*meals, 0), ElementsAre(2, 2, 2));
  EXPECT_THAT(steps_in(*meals, 1), ElementsAre(1, 1, 1));
  EXPECT_NEAR((*meals)[0].dry_matter.in_kg(), 0.3, 1e-9);
  EXPECT_NEAR((*meals)[0].starch_g, 0.2 * 400.0 + 0.1 * 50.0, 1e-9);
}

TEST(DivideMeals, WhatIsLeftOverGoesToTheEveningFirstAndLevelsTheMeals) {
  const auto meals = divided(two_cubes(3, 1000.0, 10.0), day_of({4, 2}));
  ASSERT_TRUE(meals);
  EXPECT_THAT(steps_in(*meals, 0), ElementsAre(1, 1, 2));
  EXPECT_THAT(steps_in(*meals, 1), ElementsAre(1, 1, 0));
}

TEST(DivideMeals, ASmallBreakfastIsSmall) {
  RationQuestion question = two_cubes(3, 1000.0, 10.0);
  question.horse.meal_shares = {{"breakfast", 0.2}, {"noon", 0.4}, {"evening", 0.4}};
  const auto meals = divided(question, day_of({10, 5}));
  ASSERT_TRUE(meals);
  EXPECT_THAT(steps_in(*meals, 0), ElementsAre(2, 4, 4));
  EXPECT_THAT(steps_in(*meals, 1), ElementsAre(1, 2, 2));
  EXPECT_EQ((*meals)[0].name, "breakfast");
}

// 3 steps of oats are 120 g of starch. 80 g a meal forbid all three in one of two
// meals, 60 g forbid two, and then there is no way.
TEST(DivideMeals, NoMealBreaksItsLimit) {
  EXPECT_TRUE(divided(two_cubes(2, 80.0, 10.0), day_of({3, 0})));
  EXPECT_FALSE(divided(two_cubes(2, 60.0, 10.0), day_of({3, 0})));
  EXPECT_FALSE(divided(two_cubes(2, 1000.0, 0.19), day_of({0, 3})));
}

TEST(DivideMeals, APinchOfPowderGoesIntoOneMeal) {
  RationQuestion question =
      question_of(500.0, {offer_of(feed_of("powder", FeedGroup::supplement, 1000.0, {}), 5.0)}, {});
  question.meals = 3;
  const auto pinch = divided(question, day_of({6}, 0.005));
  ASSERT_TRUE(pinch);
  EXPECT_THAT(steps_in(*pinch, 0), ElementsAre(0, 0, 6));
  const auto more = divided(question, day_of({18}, 0.005));
  ASSERT_TRUE(more);
  EXPECT_THAT(steps_in(*more, 0), ElementsAre(6, 6, 6));
}

// Shares of a day that the largest share bounds: 40 % of the day a meal at most.
TEST(MealShares, TheLargestBoundsTheDay) {
  RationQuestion question = two_cubes(3, 100.0, 1.0);
  EXPECT_NEAR(hand_made::row_of(formulate(question).rows, "starch_meal/max").bound, 300.0, 1e-9);
  question.horse.meal_shares = {{"a", 0.2}, {"b", 0.4}, {"c", 0.4}};
  EXPECT_NEAR(hand_made::row_of(formulate(question).rows, "starch_meal/max").bound, 250.0, 1e-9);
  EXPECT_NEAR(hand_made::row_of(formulate(question).rows, "meal_size/max").bound, 2.5, 1e-9);
  // With another number of meals tried, the shares say nothing.
  question.meals = 4;
  EXPECT_NEAR(largest_meal_share(question), 0.25, 1e-12);
}

// ---- Against trying every division ------------------------------------------

// True when some way to deal out the two feeds keeps every meal in its limits.
bool some_way(const RationQuestion& question, const DayInSteps& day, double starch_limit,
              double dry_limit) {
  const int meals = question.meals;
  const auto starch = [&](int oats, int beet) {
    return oats * day.step[0].in_kg() * 400.0 + beet * day.step[1].in_kg() * 50.0;
  };
  const auto dry = [&](int oats, int beet) {
    return oats * day.step[0].in_kg() + beet * day.step[1].in_kg();
  };
  const auto deal = [&](const auto& self, int meal, int oats, int beet) -> bool {
    if (meal == meals) return oats == 0 && beet == 0;
    for (int o = 0; o <= oats; ++o) {
      for (int b = 0; b <= beet; ++b) {
        if (starch(o, b) > starch_limit * (1.0 + 1e-9)) continue;
        if (dry(o, b) > dry_limit * (1.0 + 1e-9)) continue;
        if (self(self, meal + 1, oats - o, beet - b)) return true;
      }
    }
    return false;
  };
  return deal(deal, 0, day.steps[0], day.steps[1]);
}

TEST(DivideMeals, FindsADivisionExactlyWhenTryingThemAllDoes) {
  std::mt19937 random(20261125);
  const auto below = [&](unsigned end) { return static_cast<int>(random() % end); };
  int ways = 0;
  int no_ways = 0;
  for (int i = 0; i < 300; ++i) {
    const int meals = 1 + below(3);
    DayInSteps day{{below(7), below(7)}, {KgAsFed{0.1 * (1 + below(4))}, KgAsFed{0.1}}};
    // Limits near what the day needs, so that both answers are frequent.
    const double starch = (day.steps[0] * day.step[0].in_kg() * 400.0 + day.steps[1] * 5.0) / meals;
    const double dry =
        (day.steps[0] * day.step[0].in_kg() + day.steps[1] * day.step[1].in_kg()) / meals;
    const double starch_limit = std::round(starch * (0.95 + 0.05 * below(10))) + 0.5;
    const double dry_limit = dry * (0.95 + 0.05 * below(10)) + 1e-3;
    const RationQuestion question = two_cubes(meals, starch_limit, dry_limit);
    const auto found = divided(question, day);
    const bool exists = some_way(question, day, starch_limit, dry_limit);
    EXPECT_EQ(found.has_value(), exists) << "case " << i;
    ++(exists ? ways : no_ways);
  }
  EXPECT_GT(ways, 50);
  EXPECT_GT(no_ways, 50);
}

}  // namespace
}  // namespace haymow::divide_meals_test
