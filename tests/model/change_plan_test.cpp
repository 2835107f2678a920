#include "model/change_plan.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "tests/model/hand_made.h"

namespace haymow::change_plan_test {
namespace {

using hand_made::feed_of;
using hand_made::ids_of;
using hand_made::limit_of;
using hand_made::need_of;
using hand_made::offer_of;
using hand_made::question_of;
using ::testing::ElementsAre;
using ::testing::IsEmpty;

Feed hay(const std::string& name = "hay") {
  return feed_of(name, FeedGroup::hay, 1000.0,
                 {{Nutrient::energy, 8.0}, {Nutrient::crude_protein, 80.0}});
}
Feed oats() {
  Feed feed = feed_of("oats", FeedGroup::cereal, 1000.0,
                      {{Nutrient::energy, 12.0}, {Nutrient::starch, 450.0}});
  feed.traits.insert(FeedTrait::grain);
  return feed;
}
Feed cubes() {
  return feed_of("cubes", FeedGroup::compound, 1000.0,
                 {{Nutrient::energy, 10.0}, {Nutrient::starch, 150.0}});
}

Changeover between(RationQuestion question, std::vector<double> now, std::vector<double> then) {
  Changeover change;
  change.formulation = formulate(question);
  change.question = std::move(question);
  change.now = std::move(now);
  change.then = std::move(then);
  return change;
}

Changeover from_hay_to_hay() {
  return between(question_of(500.0, {offer_of(hay(), 0.2), offer_of(hay("other hay"), 0.2)}, {}),
                 {8.0, 0.0}, {0.0, 8.0});
}

std::vector<int> first_days(const ChangePlan& plan) {
  std::vector<int> days;
  days.reserve(plan.steps.size());
  for (const ChangeStep& step : plan.steps) days.push_back(step.from_day);
  return days;
}

std::vector<double> amounts_of(const ChangePlan& plan, std::size_t offer) {
  std::vector<double> amounts;
  amounts.reserve(plan.steps.size());
  // To the gram: sums of scale steps carry the dust of binary fractions.
  for (const ChangeStep& step : plan.steps) {
    amounts.push_back(std::round(1000.0 * step.amounts[offer]) / 1000.0);
  }
  return amounts;
}

// Published: 25 % steps every about 4 days, two weeks in all, for hay or feed
// (horse-canada.com, Transitioning from pasture to hay).
TEST(ChangePlan, GoesInQuartersEveryFourDaysOrSoForTwoWeeks) {
  const ChangePlan plan = plan_change(from_hay_to_hay());
  ASSERT_TRUE(plan.safe);
  EXPECT_EQ(plan.days, 14);
  EXPECT_THAT(first_days(plan), ElementsAre(1, 6, 11, 15));
  EXPECT_THAT(amounts_of(plan, 0), ElementsAre(6.0, 4.0, 2.0, 0.0));
  EXPECT_THAT(amounts_of(plan, 1), ElementsAre(2.0, 4.0, 6.0, 8.0));
  EXPECT_EQ(plan.steps[2].to_day, 14);
  EXPECT_FALSE(plan.steps[3].to_day);
}

TEST(ChangePlan, TakesFourDaysAStepOverTwelve) {
  EXPECT_THAT(first_days(plan_change(from_hay_to_hay(), 12)), ElementsAre(1, 5, 9, 13));
}

// "10-14 days any feed": Hillyer et al. 2002, by way of a magazine page.
TEST(ChangePlan, TakesTenDaysAtTheLeast) {
  EXPECT_EQ(plan_change(from_hay_to_hay(), 3).days, 10);
  EXPECT_EQ(plan_change(from_hay_to_hay(), 10).days, 10);
  EXPECT_EQ(plan_change(from_hay_to_hay(), 21).days, 21);
}

TEST(ChangePlan, IsNoFasterThanUsualForAHorseThatFallsIllEasily) {
  for (const HealthState state :
       {HealthState::gastric_ulcers, HealthState::laminitis_prone, HealthState::cannot_chew}) {
    Changeover change = from_hay_to_hay();
    change.question.horse.health.insert(state);
    const ChangePlan plan = plan_change(change, 10);
    EXPECT_EQ(plan.days, 14);
    EXPECT_EQ(plan.no_faster, state);
    EXPECT_EQ(plan_change(change, 20).days, 20);
    EXPECT_FALSE(plan_change(change, 20).no_faster);
  }
}

// 6 kg of the old hay for 5 days, 4 for 5, 2 for 4: 58 kg to keep back.
TEST(ChangePlan, SaysHowMuchOfTheOldFeedIsNeeded) {
  const ChangePlan plan = plan_change(from_hay_to_hay());
  EXPECT_NEAR(plan.on_the_way[0].in_kg(), 58.0, 1e-9);
  EXPECT_NEAR(plan.on_the_way[1].in_kg(), 10.0 + 20.0 + 24.0, 1e-9);
}

// A fifth of the hay is wasted: 8 kg eaten are 10 kg put out.
TEST(ChangePlan, ReckonsWhatIsKeptBackAsPutOut) {
  const ChangePlan plan = plan_change(
      between(question_of(500.0, {offer_of(hay(), 0.2, 0.2), offer_of(hay("other hay"), 0.2)}, {}),
              {8.0, 0.0}, {0.0, 8.0}));
  EXPECT_NEAR(plan.on_the_way[0].in_kg(), 5 * 7.5 + 5 * 5.0 + 4 * 2.5, 0.5 + 1e-9);
}

TEST(ChangePlan, TellsAnotherForageFromMoreOfTheSame) {
  const RationQuestion question =
      question_of(500.0, {offer_of(hay(), 0.2), offer_of(hay("other hay"), 0.2)}, {});
  EXPECT_TRUE(plan_change(between(question, {8.0, 0.0}, {6.0, 2.0})).forage_differs);
  EXPECT_FALSE(plan_change(between(question, {8.0, 0.0}, {9.0, 0.0})).forage_differs);
}

TEST(ChangePlan, LessThanTheScaleShowsIsNoChange) {
  const RationQuestion question = question_of(500.0, {offer_of(hay(), 0.2)}, {});
  const ChangePlan same = plan_change(between(question, {8.04}, {8.0}));
  EXPECT_FALSE(same.changes);
  EXPECT_TRUE(same.safe);
  EXPECT_THAT(same.steps, IsEmpty());
  EXPECT_TRUE(plan_change(between(question, {7.9}, {8.0})).changes);
}

// Concentrates go up by at most 250 g from one day to the next: 1.5 kg in six steps.
TEST(ChangePlan, TakesMoreStepsWhereBucketFeedRises) {
  const ChangePlan plan =
      plan_change(between(question_of(500.0, {offer_of(hay(), 0.2), offer_of(cubes(), 0.5)}, {}),
                          {8.0, 0.0}, {8.0, 1.5}));
  ASSERT_TRUE(plan.safe);
  EXPECT_LE(plan.most_added_kg, 0.25 + 1e-9);
  EXPECT_GE(plan.steps.size(), 6U);
  double before = 0.0;
  for (const ChangeStep& step : plan.steps) {
    EXPECT_LE(step.amounts[1] - before, 0.25 + 1e-9);
    before = step.amounts[1];
  }
  EXPECT_EQ(plan.days, 14);
}

// 5 kg at 250 g a day: 20 days before the last, in 100 g steps 200 g a day, 25.
TEST(ChangePlan, TakesMoreDaysWhereMuchBucketFeedIsAdded) {
  const ChangePlan plan =
      plan_change(between(question_of(500.0, {offer_of(hay(), 0.2), offer_of(cubes(), 0.5)}, {}),
                          {8.0, 0.0}, {8.0, 5.0}));
  ASSERT_TRUE(plan.safe);
  EXPECT_EQ(plan.steps.size(), 25U);
  EXPECT_EQ(plan.days, 24);
}

// Two concentrates count together: 0.5 kg of each is 1 kg.
TEST(ChangePlan, CountsAllBucketFeedTogether) {
  const ChangePlan plan =
      plan_change(between(question_of(500.0, {offer_of(oats(), 0.4), offer_of(cubes(), 0.5)}, {}),
                          {0.0, 0.0}, {0.6, 0.6}));
  ASSERT_TRUE(plan.safe);
  std::vector<double> before(2, 0.0);
  for (const ChangeStep& step : plan.steps) {
    EXPECT_LE(step.amounts[0] + step.amounts[1] - before[0] - before[1], 0.25 + 1e-9);
    before = step.amounts;
  }
}

// 4 kg of oats have 1800 g of starch; 1000 g are the most in two meals of 500 kg.
// Oats go down to 2.2 kg (990 g) on the first day; the hay goes up a quarter.
TEST(ChangePlan, CutsAConcentrateAtOnceWhereItBreaksALimitToday) {
  RationQuestion question = question_of(500.0, {offer_of(hay(), 0.2), offer_of(oats(), 0.4)}, {},
                                        {limit_of("starch_meal/max", 1.0)});
  question.meals = 2;
  const ChangePlan plan = plan_change(between(question, {6.0, 4.0}, {10.0, 0.0}));
  ASSERT_TRUE(plan.safe);
  EXPECT_THAT(ids_of(plan.broken_today), ElementsAre("starch_meal/max"));
  EXPECT_THAT(amounts_of(plan, 1), ElementsAre(2.2, 2.0, 1.0, 0.0));
  EXPECT_THAT(amounts_of(plan, 0), ElementsAre(7.0, 8.0, 9.0, 10.0));
  EXPECT_THAT(plan.cut_early, ElementsAre(1U));
  for (const ChangeStep& step : plan.steps) EXPECT_THAT(step.broken, IsEmpty());
}

// The same limit kept today: nothing is cut ahead.
TEST(ChangePlan, CutsNothingEarlyWhereNothingIsBroken) {
  RationQuestion question = question_of(500.0, {offer_of(hay(), 0.2), offer_of(oats(), 0.4)}, {},
                                        {limit_of("starch_meal/max", 1.0)});
  question.meals = 4;
  const ChangePlan plan = plan_change(between(question, {6.0, 4.0}, {10.0, 0.0}));
  EXPECT_THAT(amounts_of(plan, 1), ElementsAre(3.0, 2.0, 1.0, 0.0));
  EXPECT_THAT(plan.cut_early, IsEmpty());
}

RationQuestion without_grain(double bodyweight_kg) {
  return question_of(bodyweight_kg, {offer_of(hay(), 0.2), offer_of(oats(), 0.4)},
                     {need_of(Nutrient::energy, 88.0)}, {limit_of("grain/max", 0.0)});
}

double energy_of(const ChangeStep& step) { return 8.0 * step.amounts[0] + 12.0 * step.amounts[1]; }

// Oats are forbidden and 5 kg are fed. A quarter of the way hay is 5.8 kg, 46.4 MJ.
// Without oats that is half of the 88 MJ needed: 2 kg stay, for 80 %, 70.4 MJ.
TEST(ChangePlan, DoesNotStarveAHorseToMendALimitAtOnce) {
  const ChangePlan plan = plan_change(between(without_grain(500.0), {4.0, 5.0}, {11.0, 0.0}));
  ASSERT_TRUE(plan.safe);
  EXPECT_NEAR(plan.steps[0].amounts[0], 5.8, 1e-9);
  EXPECT_NEAR(plan.steps[0].amounts[1], 2.0, 1e-9);
  for (const ChangeStep& step : plan.steps) EXPECT_GE(energy_of(step), 0.8 * 88.0 - 1e-6);
}

// 95 % of 88 MJ are 83.6.
TEST(ChangePlan, CutsLessOfAPonyOrAMareInMilk) {
  Changeover pony = between(without_grain(250.0), {4.0, 5.0}, {11.0, 0.0});
  Changeover mare = between(without_grain(500.0), {4.0, 5.0}, {11.0, 0.0});
  mare.question.horse.stage = Lactating{2};
  for (const Changeover& change : {pony, mare}) {
    const ChangePlan plan = plan_change(change);
    ASSERT_TRUE(plan.safe);
    EXPECT_LT(plan.steps[0].amounts[1], 3.7);
    for (const ChangeStep& step : plan.steps) EXPECT_GE(energy_of(step), 83.6 - 1e-6);
  }
}

// 6 kg of hay are 48 MJ, 55 % of 88. Two more weeks of little would be no kindness.
TEST(ChangePlan, DoesNotGoSlowlyForAHorseThatStarves) {
  const ChangePlan plan = plan_change(between(without_grain(500.0), {6.0, 0.0}, {11.0, 0.0}));
  EXPECT_FALSE(plan.safe);
  EXPECT_THAT(plan.steps, IsEmpty());
  ASSERT_TRUE(plan.too_little);
  EXPECT_NEAR(*plan.too_little, 48.0 / 88.0, 1e-9);
  EXPECT_TRUE(plan_change(between(without_grain(500.0), {7.0, 0.0}, {11.0, 0.0})).safe);
}

// Forage is short today and is not hurried: half of the way gives the 7.5 kg.
TEST(ChangePlan, TellsWhichStepsStillBreakWhatIsBrokenToday) {
  const ChangePlan plan = plan_change(between(
      question_of(500.0, {offer_of(hay(), 0.2)}, {}, {limit_of("forage/min", 1.5)}), {7.0}, {8.0}));
  ASSERT_TRUE(plan.safe);
  ASSERT_EQ(plan.steps.size(), 4U);
  ASSERT_EQ(plan.steps[0].broken.size(), 1U);
  EXPECT_EQ(plan.steps[0].broken[0].broken.row.id, "forage/min");
  EXPECT_TRUE(plan.steps[0].broken[0].broken_today);
  EXPECT_THAT(plan.steps[1].broken, IsEmpty());
}

// Both rations have 7.5 kg of forage, no more than the floor. Halves of 100 g would
// round to less: one of the two is rounded up.
TEST(ChangePlan, RoundsOnTheSideOfALimit) {
  const ChangePlan plan = plan_change(
      between(question_of(500.0, {offer_of(hay(), 0.2), offer_of(hay("other hay"), 0.2)}, {},
                          {limit_of("forage/min", 1.5)}),
              {7.5, 0.0}, {5.4, 2.1}));
  ASSERT_TRUE(plan.safe);
  for (const ChangeStep& step : plan.steps) {
    EXPECT_GE(step.amounts[0] + step.amounts[1], 7.5 - 1e-9);
    EXPECT_THAT(step.broken, IsEmpty());
  }
}

// The forage floor forbids less than 7.5 kg and the intake ceiling more: no whole
// 100 g of two hays with odd waste come out even. There is no safe step, and none is shown.
TEST(ChangePlan, ShowsNoStepThatBreaksWhatTodayKeeps) {
  const ChangePlan plan = plan_change(between(
      question_of(500.0, {offer_of(hay(), 0.2, 0.07), offer_of(hay("other hay"), 0.2, 0.03)}, {},
                  {limit_of("forage/min", 1.5), limit_of("intake/max", 1.5)}),
      {7.5, 0.0}, {0.0, 7.5}));
  EXPECT_TRUE(plan.changes);
  EXPECT_FALSE(plan.safe);
  EXPECT_THAT(plan.steps, IsEmpty());
  EXPECT_FALSE(plan.unavoidable.empty());
}

// 8 to 10 MJ per kg is a quarter more; two to three weeks are advised (a summary of
// Harris et al. 2017).
TEST(ChangePlan, NotesAForageOfAnotherKind) {
  const Feed rich = feed_of("rich hay", FeedGroup::hay, 1000.0,
                            {{Nutrient::energy, 10.0}, {Nutrient::crude_protein, 84.0}});
  const ChangePlan plan = plan_change(between(
      question_of(500.0, {offer_of(hay(), 0.2), offer_of(rich, 0.2)}, {}), {8.0, 0.0}, {0.0, 8.0}));
  ASSERT_EQ(plan.shifts.size(), 1U);
  EXPECT_EQ(plan.shifts[0].nutrient, Nutrient::energy);
  EXPECT_DOUBLE_EQ(plan.shifts[0].now, 8.0);
  EXPECT_DOUBLE_EQ(plan.shifts[0].then, 10.0);
  EXPECT_THAT(plan_change(from_hay_to_hay()).shifts, IsEmpty());
}

}  // namespace
}  // namespace haymow::change_plan_test
