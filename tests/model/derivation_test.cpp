#include "model/derivation.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "solver/conflict.h"
#include "solver/solve.h"
#include "tests/model/any_stable.h"
#include "tests/model/hand_made.h"
#include "tests/scenarios/second_opinion.h"

namespace haymow::derivation_test {
namespace {

using hand_made::feed_of;
using hand_made::limit_of;
using hand_made::need_of;
using hand_made::offer_of;
using hand_made::question_of;
using testing::ElementsAre;

struct Clash {
  Formulation formulation;
  std::optional<Conflict> conflict;
  std::optional<Derivation> told;
};

Clash clash_of(const RationQuestion& question) {
  Clash out{formulate(question), {}, {}};
  out.conflict = find_conflict(out.formulation.program);
  if (!out.conflict) return out;
  std::vector<std::size_t> rows;
  for (const Bound& b : out.conflict->members) rows.push_back(static_cast<std::size_t>(b.index));
  out.told = derive(out.formulation, rows, out.conflict->proof);
  return out;
}

std::vector<RowMeaning> facts_of(const Derivation& told, std::size_t count) {
  std::vector<RowMeaning> facts;
  for (std::size_t k = 0; k < count; ++k) facts.push_back(told.steps[k].fact);
  return facts;
}

const Feed hay = feed_of("hay", FeedGroup::hay, 860.0, {{Nutrient::energy, 8.8}});
const Feed straw = feed_of("straw", FeedGroup::straw, 900.0, {{Nutrient::energy, 7.0}});
const Feed oats = feed_of("oats", FeedGroup::cereal, 870.0, {{Nutrient::energy, 13.4}});

// 7.5 kg dry of forage. All straw: 52.5 MJ. With 30 % of straw at most: 2.25 x 7.0 +
// 5.25 x 8.8 = 61.95 MJ. At most 60 is allowed.
TEST(Derivation, FactsThenWhatFollowsThenTheContradiction) {
  const Clash clash =
      clash_of(question_of(500.0, {offer_of(hay, 0.2), offer_of(straw, 0.1), offer_of(oats, 0.3)},
                           {need_of(Nutrient::energy, 50.0, 60.0)},
                           {limit_of("forage/min", 1.5), limit_of("straw_share/max", 30.0)}));
  ASSERT_TRUE(clash.told);
  const Derivation& told = *clash.told;
  ASSERT_EQ(told.steps.size(), 2U);
  EXPECT_EQ(told.steps[0].fact.id, "forage/min");
  EXPECT_THAT(told.steps[0].only, ElementsAre(0U, 1U));
  EXPECT_NEAR(told.steps[0].least_of_them->in_kg(), 7.5 / 0.9, 1e-9);
  ASSERT_TRUE(told.steps[0].implied);
  EXPECT_NEAR(told.steps[0].implied->value, 52.5, 1e-9);
  EXPECT_THAT(told.steps[0].implied->carried_by, ElementsAre(1U));
  EXPECT_EQ(told.steps[1].fact.id, "straw_share/max");
  ASSERT_TRUE(told.steps[1].implied);
  EXPECT_NEAR(told.steps[1].implied->value, 61.95, 1e-9);
  EXPECT_THAT(told.steps[1].implied->carried_by, ElementsAre(0U, 1U));
  EXPECT_EQ(told.clash.id, "energy/max");
  EXPECT_NEAR(told.best.value, 61.95, 1e-9);
  EXPECT_TRUE(told.tells_all);
}

// Two shares clash with no amount at all: straw at most 30 % of the forage, forage at
// least 80 % ... of straw and oats only: straw is all of the forage there is.
TEST(Derivation, AShareIsTakenToItsExtremeInItsOwnUnit) {
  const Clash clash = clash_of(question_of(
      500.0, {offer_of(straw, 0.1), offer_of(oats, 0.3)}, {need_of(Nutrient::energy, 50.0)},
      {limit_of("straw_share/max", 30.0), limit_of("forage_share/min", 80.0)}));
  ASSERT_TRUE(clash.told);
  const RowMeaning& share = hand_made::row_of(clash.formulation.rows, "straw_share/max");
  // 100 % of the forage is straw, whatever else is asked.
  const Solution least = solve(implied_program(clash.formulation, share, {}));
  ASSERT_EQ(least.status, Status::optimal);
  EXPECT_NEAR(least.cost, 100.0, 1e-9);
}

// On random stables: what each step says is what other solvers find for its program,
// facts only ever narrow it, and the last value breaks the clash's bound.
RC_GTEST_PROP(Derivation, EveryNumberOfTheChainIsProven, ()) {
  RationQuestion question = *rc::gen::exec(any_stable::question);
  // A good deal of forage and no energy above the need: seldom possible together.
  for (Limit& limit : question.limits) {
    if (limit.id == "forage/min") limit.number = 2.2;
  }
  for (Requirement& need : question.needs.rows) {
    if (need.nutrient == Nutrient::energy) need.ceiling = need.floor;
  }
  const Clash clash = clash_of(question);
  RC_PRE(clash.conflict.has_value() && clash.conflict->proof_strength > 1e-6);
  RC_ASSERT(clash.told.has_value());
  const Derivation& told = *clash.told;
  const bool ceiling = told.clash.side == Side::upper;
  double before = ceiling ? -unlimited : unlimited;
  for (std::size_t k = 0; k < told.steps.size(); ++k) {
    if (!told.steps[k].implied) continue;
    const double value = told.steps[k].implied->value;
    RC_ASSERT((ceiling ? value >= before - 1e-7 : value <= before + 1e-7));
    before = value;
  }
  RC_ASSERT((ceiling ? told.best.value > told.clash.bound : told.best.value < told.clash.bound));
}

TEST(Derivation, OtherSolversFindTheSameNumbers) {
  const Clash clash =
      clash_of(question_of(500.0, {offer_of(hay, 0.2), offer_of(straw, 0.1), offer_of(oats, 0.3)},
                           {need_of(Nutrient::energy, 50.0, 60.0)},
                           {limit_of("forage/min", 1.5), limit_of("straw_share/max", 30.0)}));
  ASSERT_TRUE(clash.told);
  std::size_t asked = 0;
  for (std::size_t k = 0; k < clash.told->steps.size(); ++k) {
    const auto& implied = clash.told->steps[k].implied;
    if (!implied) continue;
    const LinearProgram program =
        implied_program(clash.formulation, clash.told->clash, facts_of(*clash.told, k + 1));
    for (const auto& [solver, optimum] : second_opinion::optima_of(program)) {
      ASSERT_TRUE(optimum) << solver;
      // Clp prints seven figures.
      EXPECT_NEAR(*optimum, implied->value, 1e-5 * implied->value) << solver;
      ++asked;
    }
  }
  if (asked == 0) GTEST_SKIP() << "no other solver is installed";
}

}  // namespace
}  // namespace haymow::derivation_test
