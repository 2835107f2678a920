// Problems with published optima: G. J. Stigler, The Cost of Subsistence,
// Journal of Farm Economics 27 (1945), 77 commodities and 9 nutrients, and a
// smaller diet problem, both as models in Debian's glpk-utils. glpsol turns
// the model into numbers; the solving is ours.
#include <gmock/gmock.h>

#include <filesystem>

#include "solver/certify.h"
#include "solver/exact.h"
#include "solver/solve.h"
#include "solver/write_program.h"
#include "tests/matchers.h"
#include "tests/solver/foreign_solvers.h"
#include "tests/solver/mps_reader.h"

namespace haymow::published_programs_test {
namespace {

using foreign_solvers::Folder;

constexpr const char* examples = "/usr/share/doc/glpk-utils/examples/";

/// The model as a program; empty when glpsol or the model is not installed.
std::optional<LinearProgram> program_of_model(const std::string& model) {
  if (!foreign_solvers::has("glpsol") || !std::filesystem::exists(examples + model)) {
    return std::nullopt;
  }
  const Folder folder;
  const std::string mps = folder.file("model.mps");
  foreign_solvers::output_of("glpsol --check -m " + (examples + model) + " --wfreemps '" + mps +
                             "' 2>&1");
  return program_from_free_mps(foreign_solvers::text_of_file(mps));
}

TEST(PublishedPrograms, StiglersDietOf1945) {
  const auto program = program_of_model("stigler.mod");
  if (!program) {
    GTEST_SKIP() << "glpsol or its example stigler.mod is not installed";
  }
  EXPECT_EQ(program->column_count(), 77);
  const Solution solution = solve(*program);
  EXPECT_THAT(solution, IsOptimal(0.1086622782));
  EXPECT_THAT(certify(*program, solution), Holds());
  const ExactCheck exact = check_exactly(*program, solution);
  EXPECT_TRUE(exact.confirms_cost());
  EXPECT_NEAR(exact.cost, 0.1086622782, 1e-9);
}

TEST(PublishedPrograms, TheDietExample) {
  const auto program = program_of_model("diet.mod");
  if (!program) {
    GTEST_SKIP() << "glpsol or its example diet.mod is not installed";
  }
  const Solution solution = solve(*program);
  EXPECT_THAT(solution, IsOptimal(0.1381709355));
  EXPECT_THAT(certify(*program, solution), Holds());
}

// Stigler's own answer, found by hand, cost 39.93 dollars a year in 1939
// prices; the optimum is 39.66 (at 365 days).
TEST(PublishedPrograms, StiglersOwnAnswerWasTwentySevenCentsAYearDearer) {
  const auto program = program_of_model("stigler.mod");
  if (!program) {
    GTEST_SKIP() << "glpsol or its example stigler.mod is not installed";
  }
  EXPECT_NEAR(39.93 - solve(*program).cost * 365.0, 0.27, 0.01);
}

}  // namespace
}  // namespace haymow::published_programs_test
