#include "solver/conflict.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include "solver/certify.h"
#include "solver/solve.h"
#include "tests/matchers.h"
#include "tests/small_programs.h"
#include "tests/solver/random_programs.h"

namespace haymow::conflict_test {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

Bound row(int index, Side side) { return {Bound::Of::row, index, side}; }
Bound column(int index, Side side) { return {Bound::Of::column, index, side}; }

/// `program` with the bounds of `members` alone; x >= 0 of columns stays.
LinearProgram only(const LinearProgram& program, const std::vector<Bound>& members) {
  LinearProgram result;
  const auto has = [&](Bound bound) {
    return std::find(members.begin(), members.end(), bound) != members.end();
  };
  for (int j = 0; j < program.column_count(); ++j) {
    Column kept = program.columns()[static_cast<std::size_t>(j)];
    if (!has(column(j, Side::lower))) {
      kept.lower = kept.lower >= 0.0 ? 0.0 : -unlimited;
    }
    if (!has(column(j, Side::upper))) {
      kept.upper = unlimited;
    }
    kept.cost = 0.0;
    result.add_column(kept);
  }
  for (int i = 0; i < program.row_count(); ++i) {
    Row kept = program.rows()[static_cast<std::size_t>(i)];
    if (!has(row(i, Side::lower))) {
      kept.lower = -unlimited;
    }
    if (!has(row(i, Side::upper))) {
      kept.upper = unlimited;
    }
    result.add_row(kept);
  }
  return result;
}

TEST(FindConflict, AFeasibleProgramHasNone) {
  EXPECT_FALSE(find_conflict(small_programs::two_rows()).has_value());
  EXPECT_FALSE(find_conflict(small_programs::endless()).has_value());
}

TEST(FindConflict, NamesTheSidesThatClashAndProvesIt) {
  const LinearProgram program = small_programs::clash();
  const auto conflict = find_conflict(program);
  ASSERT_TRUE(conflict.has_value());
  EXPECT_THAT(conflict->members, ElementsAre(row(0, Side::lower), row(1, Side::upper)));
  EXPECT_TRUE(conflict->is_minimal);
  EXPECT_GT(conflict->proof_strength, certificate_tolerance);
  EXPECT_EQ(conflict->proof_strength, infeasibility_proof(program, conflict->proof));
}

// x + y >= 10 with x <= 4 and y <= 5: the columns' own bounds belong to it.
TEST(FindConflict, BoundsOfColumnsAreMembers) {
  LinearProgram program;
  program.add_column({.name = "x", .upper = 4.0});
  program.add_column({.name = "y", .lower = 1.0, .upper = 5.0});
  program.add_row({.name = "sum", .lower = 10.0, .terms = {{0, 1.0}, {1, 1.0}}});
  const auto conflict = find_conflict(program);
  ASSERT_TRUE(conflict.has_value());
  EXPECT_THAT(conflict->members,
              ElementsAre(row(0, Side::lower), column(0, Side::upper), column(1, Side::upper)));
  EXPECT_TRUE(conflict->is_minimal);
  EXPECT_GT(conflict->proof_strength, certificate_tolerance);
}

// x >= 0 clashes with -x >= 1 all by itself: a fact, so one member is left.
TEST(FindConflict, ColumnsBeingAtLeastZeroIsAFact) {
  LinearProgram program;
  program.add_column({.name = "x"});
  program.add_row({.name = "less than nothing", .upper = -1.0, .terms = {{0, 1.0}}});
  const auto conflict = find_conflict(program);
  ASSERT_TRUE(conflict.has_value());
  EXPECT_THAT(conflict->members, ElementsAre(row(0, Side::upper)));
}

// x >= 5 clashes with each of two rows x <= 3: the one named goes first.
TEST(FindConflict, WhatShouldBeKeptLastIsLeftOutWhenTheRestExplainsIt) {
  LinearProgram program = small_programs::clash();
  program.add_row({.name = "most again", .upper = 3.0, .terms = {{0, 1.0}}});
  for (const int last : {1, 3}) {
    const std::vector<Bound> keep_last = {row(last, Side::upper)};
    const auto conflict = find_conflict(program, keep_last);
    ASSERT_TRUE(conflict.has_value());
    EXPECT_THAT(conflict->members,
                ElementsAre(row(0, Side::lower), row(last == 1 ? 3 : 1, Side::upper)));
    EXPECT_TRUE(conflict->is_minimal);
  }
}

TEST(FindConflict, WhatShouldBeKeptLastStaysWhenNothingElseExplainsIt) {
  const std::vector<Bound> keep_last = {row(0, Side::lower), row(2, Side::upper)};
  const auto conflict = find_conflict(small_programs::clash(), keep_last);
  ASSERT_TRUE(conflict.has_value());
  EXPECT_THAT(conflict->members, ElementsAre(row(0, Side::lower), row(1, Side::upper)));
}

// 2x + 2y = 3 in whole numbers; idle x + y <= 9.
TEST(FindConflict, AConflictOfWholeNumbersHasNoProof) {
  LinearProgram program;
  program.add_column({.name = "x", .upper = 5.0, .whole = true});
  program.add_column({.name = "y", .upper = 5.0, .whole = true});
  program.add_row({.name = "odd", .lower = 3.0, .upper = 3.0, .terms = {{0, 2.0}, {1, 2.0}}});
  program.add_row({.name = "idle", .upper = 9.0, .terms = {{0, 1.0}, {1, 1.0}}});
  const auto conflict = find_conflict(program);
  ASSERT_TRUE(conflict.has_value());
  EXPECT_THAT(conflict->members, ElementsAre(row(0, Side::lower), row(0, Side::upper)));
  EXPECT_TRUE(conflict->is_minimal);
  EXPECT_EQ(conflict->proof_strength, 0.0);
}

RC_GTEST_PROP(FindConflictLaw, AloneInfeasibleAndFeasibleWithoutAnyMember, ()) {
  const LinearProgram program = *random_programs::any();
  const bool is_infeasible = solve(program).status == Status::infeasible;
  RC_CLASSIFY(is_infeasible, "infeasible");
  const auto conflict = find_conflict(program);
  RC_ASSERT(conflict.has_value() == is_infeasible);
  if (!conflict) {
    return;
  }
  RC_ASSERT(conflict->is_minimal);
  RC_ASSERT(infeasibility_proof(program, conflict->proof) > certificate_tolerance);
  RC_ASSERT(solve(only(program, conflict->members)).status == Status::infeasible);
  for (std::size_t left_out = 0; left_out < conflict->members.size(); ++left_out) {
    std::vector<Bound> others = conflict->members;
    others.erase(others.begin() + static_cast<std::ptrdiff_t>(left_out));
    RC_ASSERT(solve(only(program, others)).status == Status::optimal);
  }
}

TEST(NearestTo, AFeasibleProgramGivesItsOptimum) {
  const std::vector<double> weights = {1.0, 1.0};
  const Nearest nearest = nearest_to(small_programs::two_rows(), weights);
  EXPECT_THAT(nearest.solution, IsOptimal(9.0));
  EXPECT_THAT(nearest.misses, IsEmpty());
}

// clash: x >= 5 and x <= 3. The dearer row to miss is kept.
TEST(NearestTo, MissesTheRowThatMattersLess) {
  const LinearProgram program = small_programs::clash();
  const std::vector<double> first = {1.0, 2.0, 1.0};
  const Nearest low = nearest_to(program, first);
  ASSERT_THAT(low.solution, IsOptimal(3.0));
  ASSERT_EQ(low.misses.size(), 1U);
  EXPECT_EQ(low.misses[0].bound, row(0, Side::lower));
  EXPECT_THAT(low.misses[0].amount, IsNear(2.0, 1e-8));

  const std::vector<double> second = {unlimited, 2.0, 1.0};
  const Nearest high = nearest_to(program, second);
  ASSERT_THAT(high.solution, IsOptimal(5.0));
  ASSERT_EQ(high.misses.size(), 1U);
  EXPECT_EQ(high.misses[0].bound, row(1, Side::upper));
}

// Among points that miss equally the cheapest: x + y >= 5 and x + y <= 3, y dear.
TEST(NearestTo, TakesTheCheapestOfThePointsThatMissEqually) {
  LinearProgram program;
  program.add_column({.name = "y", .cost = 5.0});
  program.add_column({.name = "x", .cost = 1.0});
  program.add_row({.name = "least", .lower = 5.0, .terms = {{0, 1.0}, {1, 1.0}}});
  program.add_row({.name = "most", .upper = 3.0, .terms = {{0, 1.0}, {1, 1.0}}});
  const std::vector<double> weights = {1.0, 1.0};
  EXPECT_THAT(nearest_to(program, weights).solution, IsOptimal(3.0));
}

TEST(NearestTo, RowsThatMayNotBeMissedCanClash) {
  const std::vector<double> weights = {unlimited, unlimited, 1.0};
  const Nearest nearest = nearest_to(small_programs::clash(), weights);
  EXPECT_EQ(nearest.solution.status, Status::infeasible);
  EXPECT_THAT(nearest.misses, IsEmpty());
}

TEST(NearestTo, RefusesWeightsThatMakeNoSense) {
  const LinearProgram program = small_programs::clash();
  const std::vector<double> few = {1.0};
  EXPECT_THROW((void)nearest_to(program, few), std::invalid_argument);
  const std::vector<double> negative = {1.0, -1.0, 1.0};
  EXPECT_THROW((void)nearest_to(program, negative), std::invalid_argument);
  const std::vector<double> none = {1.0, std::nan(""), 1.0};
  EXPECT_THROW((void)nearest_to(program, none), std::invalid_argument);
}

TEST(LeastLoosening, MovesTheBoundJustFarEnough) {
  const LinearProgram program = small_programs::clash();
  const auto least = least_loosening(program, row(0, Side::lower));
  ASSERT_TRUE(least.has_value());
  EXPECT_THAT(least->by, IsNear(2.0, 1e-9));
  EXPECT_THAT(least->solution, IsOptimal(3.0));
  const auto most = least_loosening(program, row(1, Side::upper));
  ASSERT_TRUE(most.has_value());
  EXPECT_THAT(most->by, IsNear(2.0, 1e-9));
  EXPECT_THAT(most->solution, IsOptimal(5.0));
}

TEST(LeastLoosening, MovesTheBoundOfAColumn) {
  LinearProgram program;
  program.add_column({.name = "x", .upper = 4.0, .cost = 1.0});
  program.add_row({.name = "least", .lower = 10.0, .terms = {{0, 1.0}}});
  const auto loosening = least_loosening(program, column(0, Side::upper));
  ASSERT_TRUE(loosening.has_value());
  EXPECT_THAT(loosening->by, IsNear(6.0, 1e-9));
  EXPECT_THAT(loosening->solution, IsOptimal(10.0));
}

TEST(LeastLoosening, NothingWhenTheBoundDoesNotHelp) {
  EXPECT_FALSE(least_loosening(small_programs::clash(), row(2, Side::upper)).has_value());
  EXPECT_FALSE(least_loosening(small_programs::clash(), row(2, Side::lower)).has_value());
}

TEST(LeastLoosening, ByNothingWhenTheProgramIsFeasible) {
  const auto loosening = least_loosening(small_programs::two_rows(), row(0, Side::lower));
  ASSERT_TRUE(loosening.has_value());
  EXPECT_EQ(loosening->by, 0.0);
  EXPECT_THAT(loosening->solution, IsOptimal(9.0));
}

RC_GTEST_PROP(LeastLooseningLaw, FeasibleAtTheMoveAndNotBefore, ()) {
  const LinearProgram program = *random_programs::any();
  const int index = *rc::gen::inRange(0, program.row_count());
  const auto loosening = least_loosening(program, row(index, Side::lower));
  if (!loosening || loosening->by == 0.0) {
    return;
  }
  RC_ASSERT(loosening->solution.status == Status::optimal);
  const Row& moved = program.rows()[static_cast<std::size_t>(index)];
  LinearProgram less = program;
  less.set_row_bounds(index, moved.lower - 0.999 * loosening->by, moved.upper);
  RC_ASSERT(solve(less).status == Status::infeasible);
}

}  // namespace
}  // namespace haymow::conflict_test
