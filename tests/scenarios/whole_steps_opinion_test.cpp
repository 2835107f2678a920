// The whole-number program of every ration of the shipped example, solved again
// by Cbc and HiGHS as anyone may: from the MPS file of --write-program, and from
// the rows. Ours stops within practical_gap of the best; theirs must lie there.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "solver/solve.h"
#include "tests/scenarios/examples.h"
#include "tests/scenarios/second_opinion.h"

namespace haymow::whole_steps_opinion_test {
namespace {

// Both others stop this near to the best, relative: the last thousandth takes Cbc
// minutes, a hundred times what finding it took.
constexpr double other_gap = 1e-3;

// Without an increment Cbc takes costs for multiples of something and may stop a
// step short; so it is told the smallest.
std::optional<double> cbc_whole_optimum(const foreign_solvers::Folder& folder,
                                        const std::string& path) {
  const std::string answer = folder.file("cbc.sol");
  foreign_solvers::output_of("cbc '" + path +
                             "' -increment 1e-9 -ratioGap 1e-3 -seconds 20 solve solution '" +
                             answer + "' 2>&1");
  return foreign_solvers::number_after(foreign_solvers::text_of_file(answer), "- objective value ");
}

TEST(WholeStepsOpinion, OtherSolversFindNothingCheaperThanTheGapLeaves) {
  for (const HorseAnswer& answer : examples::ninefields_answers()) {
    const std::string& horse = answer.question.horse.name;
    ASSERT_TRUE(answer.practical) << horse;
    // Of the day as a whole: with a column for each feed in each meal Cbc takes minutes.
    StepChoices choices = answer.practical->choices;
    choices.meals = MealRows::day;
    const WholeStepProgram steps = whole_step_program(answer.question, answer.formulation, choices);
    SolveOptions options;
    options.whole_gap = practical_gap;
    const Solution ours = solve(steps.program, options);
    ASSERT_EQ(ours.status, Status::optimal) << horse;
    const foreign_solvers::Folder folder;
    const std::string path = folder.write("steps.mps", to_free_mps(steps.program));
    std::map<std::string, std::optional<double>> optima;
    if (foreign_solvers::has("cbc")) optima["Cbc"] = cbc_whole_optimum(folder, path);
    if (second_opinion::has_scipy()) {
      optima["HiGHS"] = second_opinion::highs_optimum(folder, steps.program);
    }
    ASSERT_FALSE(optima.empty()) << "install coinor-cbc or python3-scipy";
    for (const auto& [solver, optimum] : optima) {
      ASSERT_TRUE(optimum) << solver << ", " << horse;
      // best * (1 - their gap) <= ours, and ours * (1 - our gap) <= best <= theirs.
      EXPECT_LE(*optimum * (1.0 - other_gap), ours.cost * (1.0 + 1e-6)) << solver << ", " << horse;
      EXPECT_GE(*optimum, ours.cost * (1.0 - practical_gap - 1e-6)) << solver << ", " << horse;
      // What is printed divides into meals, so it costs no less than the best day.
      EXPECT_GE(answer.practical->ration.cost.in_units(), *optimum * (1.0 - other_gap)) << horse;
    }
  }
}

}  // namespace
}  // namespace haymow::whole_steps_opinion_test
