// What is soaked, how much water and when; by hand.
#include "model/soaking_plan.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/model/hand_made.h"

namespace haymow::soaking_plan_test {
namespace {

using hand_made::feed_of;
using hand_made::offer_of;
using ::testing::IsEmpty;
using ::testing::SizeIs;

constexpr TimeOfDay at(int hours, int minutes = 0) { return {hours * 60 + minutes}; }

struct Fed {
  Offer offer;
  double eaten_kg = 0.0;
};

/// The plan for a horse that eats `fed` in `meals` meals.
SoakingPlan plan_for(Horse horse, const std::vector<Fed>& fed, int meals) {
  RationQuestion question;
  question.horse = std::move(horse);
  question.meals = meals;
  Ration ration;
  ration.meals = meals;
  for (const Fed& f : fed) {
    const std::size_t offer = question.offers.size();
    question.offers.push_back(f.offer);
    const KgAsFed eaten{f.eaten_kg};
    ration.portions.push_back(
        {offer, eaten, f.offer.put_out(eaten), f.offer.feed.dry(eaten), Money{}});
  }
  return soaking_plan(question, ration, {});
}

Offer beet(double cold_minutes, std::optional<double> warm_minutes = std::nullopt) {
  Offer offer = offer_of(feed_of("beet", FeedGroup::fibre, 890.0, {}), 0.5);
  offer.feed.soaking = Soaking{3.0, cold_minutes, warm_minutes, ""};
  return offer;
}

Offer hard(const char* name, FeedGroup group) {
  Offer offer = offer_of(feed_of(name, group, 880.0, {}), 0.5);
  offer.feed.traits.insert(FeedTrait::hard);
  return offer;
}

TEST(TimeOfDay, MidnightIsCrossedBothWays) {
  EXPECT_EQ(shifted(at(7), -45.0), (Moment{at(6, 15), 0}));
  EXPECT_EQ(shifted(at(7), -12 * 60.0), (Moment{at(19), -1}));
  EXPECT_EQ(shifted(at(7), -24 * 60.0), (Moment{at(7), -1}));
  EXPECT_EQ(shifted(at(0), -1.0), (Moment{at(23, 59), -1}));
  EXPECT_EQ(shifted(at(0), 0.0), (Moment{at(0), 0}));
  EXPECT_EQ(shifted(at(7), -36 * 60.0), (Moment{at(19), -2}));
  EXPECT_EQ(shifted(at(18, 30), 12 * 60.0), (Moment{at(6, 30), 1}));
  EXPECT_EQ(shifted(at(7), -0.5), (Moment{at(6, 59), 0})) << "rather too early";
  EXPECT_EQ(clock_time(at(7, 5)), "07:05");
}

// Going back and forth by the same minutes comes back to the same time.
TEST(TimeOfDay, ThereAndBackIsTheSameTime) {
  for (int minute = 0; minute < 1440; minute += 7) {
    for (const double by : {1.0, 45.0, 719.0, 1440.0, 2500.0}) {
      const Moment before = shifted({minute}, -by);
      const Moment back = shifted(before.at, by);
      EXPECT_EQ(back.at.minutes, minute);
      EXPECT_EQ(before.day + back.day, 0);
    }
  }
}

// 2 kg in two meals: 1 kg in 3 kg of water, 45 minutes before 07:00 and 18:00; four
// kilograms and a quarter more is a bucket of five litres.
TEST(SoakingPlan, WaterBucketAndTimeOfAMeal) {
  Horse horse;
  horse.feeding_times = {at(7), at(18)};
  const SoakingPlan plan = plan_for(horse, {{beet(45.0, 15.0), 2.0}}, 2);
  ASSERT_THAT(plan.feeds, SizeIs(1));
  const SoakedFeed& feed = plan.feeds[0];
  EXPECT_NEAR(feed.dry_a_meal.in_kg(), 1.0, 1e-12);
  EXPECT_NEAR(feed.water_litres_a_meal, 3.0, 1e-12);
  EXPECT_EQ(feed.bucket_litres, 5.0);
  ASSERT_THAT(feed.times, SizeIs(2));
  EXPECT_EQ(feed.times[0].cold, (Moment{at(6, 15), 0}));
  EXPECT_EQ(*feed.times[0].warm, (Moment{at(6, 45), 0}));
  EXPECT_EQ(feed.times[0].earliest, (Moment{at(18, 15), -1})) << "ready at 19:00, kept 12 hours";
  EXPECT_EQ(feed.times[1].cold, (Moment{at(17, 15), 0}));
  EXPECT_EQ(feed.times[0].use_by, (Moment{at(19), 0}));
  EXPECT_EQ(feed.times[1].use_by, (Moment{at(6), 1}));
  EXPECT_FALSE(feed.for_the_teeth);
}

// The buckets as they are printed, not the day divided: 300 g, none and 500 g in
// three parts of water; three litres of bucket, and no time for the meal without.
TEST(SoakingPlan, FollowsThePrintedMeals) {
  RationQuestion question;
  question.meals = 3;
  question.offers.push_back(beet(45.0));
  question.horse.feeding_times = {at(7), at(12), at(18)};
  Ration ration;
  ration.meals = 3;
  ration.portions.push_back(
      {0, KgAsFed{0.8}, KgAsFed{0.8}, question.offers[0].feed.dry(KgAsFed{0.8}), Money{}});
  std::vector<Meal> meals(3);
  meals[0].portions.push_back({0, 3, KgAsFed{0.3}});
  meals[2].portions.push_back({0, 5, KgAsFed{0.5}});
  const SoakingPlan plan = soaking_plan(question, ration, meals);
  ASSERT_THAT(plan.feeds, SizeIs(1));
  const SoakedFeed& feed = plan.feeds[0];
  EXPECT_FALSE(feed.is_alike());
  EXPECT_EQ(feed.dry_by_meal[1], KgAsFed{});
  EXPECT_EQ(feed.dry_a_meal, KgAsFed{0.5});
  EXPECT_EQ(feed.bucket_litres, 3.0);  // 0.5 + 1.5 litres and a quarter more
  ASSERT_THAT(feed.times, SizeIs(2));
  EXPECT_EQ(feed.times[0].dry, KgAsFed{0.3});
  EXPECT_EQ(feed.times[1].fed, at(18));
}

// Pellets that need 24 hours, shreds that need 12.
TEST(SoakingPlan, LongSoakingStartsTheDayBefore) {
  Horse horse;
  horse.feeding_times = {at(7)};
  EXPECT_EQ(plan_for(horse, {{beet(720.0), 1.0}}, 1).feeds[0].times[0].cold, (Moment{at(19), -1}));
  EXPECT_EQ(plan_for(horse, {{beet(1440.0), 1.0}}, 1).feeds[0].times[0].cold, (Moment{at(7), -1}));
}

TEST(SoakingPlan, TimesThatDoNotFitTheMealsAreNotTold) {
  Horse horse;
  EXPECT_THAT(plan_for(horse, {{beet(45.0), 1.0}}, 2).feeds[0].times, IsEmpty());
  horse.feeding_times = {at(7), at(12), at(18)};
  EXPECT_THAT(plan_for(horse, {{beet(45.0), 1.0}}, 2).feeds[0].times, IsEmpty());
}

TEST(SoakingPlan, HardFeedIsSoakedOnlyForAHorseThatCannotChew) {
  const std::vector<Fed> fed{{hard("cubes", FeedGroup::compound), 2.0},
                             {hard("hay pellets", FeedGroup::dried_forage), 4.0},
                             {offer_of(feed_of("oats", FeedGroup::cereal, 880.0, {}), 0.5), 1.0}};
  EXPECT_THAT(plan_for({}, fed, 4).feeds, IsEmpty());
  Horse toothless;
  toothless.health.insert(HealthState::cannot_chew);
  const SoakingPlan plan = plan_for(toothless, fed, 4);
  ASSERT_THAT(plan.feeds, SizeIs(2));
  EXPECT_EQ(plan.feeds[0].offer, 0U);
  EXPECT_EQ(plan.feeds[1].offer, 1U);
  EXPECT_TRUE(plan.feeds[1].for_the_teeth);
  EXPECT_NEAR(plan.feeds[1].water_litres_a_meal, 3.0, 1e-12);
  EXPECT_EQ(plan.feeds[1].how.cold_minutes, 60.0);
}

// A feed with its own instruction keeps it, whatever the teeth.
TEST(SoakingPlan, TheBagsOwnTimeComesFirst) {
  Horse toothless;
  toothless.health.insert(HealthState::cannot_chew);
  Offer pellets = beet(1440.0);
  pellets.feed.traits.insert(FeedTrait::hard);
  const SoakingPlan plan = plan_for(toothless, {{pellets, 1.0}}, 4);
  EXPECT_EQ(plan.feeds[0].how.cold_minutes, 1440.0);
  EXPECT_FALSE(plan.feeds[0].for_the_teeth);
}

// Hay soaked for half an hour: 9.5 kg eaten are 10 kg weighed dry, and its sugar is
// what it was.
TEST(SoakingPlan, HayIsPutOutForWhatItLosesAndKeepsItsSugar) {
  Offer hay = offer_of(feed_of("hay", FeedGroup::hay, 880.0, {{Nutrient::sugar, 120.0}}), 0.2);
  hay.soaked_minutes = 30.0;
  hay.soaking_loss = dry_matter_lost_by_soaking(30.0);
  const SoakingPlan plan = plan_for({}, {{hay, 9.5}}, 2);
  EXPECT_THAT(plan.feeds, IsEmpty());
  ASSERT_THAT(plan.hay, SizeIs(1));
  EXPECT_NEAR(plan.hay[0].dry_a_day.in_kg(), 10.0, 1e-12);
  EXPECT_EQ(plan.hay[0].published_sugar_loss.least_percent, 2.0);
  EXPECT_EQ(hay.feed.composition[Nutrient::sugar]->value, 120.0);
}

// 1 + 0.5 kg of beet in 4.5 litres; one bucket for both, not two rounded up.
TEST(SoakingPlan, TheYardIsTheSumOfItsHorses) {
  Offer hay = offer_of(feed_of("hay", FeedGroup::hay, 880.0, {}), 0.2);
  hay.soaked_minutes = 30.0;
  const auto yard = soaking_of_yard({plan_for({}, {{beet(45.0), 2.0}, {hay, 8.0}}, 2),
                                     plan_for({}, {{beet(45.0), 0.5}, {hay, 5.0}}, 1)});
  ASSERT_THAT(yard, SizeIs(2));
  EXPECT_NEAR(yard[0].dry.in_kg(), 1.5, 1e-12);
  EXPECT_NEAR(yard[0].water_litres, 4.5, 1e-12);
  EXPECT_EQ(yard[0].bucket_litres, 8.0);  // 6 kg and a quarter more, rounded up
  EXPECT_TRUE(yard[1].hay);
  EXPECT_NEAR(yard[1].dry.in_kg(), 13.0, 1e-12);
}

}  // namespace
}  // namespace haymow::soaking_plan_test
