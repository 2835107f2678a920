#include "model/explanation.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "solver/solve.h"
#include "tests/matchers.h"
#include "tests/model/hand_made.h"

namespace haymow::explanation_test {
namespace {

using hand_made::feed_of;
using hand_made::limit_of;
using hand_made::need_of;
using hand_made::offer_of;
using hand_made::question_of;
using testing::DoubleNear;
using testing::IsEmpty;
using testing::Optional;
using testing::SizeIs;

// All dry, so that kilograms are kilograms.
Offer energy_feed(const char* name, FeedGroup group, double mj, double price, double waste = 0.0) {
  return offer_of(feed_of(name, group, 1000.0, {{Nutrient::energy, mj}}), price, waste);
}

// min 0.20 hay + 0.24 oats,  energy: 8 hay + 12 oats >= 100,  forage: hay >= 7.5.
// Oats are the cheaper energy (0.02 a MJ against 0.025): hay 7.5, oats 10/3,
// cost 2.30; a MJ costs 0.02, a kilogram of forage 0.20 - 8 x 0.02 = 0.04.
RationQuestion hay_and_oats(std::vector<Offer> others = {}) {
  std::vector<Offer> offers{energy_feed("hay", FeedGroup::hay, 8.0, 0.20),
                            energy_feed("oats", FeedGroup::cereal, 12.0, 0.24)};
  offers.insert(offers.end(), others.begin(), others.end());
  return question_of(500.0, std::move(offers), {need_of(Nutrient::energy, 100.0)},
                     {limit_of("forage/min", 1.5)});
}

Explanation explanation_of(const RationQuestion& question) {
  const Formulation formulation = formulate(question);
  const Solution solution = solve(formulation.program);
  EXPECT_EQ(solution.status, Status::optimal);
  return explain(question, formulation, solution);
}

TEST(Explanation, TellsWhatEachLimitCostsBothWays) {
  const Explanation explanation = explanation_of(hay_and_oats());
  ASSERT_THAT(explanation.limits, SizeIs(2));
  const HeldLimit& energy = explanation.limits[0];
  const HeldLimit& forage = explanation.limits[1];
  EXPECT_EQ(energy.row.id, "energy/min");
  EXPECT_NEAR(energy.tightening_costs, 0.02, 1e-7);
  EXPECT_NEAR(energy.loosening_saves, 0.02, 1e-7);
  EXPECT_EQ(forage.row.id, "forage/min");
  EXPECT_NEAR(forage.tightening_costs, 0.04, 1e-7);
  EXPECT_NEAR(forage.loosening_saves, 0.04, 1e-7);
}

TEST(Explanation, TellsHowFarAPriceHolds) {
  const Explanation explanation = explanation_of(hay_and_oats());
  ASSERT_THAT(explanation.limits, SizeIs(2));
  // Below 60 MJ the hay alone is enough; above 12.5 kg of hay no oats are left.
  EXPECT_THAT(explanation.limits[0].loosening_until, Optional(DoubleNear(60.0, 1e-5)));
  EXPECT_EQ(explanation.limits[0].tightening_until, std::nullopt);
  EXPECT_THAT(explanation.limits[1].tightening_until, Optional(DoubleNear(12.5, 1e-5)));
}

// The dearest first by what one per cent of it is worth: 0.02 of 100 MJ before
// 0.04 of 7.5 kg, though a kilogram costs more than a MJ.
TEST(Explanation, UnitsDoNotDecideTheOrder) {
  const Explanation explanation = explanation_of(hay_and_oats());
  ASSERT_THAT(explanation.limits, SizeIs(2));
  EXPECT_GT(explanation.limits[1].tightening_costs, explanation.limits[0].tightening_costs);
}

TEST(Explanation, ALimitWithRoomIsNotListed) {
  RationQuestion question = hay_and_oats();
  question.limits.push_back(limit_of("intake/max", 3.0));
  for (const HeldLimit& limit : explanation_of(question).limits) {
    EXPECT_NE(limit.row.id, "intake/max");
  }
}

// 60 % forage: s hay and 1 - s oats in 100 / (12 - 4 s) kg cost
// 100 (0.24 - 0.04 s) / (12 - 4 s); at s = 0.6 that rises by 0.5208 for 1, which
// is 0.005208 for one per cent.
TEST(Explanation, AShareIsPricedByThePerCent) {
  RationQuestion question = hay_and_oats();
  question.limits = {limit_of("forage_share/min", 60.0)};
  const Explanation explanation = explanation_of(question);
  const auto held = std::find_if(explanation.limits.begin(), explanation.limits.end(),
                                 [](const HeldLimit& l) { return l.row.id == "forage_share/min"; });
  ASSERT_NE(held, explanation.limits.end());
  EXPECT_NEAR(held->tightening_costs, 0.48 / 92.16, 1e-7);
  EXPECT_NEAR(held->loosening_saves, 0.48 / 92.16, 1e-7);
  // No range: a share's row moves with the ration.
  EXPECT_EQ(held->tightening_until, std::nullopt);
}

// No oats: 12.5 kg of hay. A kilogram of oats would save 1.5 kg of hay, 0.06.
TEST(Explanation, ALimitOfNothingCanOnlyBeLoosened) {
  RationQuestion question = hay_and_oats();
  question.horse.wishes = {{WishKind::none, "oats", {}, {}}};
  const Explanation explanation = explanation_of(question);
  const auto held =
      std::find_if(explanation.limits.begin(), explanation.limits.end(),
                   [](const HeldLimit& l) { return l.row.family == RowFamily::wish; });
  ASSERT_NE(held, explanation.limits.end());
  EXPECT_EQ(held->tightening_costs, 0.0);
  EXPECT_NEAR(held->loosening_saves, 0.06, 1e-7);
}

// 12.5 kg of hay a day are just enough, and there is nothing else.
TEST(Explanation, ALimitThatMayNotTightenAtAllSaysSo) {
  RationQuestion question = question_of(500.0, {energy_feed("hay", FeedGroup::hay, 8.0, 0.20)},
                                        {need_of(Nutrient::energy, 100.0)});
  question.stock_a_day = {KgAsFed{12.5}};
  const Explanation explanation = explanation_of(question);
  const auto held =
      std::find_if(explanation.limits.begin(), explanation.limits.end(),
                   [](const HeldLimit& l) { return l.row.family == RowFamily::stock; });
  ASSERT_NE(held, explanation.limits.end());
  EXPECT_EQ(held->tightening_costs, unlimited);
  EXPECT_NEAR(held->loosening_saves, 0.0, 1e-9);
}

// Hay: 8 MJ x 0.02 = 0.16 for its energy, 0.04 as forage; oats: 0.24 for energy.
TEST(Explanation, TellsWhatAFeedIsPaidFor) {
  const RationQuestion question = hay_and_oats();
  const Formulation formulation = formulate(question);
  const Explanation explanation = explanation_of(question);
  ASSERT_THAT(explanation.worth, SizeIs(2));
  const FeedWorth& hay = explanation.worth[0];
  ASSERT_THAT(hay.payments, SizeIs(2));
  EXPECT_EQ(formulation.rows[hay.payments[0].row].id, "energy/min");
  EXPECT_NEAR(hay.payments[0].per_kg, 0.16, 1e-9);
  EXPECT_EQ(formulation.rows[hay.payments[1].row].id, "forage/min");
  EXPECT_NEAR(hay.payments[1].per_kg, 0.04, 1e-9);
  const FeedWorth& oats = explanation.worth[1];
  ASSERT_THAT(oats.payments, SizeIs(1));
  EXPECT_NEAR(oats.payments[0].per_kg, 0.24, 1e-9);
}

// Barley gives 13 MJ, worth 0.26; a tenth of it is spilt, so 0.234 a kilogram
// bought. Chalk gives nothing and enters at no price.
TEST(Explanation, TellsThePriceAtWhichAnUnusedFeedEnters) {
  const Explanation explanation =
      explanation_of(hay_and_oats({energy_feed("chalk", FeedGroup::mineral, 0.0, 0.10),
                                   energy_feed("barley", FeedGroup::cereal, 13.0, 0.30, 0.1)}));
  ASSERT_THAT(explanation.unused, SizeIs(2));
  const EntryPrice& barley = explanation.unused[0];  // the nearest first
  EXPECT_EQ(barley.offer, 3U);
  EXPECT_EQ(barley.now, Money{0.30});
  ASSERT_TRUE(barley.enters_at);
  EXPECT_NEAR(barley.enters_at->in_units(), 0.234, 1e-7);
  EXPECT_EQ(explanation.unused[1].offer, 2U);
  EXPECT_EQ(explanation.unused[1].enters_at, std::nullopt);
}

TEST(Explanation, AFeedInUseIsNotAmongTheUnused) {
  EXPECT_THAT(explanation_of(hay_and_oats()).unused, IsEmpty());
}

}  // namespace
}  // namespace haymow::explanation_test
