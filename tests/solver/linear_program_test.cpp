#include "solver/linear_program.h"

#include <gmock/gmock.h>

#include <limits>
#include <stdexcept>

#include "tests/small_programs.h"

namespace haymow::linear_program_test {
namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();

/// Expects std::invalid_argument whose text names `culprit`.
template <typename Call>
void expect_refusal(Call call, const std::string& culprit) {
  try {
    call();
    ADD_FAILURE() << "accepted, but should name " << culprit;
  } catch (const std::invalid_argument& refusal) {
    EXPECT_THAT(refusal.what(), testing::HasSubstr(culprit));
  }
}

TEST(LinearProgram, ColumnsAndRowsCountFromZero) {
  LinearProgram program;
  EXPECT_EQ(program.add_column({.name = "x"}), 0);
  EXPECT_EQ(program.add_column({.name = "y"}), 1);
  EXPECT_EQ(program.add_row({.name = "r", .terms = {{1, 2.0}}}), 0);
  EXPECT_EQ(program.column_count(), 2);
  EXPECT_EQ(program.row_count(), 1);
}

TEST(LinearProgram, RefusesColumnsASolverWouldMisread) {
  const Column columns[] = {
      {.name = ""},
      {.name = "x"},
      {.name = "price", .cost = nan},
      {.name = "price", .cost = unlimited},
      {.name = "crossed", .lower = 2.0, .upper = 1.0},
      {.name = "bound", .lower = nan},
      {.name = "bound", .upper = nan},
      {.name = "bound", .lower = unlimited},
      {.name = "bound", .lower = -unlimited, .upper = -unlimited},
  };
  for (const Column& column : columns) {
    LinearProgram program;
    program.add_column({.name = "x"});
    expect_refusal([&] { program.add_column(column); }, "`" + column.name + "`");
    EXPECT_EQ(program.column_count(), 1);
  }
}

TEST(LinearProgram, RefusesRowsASolverWouldMisread) {
  const Row rows[] = {
      {.name = ""},
      {.name = "sum"},
      {.name = "crossed", .lower = 2.0, .upper = 1.0},
      {.name = "bound", .lower = nan},
      {.name = "coefficient", .terms = {{0, nan}}},
      {.name = "coefficient", .terms = {{0, unlimited}}},
      {.name = "column", .terms = {{2, 1.0}}},
      {.name = "column", .terms = {{-1, 1.0}}},
      {.name = "twin", .terms = {{0, 1.0}, {1, 1.0}, {0, 1.0}}},
  };
  for (const Row& row : rows) {
    LinearProgram program = small_programs::two_rows();
    expect_refusal([&] { program.add_row(row); }, "`" + row.name + "`");
    EXPECT_EQ(program.row_count(), 2);
  }
}

TEST(LinearProgram, ARefusedRowMayBeAddedMended) {
  LinearProgram program = small_programs::two_rows();
  EXPECT_THROW(program.add_row({.name = "r", .terms = {{0, 1.0}, {0, 1.0}}}),
               std::invalid_argument);
  EXPECT_EQ(program.add_row({.name = "r", .terms = {{0, 1.0}, {1, 1.0}}}), 2);
}

TEST(LinearProgram, ChangesAreRefusedAsAdditionsAre) {
  LinearProgram program = small_programs::two_rows();
  expect_refusal([&] { program.set_cost(0, nan); }, "`x`");
  expect_refusal([&] { program.set_cost(2, 1.0); }, "column 2");
  expect_refusal([&] { program.set_column_bounds(1, 3.0, 2.0); }, "`y`");
  expect_refusal([&] { program.set_row_bounds(0, nan, 2.0); }, "`sum`");
  expect_refusal([&] { program.set_row_bounds(-1, 0.0, 2.0); }, "row -1");
  EXPECT_EQ(program.columns()[0].cost, 2.0);
  EXPECT_EQ(program.rows()[0].lower, 4.0);
}

TEST(LinearProgram, ChangesAreKept) {
  LinearProgram program = small_programs::two_rows();
  program.set_cost(0, 7.0);
  program.set_column_bounds(1, -1.0, 2.0);
  program.set_row_bounds(0, 1.0, 9.0);
  EXPECT_EQ(program.columns()[0].cost, 7.0);
  EXPECT_EQ(program.columns()[1].lower, -1.0);
  EXPECT_EQ(program.rows()[0].upper, 9.0);
}

}  // namespace
}  // namespace haymow::linear_program_test
