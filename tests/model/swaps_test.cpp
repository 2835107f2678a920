#include "model/swaps.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "model/ration.h"
#include "solver/solve.h"
#include "tests/model/any_stable.h"
#include "tests/model/hand_made.h"

namespace haymow::swaps_test {
namespace {

using hand_made::feed_of;
using hand_made::need_of;
using hand_made::offer_of;
using hand_made::question_of;

std::vector<SwapsOf> swaps_of(const RationQuestion& question) {
  const Formulation formulation = formulate(question);
  return swaps(question, formulation, solve(formulation.program));
}

// Facts in the manner of a hay shortage table: haylage of 70 % dry matter and hay of
// 88 %, of the same 9 MJ a kg of dry matter. A kilogram of hay is worth
// 0.88 / 0.70 = 1.257 kg of haylage, at 0.24 and 0.20 costs 0.3017 - 0.20 more.
TEST(Swaps, OfHayForHaylageGoByDryMatter) {
  const Feed hay = feed_of("hay", FeedGroup::hay, 880.0, {{Nutrient::energy, 9.0}});
  const Feed haylage = feed_of("haylage", FeedGroup::haylage, 700.0, {{Nutrient::energy, 9.0}});
  const auto all = swaps_of(question_of(500.0, {offer_of(hay, 0.20), offer_of(haylage, 0.24)},
                                        {need_of(Nutrient::energy, 80.0)}));
  ASSERT_EQ(all.size(), 1U);
  EXPECT_NEAR(all[0].taken_out.in_kg(), 1.0, 1e-9);
  ASSERT_TRUE(all[0].cheapest);
  EXPECT_NEAR(all[0].cheapest->dearer.in_units(), 0.24 * 0.88 / 0.70 - 0.20, 1e-6);
  ASSERT_EQ(all[0].single.size(), 1U);
  EXPECT_EQ(all[0].single[0].by, 1U);
  EXPECT_NEAR(all[0].single[0].swap.amounts[1], 0.88 / 0.70, 1e-6);
}

TEST(Swaps, OfTheOnlyForageAreNone) {
  const Feed hay = feed_of("hay", FeedGroup::hay, 880.0, {{Nutrient::energy, 9.0}});
  const auto all =
      swaps_of(question_of(500.0, {offer_of(hay, 0.20)}, {need_of(Nutrient::energy, 80.0)}));
  ASSERT_EQ(all.size(), 1U);
  EXPECT_FALSE(all[0].cheapest);
  EXPECT_TRUE(all[0].single.empty());
}

// A fifth is wasted: a kilogram put out is 0.8 kg eaten.
TEST(Swaps, TakeOutAKilogramAsPutOut) {
  const Feed hay = feed_of("hay", FeedGroup::hay, 880.0, {{Nutrient::energy, 9.0}});
  const auto all =
      swaps_of(question_of(500.0, {offer_of(hay, 0.20, 0.2)}, {need_of(Nutrient::energy, 80.0)}));
  ASSERT_EQ(all.size(), 1U);
  EXPECT_NEAR(all[0].taken_out.in_kg(), 0.8, 1e-9);
}

RC_GTEST_PROP(SwapsLaws, KeepEveryLimitAndAreNoCheaper, ()) {
  const RationQuestion question = any_stable::question();
  const Formulation formulation = formulate(question);
  const Solution solution = solve(formulation.program);
  RC_PRE(solution.status == Status::optimal);
  for (const SwapsOf& of : swaps(question, formulation, solution)) {
    if (!of.cheapest) continue;
    std::vector<const Swap*> all{&*of.cheapest};
    for (const SingleSwap& single : of.single) all.push_back(&single.swap);
    for (const Swap* swap : all) {
      RC_ASSERT(swap->certificate.holds());
      RC_ASSERT(broken_rows(formulation.rows, swap->amounts).empty());
      RC_ASSERT(swap->dearer.in_units() >= of.cheapest->dearer.in_units() - 1e-6);
      RC_ASSERT(swap->dearer.in_units() >= -1e-6);
      const double less = solution.columns[of.offer] - swap->amounts[of.offer];
      RC_ASSERT(less >= of.taken_out.in_kg() - 1e-6);
    }
  }
}

}  // namespace
}  // namespace haymow::swaps_test
