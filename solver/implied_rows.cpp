#include "solver/implied_rows.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "solver/solve.h"

namespace haymow {
namespace {

// Far below the tolerance that answers are judged by; a tenth of the solver's own.
constexpr double touching = 1e-10;

/// `sign` 1: no point goes above `bound` along the row; -1: none below.
bool goes_no_farther(WarmSolver& solver, const Row& row, double sign, double bound) {
  if (std::isinf(bound)) return true;
  for (const Term& t : row.terms) solver.set_cost(t.column, -sign * t.coefficient);
  const Solution farthest = solver.solve();
  for (const Term& t : row.terms) solver.set_cost(t.column, 0.0);
  return farthest.status == Status::optimal &&
         -farthest.cost <= sign * bound + touching * std::max(1.0, std::abs(bound));
}

}  // namespace

std::vector<bool> implied_rows(const LinearProgram& program) {
  std::vector<bool> implied(program.rows().size(), false);
  WarmSolver solver(program);
  for (int j = 0; j < program.column_count(); ++j) solver.set_cost(j, 0.0);
  if (solver.solve().status != Status::optimal) return implied;
  for (std::size_t i = 0; i < implied.size(); ++i) {
    const Row& row = program.rows()[i];
    const int index = static_cast<int>(i);
    solver.set_row_bounds(index, -unlimited, unlimited);
    implied[i] = goes_no_farther(solver, row, 1.0, row.upper) &&
                 goes_no_farther(solver, row, -1.0, row.lower);
    if (!implied[i]) solver.set_row_bounds(index, row.lower, row.upper);
  }
  return implied;
}

}  // namespace haymow
