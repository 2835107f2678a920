// Private to solver/. Powers of two that bring the coefficients of a program
// near 1, by alternating geometric means (Curtis & Reid 1972 minimise the same
// logarithms; one sweep is enough here). Being powers of two they change no
// digit. GLPK's own scaling does the same at several times the cost of a solve.
#pragma once

#include <span>
#include <vector>

namespace haymow {

struct ScaleFactors {
  std::vector<double> rows;
  std::vector<double> columns;
};

/// Factors for the coefficients `values`, where entry k stands in row
/// row_of[k] and column column_of[k], both counted from 0. Zeros are ignored.
[[nodiscard]] ScaleFactors scale_factors(int row_count, int column_count,
                                         std::span<const int> row_of,
                                         std::span<const int> column_of,
                                         std::span<const double> values);

}  // namespace haymow
