#include "solver/write_program.h"

#include <gmock/gmock.h>

#include "solver/solve.h"
#include "tests/matchers.h"
#include "tests/small_programs.h"
#include "tests/solver/foreign_solvers.h"

namespace haymow::write_program_test {
namespace {

using foreign_solvers::Folder;
using testing::HasSubstr;
using testing::Not;
using testing::Optional;

struct Case {
  const char* name;
  LinearProgram program;
};

/// Names that readers would stumble over, all kinds of bounds, numbers that
/// need all their digits.
LinearProgram awkward() {
  LinearProgram program;
  program.add_column({.name = "hay, first cut", .cost = 0.1});
  program.add_column({.name = "hay; first cut", .upper = 2.0, .cost = 0.05});
  program.add_column({.name = "end", .lower = 1.0 / 3.0, .cost = 1.0});
  program.add_column({.name = "2nd", .lower = -unlimited, .upper = 5.0, .cost = -0.25});
  program.add_column({.name = "e3", .lower = -unlimited, .cost = 0.7});
  program.add_column({.name = "fixed\nat one", .lower = 1.0, .upper = 1.0, .cost = 0.0});
  program.add_column({.name = "unused", .upper = 0.0, .cost = 3.0});
  program.add_row({.name = "energy/min",
                   .lower = 12.345678901234567,
                   .terms = {{0, 1.1}, {1, 1.3}, {2, 0.7}, {5, 1e-5}}});
  program.add_row({.name = "share", .lower = -2.0, .upper = 7.5, .terms = {{0, 1.0}, {3, -1.0}}});
  program.add_row({.name = "share_upper", .lower = -4.0, .terms = {{4, 1.0}, {0, -0.1}}});
  program.add_row({.name = "cost", .lower = 3.0, .upper = 3.0, .terms = {{1, 1.0}, {2, 3.0}}});
  program.add_row({.name = "idle", .terms = {{0, 1.0}}});
  program.add_row({.name = "empty", .upper = 1.0});
  program.add_row(
      {.name = std::string(300, 'l'), .upper = 100.0, .terms = {{0, 1.0}, {1, 2.5e6}, {3, 1.0}}});
  program.add_row(
      {.name = std::string(300, 'l') + "!", .upper = 1e9, .terms = {{0, 1.0}, {1, 2.5e6}}});
  return program;
}

std::vector<Case> cases() {
  LinearProgram whole = small_programs::whole_numbers();
  whole.add_column({.name = "part", .upper = 0.5, .cost = 0.5});
  return {{"two rows", small_programs::two_rows()},
          {"awkward", awkward()},
          {"whole numbers", small_programs::whole_numbers()},
          {"whole and not", whole}};
}

double optimum_of(const LinearProgram& program) {
  const Solution solution = solve(program);
  EXPECT_EQ(solution.status, Status::optimal);
  return solution.cost;
}

TEST(WriteProgram, GlpsolFindsTheSameOptimum) {
  if (!foreign_solvers::has("glpsol")) {
    GTEST_SKIP() << "glpsol is not installed";
  }
  const Folder folder;
  for (const Case& each : cases()) {
    const double ours = optimum_of(each.program);
    const std::string lp = folder.write("program.lp", to_cplex_lp(each.program));
    EXPECT_THAT(foreign_solvers::glpsol_optimum(folder, "--lp", lp), Optional(IsNear(ours, 1e-6)))
        << each.name;
    const std::string mps = folder.write("program.mps", to_free_mps(each.program));
    EXPECT_THAT(foreign_solvers::glpsol_optimum(folder, "--freemps", mps),
                Optional(IsNear(ours, 1e-6)))
        << each.name;
  }
}

TEST(WriteProgram, ClpFindsTheSameOptimum) {
  if (!foreign_solvers::has("clp")) {
    GTEST_SKIP() << "clp is not installed";
  }
  const Folder folder;
  for (const Case& each : cases()) {
    if (each.program.has_whole_columns()) {
      continue;  // clp has no branch and cut
    }
    const double ours = optimum_of(each.program);
    for (const std::string& path : {folder.write("program.lp", to_cplex_lp(each.program)),
                                    folder.write("program.mps", to_free_mps(each.program))}) {
      EXPECT_THAT(foreign_solvers::clp_optimum(path), Optional(IsNear(ours, 1e-6)))
          << each.name << ' ' << path;
    }
  }
}

TEST(WriteProgram, CbcFindsTheSameOptimum) {
  if (!foreign_solvers::has("cbc")) {
    GTEST_SKIP() << "cbc is not installed";
  }
  const Folder folder;
  for (const Case& each : cases()) {
    const double ours = optimum_of(each.program);
    for (const std::string& path : {folder.write("program.lp", to_cplex_lp(each.program)),
                                    folder.write("program.mps", to_free_mps(each.program))}) {
      EXPECT_THAT(foreign_solvers::cbc_optimum(folder, path), Optional(IsNear(ours, 1e-6)))
          << each.name << ' ' << path;
    }
  }
}

TEST(WriteProgram, LpSolveFindsTheSameOptimum) {
  if (!foreign_solvers::has("lp_solve")) {
    GTEST_SKIP() << "lp_solve is not installed";
  }
  const Folder folder;
  for (const Case& each : cases()) {
    const double ours = optimum_of(each.program);
    const std::string mps = folder.write("program.mps", to_free_mps(each.program));
    EXPECT_THAT(foreign_solvers::lp_solve_optimum(mps), Optional(IsNear(ours, 1e-6))) << each.name;
  }
}

TEST(WriteProgram, NumbersReadBackExactly) {
  LinearProgram program;
  program.add_column({.name = "x", .cost = 0.1});
  program.add_row({.name = "r", .lower = 1.0 / 3.0, .terms = {{0, 2.0 / 3.0}}});
  for (const std::string& text : {to_cplex_lp(program), to_free_mps(program)}) {
    EXPECT_THAT(text, HasSubstr("0.3333333333333333"));
    EXPECT_THAT(text, HasSubstr("0.6666666666666666"));
    EXPECT_THAT(text, HasSubstr(" 0.1"));
    EXPECT_THAT(text, Not(HasSubstr("0.10000")));
  }
}

TEST(WriteProgram, NamesThatChangeAreListed) {
  for (const std::string& text : {to_cplex_lp(awkward()), to_free_mps(awkward())}) {
    EXPECT_THAT(text, HasSubstr(" column hay__first_cut: hay, first cut\n"));
    EXPECT_THAT(text, HasSubstr(" column hay__first_cut_2: hay; first cut\n"));
    EXPECT_THAT(text, HasSubstr(" column x_end: end\n"));
    EXPECT_THAT(text, HasSubstr(" column x_2nd: 2nd\n"));
    EXPECT_THAT(text, HasSubstr(" column fixed_at_one: fixed at one\n"));
    EXPECT_THAT(text, HasSubstr(" row energy_min: energy/min\n"));
    EXPECT_THAT(text, Not(HasSubstr(": unused\n")));
  }
}

TEST(WriteProgram, AnEmptyProgramCanBeRead) {
  if (!foreign_solvers::has("glpsol")) {
    GTEST_SKIP() << "glpsol is not installed";
  }
  const Folder folder;
  const std::string lp = folder.write("program.lp", to_cplex_lp(LinearProgram{}));
  EXPECT_THAT(foreign_solvers::glpsol_optimum(folder, "--lp", lp), Optional(IsNear(0.0, 1e-9)));
}

}  // namespace
}  // namespace haymow::write_program_test
