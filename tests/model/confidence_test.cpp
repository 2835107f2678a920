#include "model/confidence.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "model/explanation.h"
#include "model/normal_law.h"
#include "model/variation.h"
#include "solver/certify.h"
#include "solver/solve.h"
#include "tests/model/any_stable.h"
#include "tests/model/hand_made.h"

namespace haymow::confidence_test {
namespace {

using hand_made::feed_of;
using hand_made::need_of;
using hand_made::offer_of;
using hand_made::question_of;
using testing::Contains;
using testing::ElementsAre;
using testing::IsEmpty;
using testing::Not;

// Hay of 100 g protein a kg, varying by 13 %, at 0.2 a kg; 800 g are needed.
RationQuestion hay_alone() {
  return question_of(
      500.0,
      {offer_of(feed_of("hay", FeedGroup::hay, 1000, {{Nutrient::crude_protein, 100}}), 0.2)},
      {need_of(Nutrient::crude_protein, 800.0)});
}

TEST(NormalLaw, MatchesThePrintedTable) {
  // Any statistics handbook: 90 % one-sided is 1.2816, 95 % 1.6449, 99 % 2.3263.
  EXPECT_NEAR(normal_quantile(0.90), 1.281551565545, 1e-11);
  EXPECT_NEAR(normal_quantile(0.95), 1.644853626951, 1e-11);
  EXPECT_NEAR(normal_quantile(0.99), 2.326347874041, 1e-11);
  EXPECT_NEAR(normal_quantile(0.5), 0.0, 1e-15);
  EXPECT_NEAR(normal_probability(1.0) - normal_probability(-1.0), 0.682689492137, 1e-12);
  EXPECT_THROW((void)normal_quantile(1.0), std::invalid_argument);
}

TEST(Variation, ComesFromItsTableAndShrinksWithAnAnalysis) {
  Offer offer = hay_alone().offers[0];
  EXPECT_NEAR(variation_of(offer, Nutrient::crude_protein)->coefficient, 0.13, 1e-12);
  EXPECT_FALSE(variation_of(offer, Nutrient::calcium).has_value());  // no figure
  offer.feed.composition[Nutrient::crude_protein]->origin = FigureOrigin::laboratory;
  EXPECT_NEAR(variation_of(offer, Nutrient::crude_protein)->coefficient, 0.13 * 2.0 / 3.0, 1e-12);
  offer.analysis_age = Days{40.0};
  EXPECT_NEAR(variation_of(offer, Nutrient::crude_protein)->coefficient, 0.13 / 3.0, 1e-12);
  offer.analysis_age = Days{400.0};
  EXPECT_NEAR(variation_of(offer, Nutrient::crude_protein)->coefficient, 0.13 * 2.0 / 3.0, 1e-12);
}

TEST(Variation, EveryRowIsAboveNothingAndNamesItsSource) {
  for (const VariationRow& row : variation_table()) {
    EXPECT_GT(row.percent, 0.0);
    EXPECT_FALSE(row.source.empty());
  }
}

TEST(Confidence, OneFeedIsFedUntilItsPoorBatchesDo) {
  const RationQuestion question = hay_alone();
  const GuardedRation guarded = guarded_ration(question, formulate(question), 0.9);
  ASSERT_EQ(guarded.solution.status, Status::optimal);
  // x (100 - z 13) = 800.
  const double kg = 800.0 / (100.0 - normal_quantile(0.9) * 13.0);
  EXPECT_NEAR(guarded.solution.columns[0], kg, 1e-5);
  EXPECT_THAT(guarded.promise.guarded, ElementsAre(Nutrient::crude_protein));
  EXPECT_THAT(guarded.promise.as_figured, IsEmpty());
  const auto doubts = floor_doubts(question, {kg});
  ASSERT_EQ(doubts.size(), 1U);
  EXPECT_NEAR(doubts[0].kept, 0.9, 1e-6);
  EXPECT_NEAR(doubts[0].nine_in_ten, 800.0, 1e-3);
}

TEST(Confidence, TheFloorHasItsTruePrice) {
  // A gram of protein more needs 1 / (100 - z 13) kg more of hay at 0.2.
  const RationQuestion question = hay_alone();
  const GuardedRation guarded = guarded_ration(question, formulate(question), 0.9);
  const Explanation why = explain(question, guarded.formulation, guarded.solution);
  ASSERT_EQ(why.limits.size(), 1U);
  EXPECT_EQ(why.limits[0].row.id, "crude_protein/min");
  EXPECT_NEAR(why.limits[0].tightening_costs, 0.2 / (100.0 - normal_quantile(0.9) * 13.0), 1e-9);
  ASSERT_EQ(why.worth.size(), 1U);
  ASSERT_EQ(why.worth[0].payments.size(), 1U);
  EXPECT_NEAR(why.worth[0].payments[0].per_kg, 0.2, 1e-9);
}

TEST(Confidence, FiguresThatVaryTooMuchForANormalLawCountLow) {
  // Sodium of hay varies by 190 %: log-normal, so nine batches in ten have at least
  // mean * exp(-s^2/2 - z s), s^2 = ln(1 + 1.9^2).
  const RationQuestion question = question_of(
      500.0, {offer_of(feed_of("hay", FeedGroup::hay, 1000, {{Nutrient::sodium, 2.0}}), 0.2)},
      {need_of(Nutrient::sodium, 5.0)});
  const GuardedRation guarded = guarded_ration(question, formulate(question), 0.9);
  const double s = std::sqrt(std::log1p(1.9 * 1.9));
  const double low = 2.0 * std::exp(-0.5 * s * s - normal_quantile(0.9) * s);
  ASSERT_EQ(guarded.solution.status, Status::optimal);
  EXPECT_NEAR(guarded.solution.columns[0], 5.0 / low, 1e-6);
  EXPECT_NEAR(floor_doubts(question, guarded.solution.columns)[0].kept, 0.9, 1e-6);
}

TEST(Confidence, EnergyIsLeftOutWhenItsCeilingAloneStandsInTheWay) {
  // 8 % of variation asks for 1.28 * 8 = 10 % above the need; the ceiling allows 5.
  RationQuestion question =
      question_of(500.0,
                  {offer_of(feed_of("hay", FeedGroup::hay, 1000,
                                    {{Nutrient::energy, 9.0}, {Nutrient::crude_protein, 120}}),
                            0.2)},
                  {need_of(Nutrient::energy, 72.0, 75.6), need_of(Nutrient::crude_protein, 700.0)});
  const GuardedRation guarded = guarded_ration(question, formulate(question), 0.9);
  ASSERT_EQ(guarded.solution.status, Status::optimal);
  EXPECT_TRUE(guarded.promise.energy_left_out);
  EXPECT_THAT(guarded.promise.guarded, Not(Contains(Nutrient::energy)));
  // What can be promised of all: 1.28 z... 8.4 kg at most, (8.4 * 9 - 72) / (8.4 * 0.72)
  // deviations.
  question.needs.rows.pop_back();
  question.needs.rows[0].ceiling = 75.6;
  EXPECT_TRUE(guarded_ration(question, formulate(question), 0.7).solution.status ==
              Status::optimal);
}

TEST(Confidence, TheMostThatCanBePromisedIsFound) {
  // At most 8 kg of hay (a wish): 800 g on average, so 700 g holds with
  // (800 - 700) / (8 * 13) = 0.96 deviations: 83 %.
  RationQuestion question = hay_alone();
  question.needs.rows[0].floor = 700.0;
  question.horse.wishes.push_back({WishKind::at_most, "hay", KgAsFed{8.0}, {}});
  const Formulation plain = formulate(question);
  EXPECT_EQ(guarded_ration(question, plain, 0.9).solution.status, Status::infeasible);
  const auto most = most_confident(question, plain, 0.9);
  ASSERT_TRUE(most.has_value());
  EXPECT_NEAR(*most, normal_probability(100.0 / 104.0), 0.01);
}

TEST(Confidence, WholeStepsKeepThePromiseToo) {
  const RationQuestion question = hay_alone();
  const GuardedRation guarded = guarded_ration(question, formulate(question), 0.9);
  const auto practical = practical_guarded(question, guarded, guarded.solution.cost);
  ASSERT_TRUE(practical.has_value());
  EXPECT_GE(practical->amounts[0], guarded.solution.columns[0] - 1e-9);
  EXPECT_GE(floor_doubts(question, practical->amounts)[0].kept, 0.9);
}

TEST(Confidence, IsRefusedOutsideItsRange) {
  const RationQuestion question = hay_alone();
  EXPECT_THROW((void)guarded_ration(question, formulate(question), 0.5), std::invalid_argument);
  EXPECT_THROW((void)guarded_ration(question, formulate(question), 1.0), std::invalid_argument);
}

bool promises(const Promise& promise, Nutrient n) {
  return std::find(promise.guarded.begin(), promise.guarded.end(), n) != promise.guarded.end();
}

// The promise itself, against 10,000 drawn batches: every guarded floor of any
// stable is kept in at least the share promised, less what so many draws may be off
// (six deviations of sqrt(p (1-p) / 10,000): a run judges some thousand floors). The answer is
// certified and never cheaper than without a promise, and what floor_doubts computes is what is
// drawn.
RC_GTEST_PROP(Confidence, IsKeptByDrawnBatches, ()) {
  const RationQuestion question = any_stable::question();
  const double promised = *rc::gen::element(0.75, 0.9, 0.95);
  const Formulation plain = formulate(question);
  const GuardedRation guarded = guarded_ration(question, plain, promised);
  RC_PRE(guarded.solution.status == Status::optimal);
  RC_ASSERT(certify(guarded.formulation.program, guarded.solution).holds());
  RC_ASSERT(guarded.solution.cost >= solve(plain.program).cost * (1.0 - 1e-9));
  constexpr int draws = 10'000;
  const double error = 6.0 * std::sqrt(promised * (1.0 - promised) / draws);
  const auto doubts = floor_doubts(question, guarded.solution.columns);
  for (const SimulatedFloor& floor :
       simulate(question, guarded.solution.columns, draws, 20261101)) {
    if (promises(guarded.promise, floor.nutrient)) RC_ASSERT(floor.kept >= promised - error);
    for (const FloorDoubt& doubt : doubts) {
      if (doubt.nutrient == floor.nutrient) RC_ASSERT(std::abs(floor.kept - doubt.kept) <= 0.05);
    }
  }
}

}  // namespace
}  // namespace haymow::confidence_test
