#include "solver/blocks.h"

#include <gmock/gmock.h>
#include <rapidcheck.h>

#include <atomic>
#include <cmath>
#include <cstring>
#include <stdexcept>

#include "solver/certify.h"
#include "solver/solve.h"
#include "tests/solver/foreign_solvers.h"
#include "tests/solver/random_blocks.h"

namespace haymow::blocks_test {
namespace {

double tolerance(double cost) { return 1e-6 * std::max(1.0, std::abs(cost)); }

BlockAnswer solved(const BlockCase& given, const BlockOptions& options = {}) {
  return solve_blocks(given.program, given.block_of_column, options);
}

/// Two blocks of two columns; what both eat comes from a shared one.
///   min 2 s  with  s = a1 + 2 a2 + b1 + b2,  a1 + a2 >= 3,  b1 + 3 b2 >= 6,
///   2 a1 + b1 <= 5,  all in 0..9.  a1 = 2.5, a2 = 0.5, b2 = 2: s = 5.5.
BlockCase two_blocks() {
  BlockCase given;
  for (const char* name : {"s", "a1", "a2", "b1", "b2"}) {
    given.program.add_column({name, 0.0, name[0] == 's' ? 90.0 : 9.0, name[0] == 's' ? 2.0 : 0.0});
  }
  given.block_of_column = {-1, 0, 0, 1, 1};
  given.program.add_row({"eaten", 0.0, 0.0, {{0, 1}, {1, -1}, {2, -2}, {3, -1}, {4, -1}}});
  given.program.add_row({"a", 3.0, unlimited, {{1, 1}, {2, 1}}});
  given.program.add_row({"b", 6.0, unlimited, {{3, 1}, {4, 3}}});
  given.program.add_row({"both", -unlimited, 5.0, {{1, 2}, {3, 1}}});
  return given;
}

TEST(Blocks, MeetInTheMaster) {
  const BlockCase given = two_blocks();
  const BlockAnswer answer = solved(given);
  ASSERT_EQ(answer.solution.status, Status::optimal);
  EXPECT_NEAR(answer.solution.cost, 11.0, 1e-6);
  EXPECT_NEAR(answer.lower_bound, 11.0, 1e-6);
  EXPECT_GT(answer.rounds, 0) << "solved as one";
  EXPECT_TRUE(certify(given.program, answer.solution).holds());
}

// Bazaraa, Jarvis & Sherali, Linear Programming and Network Flows, the first worked
// example of the chapter on decomposition (from memory): (1, 2, 1, 0) at -5.
TEST(Blocks, SolveATextbooksExample) {
  BlockCase given;
  for (const double cost : {-2.0, -1.0, -1.0, 1.0}) {
    given.program.add_column(
        {.name = "x" + std::to_string(given.program.column_count() + 1), .cost = cost});
  }
  given.block_of_column = {0, 0, 1, 1};
  const auto at_most = [&](double most, std::vector<Term> terms) {
    given.program.add_row(
        {"r" + std::to_string(given.program.row_count()), -unlimited, most, std::move(terms)});
  };
  at_most(2.0, {{0, 1}, {2, 1}});
  at_most(3.0, {{0, 1}, {1, 1}, {3, 2}});
  at_most(2.0, {{0, 1}});
  at_most(5.0, {{0, 1}, {1, 2}});
  at_most(2.0, {{2, -1}, {3, 1}});
  at_most(6.0, {{2, 2}, {3, 1}});
  const BlockAnswer answer = solved(given);
  ASSERT_EQ(answer.solution.status, Status::optimal);
  EXPECT_GT(answer.rounds, 0) << "solved as one";
  EXPECT_NEAR(answer.solution.cost, -5.0, 1e-6);
  // There are others at that cost.
  EXPECT_TRUE(certify(given.program, answer.solution).holds());
}

// A point of the first block is nothing but 1e-16 of x3: by the scale of its column the
// master once had no answer, and then one at -12 with a share of -0.5. Solved by hand:
// x6 = 1, so x2 + x3 <= 3, and x3 <= x2 + 2: x2 = 0.5, x3 = 2.5.
TEST(Blocks, TakeRoundingForNothing) {
  BlockCase given;
  const std::vector<double> upper{0, 1, 3, 0, 0, 1, 0};
  const std::vector<double> cost{-4, -1, -4, -4, -4, 0, -4};
  for (std::size_t j = 0; j < upper.size(); ++j) {
    given.program.add_column({"x" + std::to_string(j + 1), 0.0, upper[j], cost[j]});
  }
  given.block_of_column = {0, 0, 0, 1, 1, 2, 2};
  given.program.add_row({"own 1", 0.0, 2.0, {{0, -2}, {1, -1}, {2, 1}}});
  given.program.add_row({"own 2", -6.0, unlimited, {{0, -2}, {1, -1}, {2, -2}}});
  given.program.add_row({"own 3", 0.0, unlimited, {{3, -2}, {4, -2}}});
  given.program.add_row({"own 4", 0.0, unlimited, {{3, -2}, {4, -2}}});
  given.program.add_row({"own 5", -2.0, unlimited, {{5, -2}, {6, -2}}});
  given.program.add_row({"own 6", -2.0, unlimited, {{5, -2}, {6, -2}}});
  given.program.add_row(
      {"all 1", -4.0, unlimited, {{0, -2}, {1, -1}, {2, -1}, {3, -2}, {4, -2}, {5, -1}, {6, -2}}});
  given.program.add_row({"all 2", -unlimited, -2.0, {{0, -2}, {3, -2}, {4, -2}, {5, -2}, {6, -2}}});
  const BlockAnswer answer = solved(given);
  ASSERT_EQ(answer.solution.status, Status::optimal);
  EXPECT_NEAR(answer.solution.cost, -10.5, 1e-6);
  EXPECT_GT(answer.rounds, 0) << "solved as one";
  EXPECT_TRUE(certify(given.program, answer.solution).holds());
}

TEST(Blocks, CostWhatTheWholeCosts) {
  EXPECT_TRUE(rc::check([] {
    const BlockCase given = *random_programs::blocks();
    const Solution whole = solve(given.program);
    const BlockAnswer answer = solved(given);
    RC_ASSERT(answer.solution.status == Status::optimal);
    RC_ASSERT(std::abs(answer.solution.cost - whole.cost) <= tolerance(whole.cost));
    RC_ASSERT(answer.lower_bound <= whole.cost + 1e-9 * std::max(1.0, std::abs(whole.cost)));
    const Certificate certificate = certify(given.program, answer.solution);
    RC_ASSERT(certificate.holds());
    RC_ASSERT(std::abs(certificate.lower_bound - answer.lower_bound) <=
              1e-9 * std::max(1.0, std::abs(whole.cost)));
  }));
}

TEST(Blocks, AreInfeasibleWhereTheWholeIs) {
  EXPECT_TRUE(rc::check([] {
    const BlockCase given = *random_programs::any_blocks();
    const Solution whole = solve(given.program);
    const BlockAnswer answer = solved(given);
    RC_CLASSIFY(whole.status == Status::infeasible);
    RC_ASSERT(answer.solution.status == whole.status);
    if (whole.status != Status::optimal) return;
    RC_ASSERT(std::abs(answer.solution.cost - whole.cost) <= tolerance(whole.cost));
  }));
}

bool same_bytes(const std::vector<double>& a, const std::vector<double>& b) {
  return a.size() == b.size() &&
         (a.empty() || std::memcmp(a.data(), b.data(), a.size() * sizeof(double)) == 0);
}

TEST(Blocks, AnswerTheSameToTheLastBitWhateverTheThreads) {
  EXPECT_TRUE(rc::check([] {
    const BlockCase given = *random_programs::any_blocks();
    const BlockAnswer alone = solved(given);
    for (const std::size_t threads : {std::size_t{2}, std::size_t{3}}) {
      BlockOptions options;
      options.threads = threads;
      const BlockAnswer together = solved(given, options);
      RC_ASSERT(together.solution.status == alone.solution.status);
      RC_ASSERT(together.rounds == alone.rounds);
      RC_ASSERT(same_bytes(together.solution.columns, alone.solution.columns));
      RC_ASSERT(same_bytes(together.solution.row_duals, alone.solution.row_duals));
    }
  }));
}

TEST(Blocks, StoppedAtAnyRoundHaveABoundThatHolds) {
  EXPECT_TRUE(rc::check([] {
    const BlockCase given = *random_programs::blocks();
    const Solution whole = solve(given.program);
    std::atomic<int> asked = *rc::gen::inRange(0, 6);  // by every thread
    BlockOptions options;
    options.stop = [&asked] { return asked-- <= 0; };
    const BlockAnswer answer = solved(given, options);
    RC_ASSERT(answer.lower_bound <= whole.cost + 1e-9 * std::max(1.0, std::abs(whole.cost)));
    if (answer.solution.status == Status::optimal) return;
    RC_ASSERT(answer.solution.status == Status::limit_reached);
    RC_ASSERT(answer.solution.row_duals.size() == given.program.rows().size());
    if (!answer.solution.usable()) return;
    RC_ASSERT(certify_feasible(given.program, answer.solution, 0.0).largest_violation <=
              certificate_tolerance);
    RC_ASSERT(answer.solution.cost >= whole.cost - tolerance(whole.cost));
  }));
}

TEST(Blocks, OutOfTimeAtOnceHaveABoundThatHolds) {
  BlockOptions options;
  options.time_limit_seconds = 0.0;
  const BlockAnswer answer = solved(two_blocks(), options);
  EXPECT_EQ(answer.solution.status, Status::limit_reached);
  EXPECT_LE(answer.lower_bound, 11.0);
  EXPECT_GE(answer.lower_bound, 0.0) << "no cost is below 0, no amount either";
}

// Starting at the answer, the first prices find nothing better.
TEST(Blocks, StartFromWhatIsKnown) {
  const BlockCase given = two_blocks();
  const BlockAnswer cold = solved(given);
  BlockOptions options;
  options.prices = cold.solution.row_duals;
  options.starts = {cold.solution.columns};
  const BlockAnswer warm = solved(given, options);
  ASSERT_EQ(warm.solution.status, Status::optimal);
  EXPECT_NEAR(warm.solution.cost, 11.0, 1e-6);
  EXPECT_LT(warm.rounds, cold.rounds);
}

TEST(Blocks, WithoutABoundAreLeftToTheSimplexMethod) {
  BlockCase given = two_blocks();
  given.program.set_column_bounds(1, 0.0, unlimited);
  given.program.set_column_bounds(2, 0.0, unlimited);
  given.program.set_row_bounds(0, -unlimited, 0.0);
  given.program.set_row_bounds(3, -unlimited, unlimited);
  EXPECT_EQ(solved(given).solution.status, Status::optimal);
  given.program.set_cost(2, -1.0);
  given.program.set_row_bounds(0, -unlimited, unlimited);
  const BlockAnswer answer = solved(given);
  EXPECT_EQ(answer.solution.status, Status::unbounded);
  EXPECT_EQ(answer.rounds, 0);
}

TEST(Blocks, OfAWrongKindAreRefused) {
  BlockCase given = two_blocks();
  given.block_of_column.pop_back();
  EXPECT_THROW((void)solved(given), std::invalid_argument);
  given.block_of_column.push_back(2);
  EXPECT_NO_THROW((void)solved(given));
  given.block_of_column.back() = 4;
  EXPECT_THROW((void)solved(given), std::invalid_argument) << "blocks 2 and 3 have no column";
  given.block_of_column.back() = -2;
  EXPECT_THROW((void)solved(given), std::invalid_argument);
  given = two_blocks();
  given.program.add_column({.name = "w", .upper = 1.0, .whole = true});
  given.block_of_column.push_back(1);
  EXPECT_THROW((void)solved(given), std::invalid_argument);
}

// A gap that no answer reaches: the rounds end when prices find no better point.
TEST(Blocks, EndThoughNoGapIsSmallEnough) {
  EXPECT_TRUE(rc::check([] {
    const BlockCase given = *random_programs::any_blocks();
    BlockOptions options;
    options.gap = -1.0;
    const BlockAnswer answer = solved(given, options);
    const Solution whole = solve(given.program);
    RC_ASSERT(answer.solution.status == whole.status);
    if (whole.status != Status::optimal) return;
    RC_ASSERT(certify(given.program, answer.solution).holds());
    RC_ASSERT(std::abs(answer.solution.cost - whole.cost) <= tolerance(whole.cost));
  }));
}

// As if rounds went by without a better mix or bound: the simplex method ends it.
TEST(Blocks, ThatGoInCirclesAreSolvedAsOne) {
  BlockOptions options;
  options.idle_rounds = -1;  // every round counts as one too many
  const BlockAnswer answer = solved(two_blocks(), options);
  EXPECT_EQ(answer.rounds, 0);
  EXPECT_EQ(answer.solution.status, Status::optimal);
  EXPECT_NEAR(answer.solution.cost, 11.0, 1e-6);
  EXPECT_TRUE(rc::check([] {
    const BlockCase given = *random_programs::any_blocks();
    const Solution whole = solve(given.program);
    BlockOptions few;
    few.idle_rounds = *rc::gen::inRange(-1, 2);
    const BlockAnswer found = solved(given, few);
    RC_ASSERT(found.solution.status == whole.status);
    if (whole.status != Status::optimal) return;
    RC_ASSERT(certify(given.program, found.solution).holds());
    RC_ASSERT(std::abs(found.solution.cost - whole.cost) <= tolerance(whole.cost));
    RC_ASSERT(found.lower_bound <= whole.cost + tolerance(whole.cost));
  }));
}

// As if every master and block went round in circles: the answer does not change, but that one
// whose certificate holds is left at that, however small a gap was wanted.
TEST(Blocks, HaveSolvesThatEndWithoutPatience) {
  EXPECT_TRUE(rc::check([] {
    const BlockCase given = *random_programs::any_blocks();
    BlockOptions options;
    options.patience = *rc::gen::element(0.0, 0.05, 0.2);
    options.gap = *rc::gen::element(1e-7, -1.0);
    const BlockAnswer found = solved(given, options);
    const Solution whole = solve(given.program);
    RC_ASSERT(found.solution.status == whole.status);
    if (whole.status != Status::optimal) return;
    RC_ASSERT(certify(given.program, found.solution).holds());
    RC_ASSERT(std::abs(found.solution.cost - whole.cost) <= tolerance(whole.cost));
  }));
}

// Against other people's solvers: glpk-utils and coinor-clp.
TEST(Blocks, CostWhatOthersFind) {
  if (!foreign_solvers::has("clp") || !foreign_solvers::has("glpsol")) {
    GTEST_SKIP() << "clp or glpsol is not installed";
  }
  EXPECT_TRUE(rc::check([] {
    const BlockCase given = *random_programs::blocks();
    RC_PRE(given.program.row_count() > 0);
    const foreign_solvers::Folder folder;
    const std::string path = folder.write("blocks.mps", to_free_mps(given.program));
    const BlockAnswer answer = solved(given);
    for (const auto& other : {foreign_solvers::clp_optimum(path),
                              foreign_solvers::glpsol_optimum(folder, "--freemps", path)}) {
      RC_ASSERT(other.has_value());
      RC_ASSERT(std::abs(answer.solution.cost - *other) <= tolerance(*other));
    }
  }));
}

}  // namespace
}  // namespace haymow::blocks_test
