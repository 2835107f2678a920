// Private to solver/. Powers of two that bring the coefficients of a program
// near 1, by alternating geometric means (Curtis & Reid 1972 minimise the same
// logarithms; one sweep is enough here). Being powers of two they change no
// digit. GLPK's own scaling does the same at several times the cost of a solve.
#pragma once

#include <vector>

#include "solver/linear_program.h"

namespace haymow {

struct ScaleFactors {
  std::vector<double> rows;
  std::vector<double> columns;
};

/// One factor a row and one a column, from the coefficients that are not zero.
[[nodiscard]] ScaleFactors scale_factors(const LinearProgram& program);

}  // namespace haymow
