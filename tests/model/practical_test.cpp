#include "model/practical.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "solver/solve.h"
#include "tests/model/hand_made.h"

namespace haymow {
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

// Steps of 1 MJ cannot fall between 100.2 and 100.8 MJ.
TEST(Practical, IsNothingWhenNoWholeStepFits) {
  EXPECT_FALSE(
      practical_for(question_of(500.0, {hay()}, {need_of(Nutrient::energy, 100.2, 100.8)})));
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
  EXPECT_TRUE(practical_for(minerals_from_tubs(6)));
  EXPECT_FALSE(practical_for(minerals_from_tubs(7)));
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
}  // namespace haymow
