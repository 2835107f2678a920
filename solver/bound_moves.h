// Private to solver/. Reading and moving one side of one row or column,
// whatever holds it: a program or a WarmSolver.
#pragma once

#include <string>
#include <vector>

#include "solver/linear_program.h"
#include "solver/solve.h"

namespace haymow {

/// The bound's own value; may be unlimited.
/// Throws std::invalid_argument when there is no such row or column.
[[nodiscard]] double value_of(const LinearProgram& program, Bound bound);

/// Moves one side and leaves the other. The same refusals as LinearProgram.
void move_bound(LinearProgram& program, Bound bound, double value);
void move_bound(WarmSolver& solver, Bound bound, double value);

/// The value a bound has when it is left out: unlimited on its side, except
/// that a column bounded below by more than 0 stays at x >= 0.
[[nodiscard]] double value_when_left_out(const LinearProgram& program, Bound bound);

/// The terms of the row, or of the column taken for a row.
[[nodiscard]] std::vector<Term> terms_of(const LinearProgram& program, Bound bound);

/// `stem`, or `stem` with a number behind it, whichever no column (row) has.
[[nodiscard]] std::string unused_column_name(const LinearProgram& program, const std::string& stem);
[[nodiscard]] std::string unused_row_name(const LinearProgram& program, const std::string& stem);

}  // namespace haymow
