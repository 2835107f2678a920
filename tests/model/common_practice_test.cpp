// Facts of the trade that every yard knows and nobody prints: common practice,
// no source. Through the feed table and the program.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "feeds/feed_table.h"
#include "solver/solve.h"
#include "tests/model/hand_made.h"

namespace haymow::common_practice_test {
namespace {

using hand_made::need_of;
using hand_made::offer_of;
using hand_made::question_of;

Horse ordinary_horse(double kg) {
  Horse horse;
  horse.bodyweight = Bodyweight{kg};
  return horse;
}

// Cheaper than anything, so that only its own limit holds it back.
double most_fed(const Feed& feed, double bodyweight_kg, const std::string& rule) {
  const std::vector<Limit> limits = limits_for(ordinary_horse(bodyweight_kg));
  const Feed other =
      hand_made::feed_of("anything", FeedGroup::compound, 900.0, {{Nutrient::energy, 10.0}});
  const RationQuestion question =
      question_of(bodyweight_kg, {offer_of(feed, 0.01), offer_of(other, 100.0)},
                  {need_of(Nutrient::energy, 1000.0)}, {*find_limit(limits, rule)});
  const Solution solution = solve(formulate(question).program);
  EXPECT_EQ(solution.status, Status::optimal);
  return solution.usable() ? solution.columns[0] : 0.0;
}

class SoakedBeet : public testing::TestWithParam<const char*> {};

// Three parts of water by weight, 45 minutes in cold or 15 in warm water.
TEST_P(SoakedBeet, TakesThreePartsOfWater) {
  const Feed* beet = find_feed(GetParam());
  ASSERT_NE(beet, nullptr);
  ASSERT_TRUE(beet->has(FeedTrait::soak));
  ASSERT_TRUE(beet->soaking);
  EXPECT_EQ(beet->soaking->water_parts, 3.0);
  EXPECT_EQ(beet->soaking->cold_minutes, 45.0);
  EXPECT_EQ(beet->soaking->warm_minutes, 15.0);
}

// 1 kg dry a day for 100 kg of horse, weighed before the water: 5 kg for 500 kg,
// and with 15 kg of water 20 kg wet.
TEST_P(SoakedBeet, IsFedUpToAKilogramDryForAHundredKilogramsOfHorse) {
  const Feed* beet = find_feed(GetParam());
  ASSERT_NE(beet, nullptr);
  ASSERT_TRUE(beet->soaking);
  const double dry_kg = most_fed(*beet, 500.0, "soaked/max");
  EXPECT_NEAR(dry_kg, 5.0, 1e-9);
  EXPECT_NEAR(dry_kg * (1.0 + beet->soaking->water_parts), 20.0, 1e-9);
  EXPECT_NEAR(most_fed(*beet, 300.0, "soaked/max"), 3.0, 1e-9);
}

INSTANTIATE_TEST_SUITE_P(
    Table, SoakedBeet, testing::Values("sugar beet pulp, unmolassed", "sugar beet pulp, molassed"),
    [](const auto& each) { return std::string(each.index == 0 ? "Unmolassed" : "Molassed"); });

TEST(CommonPractice, WhateverMustBeSoakedSaysHow) {
  for (const Feed& feed : feed_table()) {
    EXPECT_EQ(feed.has(FeedTrait::soak), feed.soaking.has_value()) << feed.name;
  }
}

// Grass can be four fifths water.
TEST(CommonPractice, SpringGrassIsFourFifthsWater) {
  const Feed* grass = find_feed("grass, spring");
  ASSERT_NE(grass, nullptr);
  EXPECT_NEAR(1.0 - grass->dry_matter_share(), 0.80, 0.005);
}

TEST(CommonPractice, GrassIsMostlyWater) {
  for (const Feed& feed : feed_table()) {
    if (feed.group != FeedGroup::grass) continue;
    EXPECT_THAT(1.0 - feed.dry_matter_share(), testing::AllOf(testing::Ge(0.75), testing::Le(0.85)))
        << feed.name;
  }
}

// A grazing horse of 500 kg may eat up to 50 kg of it a day.
TEST(CommonPractice, AGrazingHorseEatsUpToFiftyKilogramsOfGrass) {
  const Feed* grass = find_feed("grass, spring");
  ASSERT_NE(grass, nullptr);
  EXPECT_NEAR(most_fed(*grass, 500.0, "grass/max"), 50.0, 1e-9);
  EXPECT_NEAR(grass->dry(KgAsFed{50.0}).in_kg(), 10.0, 0.1);  // 2 % of bodyweight, dry
}

}  // namespace
}  // namespace haymow::common_practice_test
