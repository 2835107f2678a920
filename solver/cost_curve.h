// The least cost as a function of one number of the program: exact break points,
// found where tangents meet. Stepping past a ranging limit by a little and solving
// again can stick for ever at one point, since a solver's tolerance then makes no
// pivot; two tangents always meet somewhere else (measured; Eisner & Severance
// 1976 gave the method).
#pragma once

#include <vector>

#include "solver/linear_program.h"
#include "solver/solution.h"
#include "solver/solve.h"

namespace haymow {

/// From `from` to `to` the same columns stay cheapest.
struct CostPiece {
  double from = 0.0;
  double to = 0.0;
  Solution solution;  // optimal all along the piece; its cost is that at the point it was found at
};

/// The answers as the cost of `column` goes from `from` to `to`: pieces in order,
/// each starting where the last ends. The least cost is concave there, with the
/// value of the column as its slope. Empty when the program has no answer.
/// Throws std::invalid_argument for a column that does not exist, bounds that are
/// not finite or crossed, or whole columns; std::runtime_error when the arithmetic
/// fails or the cost falls without end.
[[nodiscard]] std::vector<CostPiece> answers_over_cost(const LinearProgram& program, int column,
                                                       double from, double to,
                                                       const SolveOptions& options = {});

/// The same for one column after another of one program. Only costs change, so every
/// solve goes on from the last by the primal method: much faster than each by itself.
class CostCurves {
 public:
  /// `start`: an optimal basis of the program, to begin from. Throws as
  /// answers_over_cost does, for whole columns.
  explicit CostCurves(const LinearProgram& program, const Basis* start = nullptr);
  CostCurves(const LinearProgram& program, const SolveOptions& options);
  [[nodiscard]] std::vector<CostPiece> over(int column, double from, double to);

 private:
  WarmSolver solver_;
};

/// A corner of the least cost as a bound moves; between two corners the answer is
/// on the straight line between theirs.
struct BoundCorner {
  double value = 0.0;  // of the bound
  Solution solution;
};

/// The corners as `bound` goes from `from` to `to`, both ends included as far as
/// there is an answer: the least cost is convex there. Empty when there is none.
/// Throws as answers_over_cost does.
[[nodiscard]] std::vector<BoundCorner> corners_over_bound(const LinearProgram& program, Bound bound,
                                                          double from, double to);

}  // namespace haymow
