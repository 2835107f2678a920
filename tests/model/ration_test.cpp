#include "model/ration.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/model/hand_made.h"

namespace haymow::ration_test {
namespace {

using hand_made::feed_of;
using hand_made::ids_of;
using hand_made::limit_of;
using hand_made::need_of;
using hand_made::offer_of;
using hand_made::question_of;
using hand_made::supply_in;
using testing::ElementsAre;
using testing::IsEmpty;
using testing::SizeIs;

Ration ration_of(const RationQuestion& question, const std::vector<double>& amounts) {
  return ration_from(question, formulate(question), amounts);
}

// 10 kg eaten of which a fifth is trodden in: 12.5 kg put out, 8.6 kg dry, and
// 12.5 x 0.20 = 2.50 paid.
TEST(Ration, WhatIsWastedIsPutOutAndPaidFor) {
  const RationQuestion question =
      question_of(500.0, {offer_of(feed_of("hay", FeedGroup::hay, 860.0, {}), 0.20, 0.2)}, {});
  const Ration ration = ration_of(question, {10.0});
  ASSERT_THAT(ration.portions, SizeIs(1));
  EXPECT_DOUBLE_EQ(ration.portions[0].eaten.in_kg(), 10.0);
  EXPECT_DOUBLE_EQ(ration.portions[0].put_out.in_kg(), 12.5);
  EXPECT_DOUBLE_EQ(ration.portions[0].dry_matter.in_kg(), 8.6);
  EXPECT_DOUBLE_EQ(ration.cost.in_units(), 2.50);
  EXPECT_DOUBLE_EQ(ration.dry_matter.in_kg(), 8.6);
}

TEST(Ration, IsReadForageFirstAndMineralsLast) {
  const auto plain = [](const char* name, FeedGroup group) {
    return offer_of(feed_of(name, group, 900.0, {}), 1.0);
  };
  const RationQuestion question =
      question_of(500.0,
                  {plain("salt", FeedGroup::mineral), plain("balancer", FeedGroup::balancer),
                   plain("oil", FeedGroup::oil), plain("oats", FeedGroup::cereal),
                   plain("beet", FeedGroup::fibre), plain("chaff", FeedGroup::dried_forage),
                   plain("straw", FeedGroup::straw), plain("hay", FeedGroup::hay)},
                  {});
  std::vector<std::string> order;
  for (const Portion& portion : ration_of(question, std::vector<double>(8, 1.0)).portions) {
    order.push_back(question.offers[portion.offer].name);
  }
  EXPECT_THAT(order,
              ElementsAre("hay", "straw", "chaff", "beet", "oats", "oil", "balancer", "salt"));
}

TEST(Ration, WhatIsNotFedIsNoPortion) {
  const RationQuestion question =
      question_of(500.0,
                  {offer_of(feed_of("hay", FeedGroup::hay, 900.0, {}), 0.2),
                   offer_of(feed_of("oats", FeedGroup::cereal, 900.0, {}), 0.5)},
                  {});
  const Ration ration = ration_of(question, {9.0, 5e-7});
  ASSERT_THAT(ration.portions, SizeIs(1));
  EXPECT_EQ(ration.portions[0].offer, 0U);
  EXPECT_DOUBLE_EQ(ration.cost.in_units(), 1.8);
}

// Hay 10 kg dry with 5 g of calcium a kg, cubes 2.5 kg dry without a figure: 50 g
// are known of, from four fifths of the dry matter.
TEST(Ration, AnUnknownFigureSuppliesNothingAndIsSaid) {
  const RationQuestion question = question_of(
      500.0,
      {offer_of(feed_of("hay", FeedGroup::hay, 1000.0, {{Nutrient::calcium, 5.0}}), 0.2),
       offer_of(feed_of("cubes", FeedGroup::compound, 1000.0, {}), 0.5)},
      {need_of(Nutrient::calcium, 20.0)});
  const Supply calcium = supply_in(ration_of(question, {10.0, 2.5}), Nutrient::calcium);
  EXPECT_DOUBLE_EQ(calcium.supplied, 50.0);
  EXPECT_DOUBLE_EQ(calcium.known_share, 0.8);
  EXPECT_EQ(calcium.floor, 20.0);
  EXPECT_EQ(calcium.ceiling, std::nullopt);
}

// 10 kg x 5 g printed, 2 kg x 25 g from memory: half of the 100 g.
TEST(Ration, SaysHowMuchRestsOnMemory) {
  Feed remembered = feed_of("remembered", FeedGroup::compound, 1000.0, {});
  remembered.composition[Nutrient::calcium] = Figure{25.0, FigureOrigin::memory, "test"};
  const RationQuestion question = question_of(
      500.0,
      {offer_of(feed_of("hay", FeedGroup::hay, 1000.0, {{Nutrient::calcium, 5.0}}), 0.2),
       offer_of(remembered, 0.5)},
      {need_of(Nutrient::calcium, 20.0)});
  EXPECT_DOUBLE_EQ(supply_in(ration_of(question, {10.0, 2.0}), Nutrient::calcium).memory_share,
                   0.5);
}

TEST(Ration, ForageIsCountedDry) {
  const RationQuestion question =
      question_of(500.0,
                  {offer_of(feed_of("haylage", FeedGroup::haylage, 600.0, {}), 0.2),
                   offer_of(feed_of("beet", FeedGroup::fibre, 900.0, {}), 0.5)},
                  {});
  // 6 kg and 2 kg dry: three quarters.
  const Ration ration = ration_of(question, {10.0, 2.0 / 0.9});
  EXPECT_DOUBLE_EQ(ration.forage.in_kg(), 6.0);
  EXPECT_NEAR(ration.forage_share(), 0.75, 1e-12);
  // For a horse that cannot chew, soaked fibre is its forage.
  RationQuestion toothless = question;
  toothless.horse.health = {HealthState::cannot_chew};
  EXPECT_NEAR(ration_of(toothless, {10.0, 2.0 / 0.9}).forage_share(), 1.0, 1e-12);
}

TEST(Ration, NothingFedHasNoShare) {
  const RationQuestion question =
      question_of(500.0, {offer_of(feed_of("hay", FeedGroup::hay, 900.0, {}), 0.2)},
                  {need_of(Nutrient::calcium, 20.0)});
  const Ration ration = ration_of(question, {0.0});
  EXPECT_THAT(ration.portions, IsEmpty());
  EXPECT_EQ(ration.forage_share(), 0.0);
  EXPECT_EQ(supply_in(ration, Nutrient::calcium).known_share, 0.0);
}

// 2 kg of cubes with 300 g of starch in three meals: 200 g each. What is in the
// hay is eaten all day and does not count.
TEST(Ration, StarchIsThatOfTheBucketByMeal) {
  RationQuestion question = question_of(
      500.0,
      {offer_of(feed_of("hay", FeedGroup::hay, 1000.0, {{Nutrient::starch, 20.0}}), 0.2),
       offer_of(feed_of("cubes", FeedGroup::compound, 1000.0, {{Nutrient::starch, 300.0}}), 0.5)},
      {}, {limit_of("starch_day/max", 2.0)});
  question.meals = 3;
  EXPECT_NEAR(ration_of(question, {10.0, 2.0}).starch_per_meal_g, 200.0, 1e-9);
}

// --- broken rows ---

RationQuestion hay_for_100_mj() {
  return question_of(
      500.0, {offer_of(feed_of("hay", FeedGroup::hay, 1000.0, {{Nutrient::energy, 10.0}}), 0.2)},
      {need_of(Nutrient::energy, 100.0, 105.0)}, {limit_of("forage/min", 1.8)});
}

TEST(BrokenRows, AreNoneWhenAllIsKept) {
  EXPECT_THAT(broken_rows(formulate(hay_for_100_mj()).rows, {10.0}), IsEmpty());
}

TEST(BrokenRows, TellWhatTheAmountsGive) {
  // 8 kg: 80 MJ of 100, and 8 kg of the 9 kg of forage.
  const std::vector<Broken> broken = broken_rows(formulate(hay_for_100_mj()).rows, {8.0});
  EXPECT_THAT(ids_of(broken), ElementsAre("energy/min", "forage/min"));
  EXPECT_DOUBLE_EQ(broken[0].value, 80.0);
  EXPECT_DOUBLE_EQ(broken[1].value, 8.0);
}

TEST(BrokenRows, LookAtBothSides) {
  EXPECT_THAT(ids_of(broken_rows(formulate(hay_for_100_mj()).rows, {11.0})),
              ElementsAre("energy/max"));
}

TEST(BrokenRows, ForgiveTheArithmeticOnly) {
  const Formulation formulation = formulate(hay_for_100_mj());
  EXPECT_THAT(broken_rows(formulation.rows, {10.0 - 5e-6}), IsEmpty());
  EXPECT_THAT(broken_rows(formulation.rows, {10.0 - 5e-5}), SizeIs(1));
}

}  // namespace
}  // namespace haymow::ration_test
