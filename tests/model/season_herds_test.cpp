// Drawn yards short of hay, many herds solved apart: what is left out says nothing, and
// the answer is that of the whole program.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "model/season_plan.h"
#include "model/season_relaxation.h"
#include "solver/solve.h"
#include "tests/bench/season_yard.h"

namespace haymow::season_herds_test {
namespace {

SeasonQuestion short_yard(std::uint32_t seed) {
  bench::YardSize size;
  size.horses = 5;
  size.weeks = 14;
  size.feeds = 12;
  size.hay_is_short = true;
  return bench::season_yard(seed, size);
}

// As far against each row as those that stay let one; found out once a kind of ration.
TEST(SeasonHerds, LeaveOutNoRowThatOthersDoNotImply) {
  const SeasonParts parts = season_parts(short_yard(7));
  std::size_t implied = 0;
  for (std::size_t r = 0; r < parts.formulations.size(); ++r) {
    const LinearProgram& program = parts.formulations[r].program;
    WarmSolver solver(program);
    for (int j = 0; j < program.column_count(); ++j) solver.set_cost(j, 0.0);
    for (std::size_t i = 0; i < program.rows().size(); ++i) {
      if (parts.implied[r][i]) solver.set_row_bounds(static_cast<int>(i), -unlimited, unlimited);
    }
    for (std::size_t i = 0; i < program.rows().size(); ++i) {
      if (!parts.implied[r][i]) continue;
      ++implied;
      const Row& row = program.rows()[i];
      for (const double sign : {1.0, -1.0}) {
        const double bound = sign > 0.0 ? row.upper : row.lower;
        if (std::isinf(bound)) continue;
        for (const Term& t : row.terms) solver.set_cost(t.column, -sign * t.coefficient);
        const Solution farthest = solver.solve();
        ASSERT_EQ(farthest.status, Status::optimal) << row.name;
        EXPECT_LE(-farthest.cost, sign * bound + 1e-8 * std::max(1.0, std::abs(bound))) << row.name;
        for (const Term& t : row.terms) solver.set_cost(t.column, 0.0);
      }
    }
  }
  EXPECT_GT(implied, 0U);
}

// Of seeds 6 and 9 no plan keeps to one ration between changes of work.
TEST(SeasonHerds, CostWhatTheWholeProgramCosts) {
  for (const std::uint32_t seed : {1U, 6U, 9U}) {
    const SeasonQuestion yard = short_yard(seed);
    const SeasonParts parts = season_parts(yard);
    const SeasonRelaxation apart = relax_season(yard, parts, SeasonClock(SeasonOptions{}));
    SolveOptions options;
    options.primal_first = true;
    const Solution whole =
        solve(season_program(yard, parts, weekly_spells(yard, parts)).program, options);
    if (whole.status == Status::infeasible) {
      EXPECT_EQ(apart.status, SeasonStatus::none) << seed;
      continue;
    }
    ASSERT_EQ(whole.status, Status::optimal) << seed;
    ASSERT_EQ(apart.status, SeasonStatus::found) << seed;
    EXPECT_NEAR(apart.answer.solution.cost, whole.cost, 1e-6 * whole.cost) << seed;
  }
}

}  // namespace
}  // namespace haymow::season_herds_test
