// Private to solver/. Bounds of columns as the rows imply them. A row
//   sum a_k x_k <= b  gives  a_j x_j <= b - sum over k != j of min a_k x_k.
// One pass over the rows; the bounds found are not fed back.
#pragma once

#include <vector>

#include "solver/linear_program.h"

namespace haymow {

struct Box {
  std::vector<double> lower;  // one a column
  std::vector<double> upper;
};

/// The bounds given, drawn in by the rows and, when `cost` is finite, by the row
/// "costs no more than `cost`": every feasible point that costs no more is inside.
[[nodiscard]] Box implied_box(const LinearProgram& program, double cost);

}  // namespace haymow
