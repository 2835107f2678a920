#include "model/practical.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "solver/solve.h"
#include "tests/model/hand_made.h"

namespace haymow::practical_test {
namespace {

using hand_made::feed_of;
using hand_made::need_of;
using hand_made::offer_of;
using hand_made::question_of;

Offer hay(double waste = 0.0) {
  return offer_of(
      feed_of("hay", FeedGroup::hay, 1000.0, {{Nutrient::energy, 10.0}, {Nutrient::lysine, 0.98}}),
      0.20, waste);
}

std::optional<PracticalRation> practical_for(const RationQuestion& question) {
  const Formulation formulation = formulate(question);
  const Solution solution = solve(formulation.program);
  EXPECT_EQ(solution.status, Status::optimal);
  return practical_ration(question, formulation,
                          certify(formulation.program, solution).lower_bound);
}

// 100.5 MJ at 10 MJ a kg: 10.05 kg, in steps of 100 g 10.1 kg, at 0.20 2.02.
TEST(Practical, HayComesInHundredsOfGrams) {
  const auto practical =
      practical_for(question_of(500.0, {hay()}, {need_of(Nutrient::energy, 100.5)}));
  ASSERT_TRUE(practical);
  EXPECT_NEAR(practical->amounts[0], 10.1, 1e-9);
  EXPECT_NEAR(practical->ration.cost.in_units(), 2.02, 1e-9);
}

// A fifth is wasted. 10.1 kg eaten are 12.625 kg put out; the scale shows 12.7 kg,
// of which 10.16 kg are eaten.
TEST(Practical, TheScaleWeighsWhatIsPutOut) {
  const auto practical =
      practical_for(question_of(500.0, {hay(0.2)}, {need_of(Nutrient::energy, 101.0)}));
  ASSERT_TRUE(practical);
  EXPECT_NEAR(practical->ration.portions[0].put_out.in_kg(), 12.7, 1e-9);
  EXPECT_NEAR(practical->amounts[0], 10.16, 1e-9);
}

// The gap is to the continuous ration: (2.02 - 2.01) / 2.02.
TEST(Practical, TheCertificateTellsWhatWholeStepsCost) {
  const auto practical =
      practical_for(question_of(500.0, {hay()}, {need_of(Nutrient::energy, 100.5)}));
  ASSERT_TRUE(practical);
  EXPECT_TRUE(practical->within_gap);
  EXPECT_LE(practical->certificate.largest_violation, certificate_tolerance);
  EXPECT_NEAR(practical->certificate.lower_bound, 2.01, 1e-9);
  EXPECT_NEAR(practical->certificate.relative_gap, 0.01 / 2.02, 1e-9);
}

// 2 g of sodium is 5 g of salt, one step; but less than 10 g is not worth a tub.
TEST(Practical, AFeedThatIsUsedIsUsedInALeastAmount) {
  const Offer salt =
      offer_of(feed_of("salt", FeedGroup::mineral, 1000.0, {{Nutrient::sodium, 400.0}}), 100.0);
  const auto practical = practical_for(question_of(
      500.0, {hay(), salt}, {need_of(Nutrient::energy, 100.0), need_of(Nutrient::sodium, 2.0)}));
  ASSERT_TRUE(practical);
  EXPECT_NEAR(practical->amounts[1], 0.010, 1e-9);
}

// 10 g of lysine; 10 kg of hay give 9.8. The cheapest is 20 g of balancer (0.04);
// to weigh out, 100 g of it (0.20) or 10.3 kg of hay (0.06 more): the hay.
TEST(Practical, ACrumbOfAnotherFeedIsNotWorthABag) {
  const Offer balancer =
      offer_of(feed_of("balancer", FeedGroup::balancer, 1000.0, {{Nutrient::lysine, 10.0}}), 2.0);
  const RationQuestion question =
      question_of(500.0, {hay(), balancer},
                  {need_of(Nutrient::energy, 100.0), need_of(Nutrient::lysine, 10.0)});
  EXPECT_NEAR(solve(formulate(question).program).columns[1], 0.020, 1e-9);
  const auto practical = practical_for(question);
  ASSERT_TRUE(practical);
  EXPECT_NEAR(practical->amounts[0], 10.3, 1e-9);
  EXPECT_EQ(practical->amounts[1], 0.0);
}

// 100.2 to 100.8 MJ at 10 MJ a kg: no step of 100 g falls between, 10.05 kg does.
TEST(Practical, HalvesTheStepsWhenNoWholeOneFits) {
  const auto practical =
      practical_for(question_of(500.0, {hay()}, {need_of(Nutrient::energy, 100.2, 100.8)}));
  ASSERT_TRUE(practical);
  EXPECT_EQ(practical->choices.fineness, Fineness::half);
  EXPECT_NEAR(practical->amounts[0], 10.05, 1e-9);
}

// 100.2 to 100.4 MJ: 10.02 kg, in steps of 10 g.
TEST(Practical, WeighsToTenGramsWhenHalfStepsDoNotFit) {
  const auto practical =
      practical_for(question_of(500.0, {hay()}, {need_of(Nutrient::energy, 100.2, 100.4)}));
  ASSERT_TRUE(practical);
  EXPECT_EQ(practical->choices.fineness, Fineness::fine);
  EXPECT_NEAR(practical->amounts[0], 10.02, 1e-9);
}

// 100.22 to 100.28 MJ: not to be weighed on a spring scale.
TEST(Practical, IsNothingWhenNoStepFits) {
  EXPECT_FALSE(
      practical_for(question_of(500.0, {hay()}, {need_of(Nutrient::energy, 100.22, 100.28)})));
}

// Each mineral is in one tub only.
RationQuestion minerals_from_tubs(std::size_t tubs) {
  const std::vector<Nutrient> minerals{Nutrient::copper,    Nutrient::zinc,     Nutrient::iron,
                                       Nutrient::manganese, Nutrient::selenium, Nutrient::iodine,
                                       Nutrient::cobalt};
  RationQuestion question = question_of(500.0, {hay()}, {need_of(Nutrient::energy, 100.0)});
  for (std::size_t i = 0; i < tubs; ++i) {
    question.offers.push_back(offer_of(
        feed_of("tub " + std::to_string(i), FeedGroup::supplement, 1000.0, {{minerals[i], 1000.0}}),
        1.0));
    question.needs.rows.push_back(need_of(minerals[i], 10.0));
  }
  return question;
}

TEST(Practical, SixFeedsInTheBucketAreAsManyAsAnyoneMixes) {
  ASSERT_EQ(most_bucket_feeds, 6);
  const auto six = practical_for(minerals_from_tubs(6));
  ASSERT_TRUE(six);
  EXPECT_EQ(six->choices.bucket_feeds, 6);
}

TEST(Practical, MoreFeedsThanAskedForAreUsedOnlyWhenNothingElseWorksAndSaidSo) {
  const auto seven = practical_for(minerals_from_tubs(7));
  ASSERT_TRUE(seven);
  EXPECT_EQ(seven->choices.bucket_feeds, 7);
  RationQuestion few = minerals_from_tubs(3);
  few.horse.bucket_feeds = 2;
  const auto three = practical_for(few);
  ASSERT_TRUE(three);
  EXPECT_EQ(bucket_feeds_asked(few.horse), 2);
  EXPECT_EQ(three->choices.bucket_feeds, 3);
}

// 10 g of lysine from 10.3 kg of hay at 2.06 or 10 kg and 100 g of balancer at
// 2.20: with no feed in the bucket at most, the hay; at 1.00 the balancer's is
// 2.10 and would still be dearer; at 0.50 it is 2.05 and wins while it may.
TEST(Practical, TheKeeperSaysHowManyFeedsGoIntoTheBucket) {
  RationQuestion question = question_of(
      500.0,
      {hay(),
       offer_of(feed_of("balancer", FeedGroup::balancer, 1000.0, {{Nutrient::lysine, 10.0}}), 0.5)},
      {need_of(Nutrient::energy, 100.0), need_of(Nutrient::lysine, 10.0)});
  EXPECT_GT(practical_for(question)->amounts[1], 0.0);
  question.horse.bucket_feeds = 0;
  EXPECT_EQ(practical_for(question)->amounts[1], 0.0);
}

// Scoops of 1.4 kg: 20 MJ at 12 MJ a kg are 1.67 kg, so 2 scoops of oats at 0.84
// each, or 1 scoop (16.8 MJ) and hay. Hay at 10 MJ a kg, 0.02 a MJ, is cheaper
// than oats at 0.05 a MJ; at most 8 kg of hay leave 20 MJ to the oats.
TEST(Practical, TheKeepersScoopIsTheStep) {
  Offer oats =
      offer_of(feed_of("oats", FeedGroup::cereal, 1000.0, {{Nutrient::energy, 12.0}}), 0.6);
  oats.fed_in = WholePortion{KgAsFed{1.4}, "scoop"};
  RationQuestion question =
      question_of(500.0, {hay(), oats}, {need_of(Nutrient::energy, 100.0, 115.0)});
  question.horse.wishes.push_back({WishKind::at_most, "hay", KgAsFed{8.0}, {}});
  const auto practical = practical_for(question);
  ASSERT_TRUE(practical);
  EXPECT_EQ(practical->choices.fineness, Fineness::usual);
  EXPECT_EQ(practical->steps[1], 2);
  EXPECT_NEAR(practical->amounts[1], 2.8, 1e-9);
}

// 100 to 105 MJ with 8 kg of hay exactly: 1.67 to 2.08 kg of oats are no whole
// scoops of 1.4 kg and no halves of it; by the scale they are 1.7 kg.
TEST(Practical, AScoopThatCannotFitIsGivenUpAndSaidSo) {
  Offer oats =
      offer_of(feed_of("oats", FeedGroup::cereal, 1000.0, {{Nutrient::energy, 12.0}}), 0.6);
  oats.fed_in = WholePortion{KgAsFed{1.4}, "scoop"};
  RationQuestion question =
      question_of(500.0, {hay(), oats}, {need_of(Nutrient::energy, 100.0, 105.0)});
  question.horse.wishes.push_back({WishKind::exactly, "hay", KgAsFed{8.0}, {}});
  const auto practical = practical_for(question);
  ASSERT_TRUE(practical);
  EXPECT_EQ(practical->choices.fineness, Fineness::usual);
  EXPECT_EQ(practical->choices.portions, PortionUse::by_weight);
  EXPECT_NEAR(practical->amounts[1], 1.7, 1e-9);
}

// What the keeper wants exactly is no multiple of 100 g, and needs none.
TEST(Practical, AnExactAmountIsKeptToTheGram) {
  Offer oats =
      offer_of(feed_of("oats", FeedGroup::cereal, 1000.0, {{Nutrient::energy, 12.0}}), 0.6);
  RationQuestion question = question_of(500.0, {hay(), oats}, {need_of(Nutrient::energy, 100.0)});
  question.horse.wishes.push_back({WishKind::exactly, "oats", KgAsFed{0.37}, {}});
  const auto practical = practical_for(question);
  ASSERT_TRUE(practical);
  EXPECT_EQ(practical->choices.fineness, Fineness::usual);
  EXPECT_NEAR(practical->amounts[1], 0.37, 1e-12);
  EXPECT_NEAR(practical->weighings[1].step.in_kg(), 0.01, 1e-12);
}

// A share of 10.02 kg of hay a day; the need asks for 10.02 kg. 10.0 kg are too
// little, 10.1 kg are a step more than the share: told by the choice, and bounded
// by what that much hay would cost continuously, not by the share's own bound.
TEST(Practical, AShareOfTheBarnGivesByOneStepAndSaysSo) {
  RationQuestion question = question_of(500.0, {hay()}, {need_of(Nutrient::energy, 100.2)});
  question.stock_a_day = {KgAsFed{10.02}};
  const auto practical = practical_for(question);
  ASSERT_TRUE(practical);
  EXPECT_TRUE(practical->choices.above_share);
  EXPECT_NEAR(practical->amounts[0], 10.1, 1e-9);
  question.stock_in_steps = {KgAsFed{10.2}};
  const auto spare = practical_for(question);
  ASSERT_TRUE(spare);
  EXPECT_FALSE(spare->choices.above_share);
}

TEST(Practical, KeepsTheCeilingsAsWell) {
  // 95 to 101 MJ from hay at 8 MJ in steps of 0.8: 11.9 to 12.6 kg.
  RationQuestion question = question_of(
      500.0, {offer_of(feed_of("hay", FeedGroup::hay, 1000.0, {{Nutrient::energy, 8.0}}), 0.2)},
      {need_of(Nutrient::energy, 95.0, 101.0)});
  const auto practical = practical_for(question);
  ASSERT_TRUE(practical);
  EXPECT_THAT(broken_rows(formulate(question).rows, practical->amounts), testing::IsEmpty());
  EXPECT_NEAR(practical->amounts[0], 11.9, 0.05 + 1e-9);
}

}  // namespace
}  // namespace haymow::practical_test
