// Every ration of the shipped example, solved again by solvers that are not
// ours: Clp, Cbc and lp_solve from the MPS file that anyone may write out, HiGHS
// from the rows themselves. They must find the same cost.
#include "tests/scenarios/second_opinion.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "solver/solve.h"
#include "tests/matchers.h"
#include "tests/scenarios/examples.h"

namespace haymow::second_opinion_test {
namespace {

using ::testing::Optional;

// Two at least: one could be wrong together with ours.
constexpr std::size_t fewest_other_solvers = 2;

TEST(SecondOpinion, OtherSolversFindTheSameCostForEveryHorse) {
  for (const HorseAnswer& answer : examples::ninefields_answers()) {
    const std::string& horse = answer.question.horse.name;
    ASSERT_EQ(answer.status, AnswerStatus::found) << horse;
    const auto optima = second_opinion::optima_of(answer.formulation.program);
    ASSERT_GE(optima.size(), fewest_other_solvers)
        << "install two of coinor-clp, coinor-cbc, lp-solve, python3-scipy";
    for (const auto& [solver, optimum] : optima) {
      EXPECT_THAT(optimum, Optional(IsNear(answer.solution.cost, 1e-6))) << solver << ", " << horse;
    }
  }
}

// The same costs when the barn is endless and every horse is fed alone.
TEST(SecondOpinion, OtherSolversFindTheSameCostWithoutSharing) {
  Scenario scenario = examples::ninefields();
  scenario.stable.season.reset();
  for (const Horse& horse : scenario.stable.horses) {
    const RationQuestion question = question_for(horse, scenario.stable.offers, 3);
    const LinearProgram program = formulate(question).program;
    const Solution solution = solve(program);
    ASSERT_EQ(solution.status, Status::optimal) << horse.name;
    const auto optima = second_opinion::optima_of(program);
    ASSERT_GE(optima.size(), fewest_other_solvers);
    for (const auto& [solver, optimum] : optima) {
      EXPECT_THAT(optimum, Optional(IsNear(solution.cost, 1e-6))) << solver << ", " << horse.name;
    }
  }
}

// A program without an answer has none for the others either.
TEST(SecondOpinion, OtherSolversFindNoRationWhereThereIsNone) {
  Scenario scenario = examples::ninefields();
  RationQuestion question = question_for(scenario.stable.horses.front(), scenario.stable.offers, 3);
  for (const Offer& offer : question.offers) {
    if (offer.feed.is_long_forage()) {
      question.horse.wishes.push_back({WishKind::none, offer.name, {}, {}});
    }
  }
  const LinearProgram program = formulate(question).program;
  ASSERT_THAT(solve(program), IsInfeasible());
  const auto optima = second_opinion::optima_of(program);
  ASSERT_GE(optima.size(), fewest_other_solvers);
  for (const auto& [solver, optimum] : optima) {
    EXPECT_EQ(optimum, std::nullopt) << solver;
  }
}

}  // namespace
}  // namespace haymow::second_opinion_test
