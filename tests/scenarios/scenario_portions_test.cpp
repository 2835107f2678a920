#include "scenarios/scenario_portions.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

#include "scenarios/report.h"

namespace haymow::scenario_portions_test {
namespace {

using ::testing::HasSubstr;

Scenario stable_with(const std::string& meals) {
  return read_scenario(
      "money: GBP\nhorses:\n"
      "  - {name: Comet, bodyweight: 500 kg, work: heavy, meals: " +
          meals +
          "}\nforage:\n"
          "  - {feed: \"meadow hay, average\", name: hay, price: 0.20 per kg, slice: 2.2 kg}\n"
          "market:\n"
          "  - {feed: stud cubes, price: 0.60 per kg, scoop: 1.4 kg}\n"
          "  - {feed: oats, price: 0.50 per kg}\n"
          "  - {feed: balancer pellet, price: 1.30 per kg}\n"
          "  - {feed: vitamin and mineral powder, price: 6.00 per kg}\n"
          "  - {feed: salt, price: 0.50 per kg}\n",
      "f.yaml");
}

TEST(ScenarioPortions, MealsMayHaveNames) {
  const Scenario scenario = stable_with("{breakfast: 20 %, noon: 40 %, supper: 40 %}");
  const Horse& horse = scenario.stable.horses[0];
  ASSERT_EQ(horse.meals, 3);
  ASSERT_EQ(horse.meal_shares.size(), 3U);
  EXPECT_EQ(horse.meal_shares[0].name, "breakfast");
  EXPECT_NEAR(horse.meal_shares[2].share, 0.4, 1e-12);
  const std::string text = write_text(ration_report(scenario, run(scenario), {}), 200, false);
  EXPECT_THAT(text, HasSubstr("breakfast"));
  EXPECT_THAT(text, HasSubstr("slice"));
}

TEST(ScenarioPortions, SharesOfThirdsAreTakenForThirds) {
  const Scenario scenario = stable_with("[33.3 %, 33.3 %, 33.4 %]");
  double sum = 0.0;
  for (const MealShare& meal : scenario.stable.horses[0].meal_shares) sum += meal.share;
  EXPECT_NEAR(sum, 1.0, 1e-12);
}

}  // namespace
}  // namespace haymow::scenario_portions_test
