#include "model/amount_ranges.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <array>

#include "solver/solve.h"
#include "solver/write_program.h"
#include "tests/model/any_stable.h"
#include "tests/model/hand_made.h"
#include "tests/solver/foreign_solvers.h"

namespace haymow::amount_ranges_test {
namespace {

using hand_made::feed_of;
using hand_made::need_of;
using hand_made::offer_of;
using hand_made::question_of;

std::vector<RangesWithin> ranges_of(const RationQuestion& question, std::vector<double> margins) {
  const Formulation formulation = formulate(question);
  return amount_ranges(question, formulation, solve(formulation.program), margins);
}

// Hay at 0.20 and haylage at 0.22, both 10 MJ a kg; 100 MJ are needed. The cheapest
// is 10 kg of hay at 2.00. Within 5 %, 2.10: 0.20 (10 - y) + 0.22 y <= 2.10, y <= 5.
TEST(AmountRanges, TradeOneForageForAnother) {
  const Feed hay = feed_of("hay", FeedGroup::hay, 1000.0, {{Nutrient::energy, 10.0}});
  const Feed haylage = feed_of("haylage", FeedGroup::haylage, 1000.0, {{Nutrient::energy, 10.0}});
  const RationQuestion question = question_of(500.0, {offer_of(hay, 0.20), offer_of(haylage, 0.22)},
                                              {need_of(Nutrient::energy, 100.0)});
  const auto within = ranges_of(question, {0.05}).front();
  EXPECT_TRUE(within.holds());
  EXPECT_NEAR(within.ranges[0].least.in_kg(), 5.0, 1e-6);
  EXPECT_NEAR(within.ranges[0].most.in_kg(), 10.5, 1e-6);
  EXPECT_NEAR(within.ranges[1].least.in_kg(), 0.0, 1e-6);
  EXPECT_NEAR(within.ranges[1].most.in_kg(), 5.0, 1e-6);
  EXPECT_EQ(standing_of(within.ranges[0], question.offers[0]), Standing::indispensable);
  EXPECT_EQ(standing_of(within.ranges[1], question.offers[1]), Standing::interchangeable);
}

// At ten times the price 50 g of haylage, less than the 500 g worth weighing out, are all
// that 5 % pays for: 0.20 (10 - y) + 2.00 y <= 2.10, y <= 0.0556.
TEST(AmountRanges, CallAFeedThatIsTooDearNeverIn) {
  const Feed hay = feed_of("hay", FeedGroup::hay, 1000.0, {{Nutrient::energy, 10.0}});
  const Feed haylage = feed_of("haylage", FeedGroup::haylage, 1000.0, {{Nutrient::energy, 10.0}});
  const RationQuestion question = question_of(500.0, {offer_of(hay, 0.20), offer_of(haylage, 2.00)},
                                              {need_of(Nutrient::energy, 100.0)});
  const auto within = ranges_of(question, {0.05}).front();
  EXPECT_NEAR(within.ranges[1].most.in_kg(), 0.1 / 1.8, 1e-6);
  EXPECT_EQ(standing_of(within.ranges[1], question.offers[1]), Standing::never);
}

TEST(AmountRanges, RefuseAMarginBelowNothing) {
  const Feed hay = feed_of("hay", FeedGroup::hay, 1000.0, {{Nutrient::energy, 10.0}});
  const RationQuestion question =
      question_of(500.0, {offer_of(hay, 0.20)}, {need_of(Nutrient::energy, 100.0)});
  EXPECT_THROW((void)ranges_of(question, {-0.01}), std::invalid_argument);
}

/// A mare in work, and the table's commonest feeds at plain prices.
RationQuestion worked_question() {
  Horse horse;
  horse.name = "Fern";
  horse.bodyweight = Bodyweight{500.0};
  horse.stage = Working{WorkLevel::moderate};
  RationQuestion question{horse, {}, nrc_2007(horse), limits_for(horse), 2, any_stable::highest(),
                          {}};
  const std::array<std::pair<const char*, double>, 9> priced{{{"meadow hay, average", 0.25},
                                                              {"oat straw", 0.12},
                                                              {"oats, rolled", 0.58},
                                                              {"alfalfa chaff", 1.0},
                                                              {"soya bean meal", 0.82},
                                                              {"balancer pellet", 1.4},
                                                              {"vitamin and mineral powder", 7.0},
                                                              {"limestone flour", 2.0},
                                                              {"salt", 0.44}}};
  for (const auto& [name, price] : priced) {
    question.offers.push_back(offer_of(*find_feed(name), price));
  }
  return question;
}

// Every end again by programs that share no code with ours, reading the file that
// --write-program would write of the program with its cost row.
TEST(AmountRanges, EndWhereOtherSolversEnd) {
  using namespace foreign_solvers;
  const bool clp = has("clp");
  const bool glpsol = has("glpsol");
  if (!clp && !glpsol) GTEST_SKIP() << "neither clp nor glpsol is installed";
  const RationQuestion question = worked_question();
  const Formulation formulation = formulate(question);
  const Solution solution = solve(formulation.program);
  ASSERT_EQ(solution.status, Status::optimal);
  const auto all = amount_ranges(question, formulation, solution, std::span(told_margins));
  const Folder folder;
  for (const RangesWithin& within : all) {
    LinearProgram program = within_cost(formulation.program, solution.cost, within.margin);
    for (int j = 0; j < program.column_count(); ++j) program.set_cost(j, 0.0);
    for (int j = 0; j < program.column_count(); ++j) {
      const AmountRange& range = within.ranges[static_cast<std::size_t>(j)];
      for (const double direction : {1.0, -1.0}) {
        program.set_cost(j, direction);
        const std::string path = folder.write("end.mps", to_free_mps(program));
        const double end = direction > 0.0 ? range.least.in_kg() : -range.most.in_kg();
        const auto theirs = clp ? clp_optimum(path) : glpsol_optimum(folder, "--freemps", path);
        ASSERT_TRUE(theirs) << question.offers[static_cast<std::size_t>(j)].name;
        // Clp prints some eight figures.
        EXPECT_NEAR(*theirs, end, 2e-6)
            << question.offers[static_cast<std::size_t>(j)].name << " within " << within.margin;
      }
      program.set_cost(j, 0.0);
    }
  }
}

RC_GTEST_PROP(AmountRangesLaws, HoldTheRationAndWidenWithTheMargin, ()) {
  const RationQuestion question = any_stable::question();
  const Formulation formulation = formulate(question);
  const Solution solution = solve(formulation.program);
  RC_PRE(solution.status == Status::optimal);
  const auto all = amount_ranges(question, formulation, solution, std::span(told_margins));
  for (std::size_t m = 0; m < all.size(); ++m) {
    RC_ASSERT(all[m].holds());
    for (std::size_t j = 0; j < question.offers.size(); ++j) {
      const AmountRange& range = all[m].ranges[j];
      RC_ASSERT(range.least.in_kg() <= solution.columns[j] + 1e-6);
      RC_ASSERT(solution.columns[j] <= range.most.in_kg() + 1e-6);
      if (m == 0) continue;
      RC_ASSERT(range.least.in_kg() <= all[m - 1].ranges[j].least.in_kg() + 1e-6);
      RC_ASSERT(range.most.in_kg() >= all[m - 1].ranges[j].most.in_kg() - 1e-6);
    }
  }
}

}  // namespace
}  // namespace haymow::amount_ranges_test
