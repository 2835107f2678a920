// An independent check of an answer: computed with Eigen from the program and
// the answer alone, never from what the solver says of itself.
#pragma once

#include <vector>

#include "solver/linear_program.h"
#include "solver/solution.h"

namespace haymow {

/// An answer whose certificate exceeds this is not shown. Relative.
inline constexpr double certificate_tolerance = 1e-6;

struct Certificate {
  /// Largest amount by which a row or column misses a bound, relative to the
  /// size of the row (|bound| and the largest |term|, at least 1).
  double largest_violation = unlimited;
  /// Largest dual or reduced cost of the wrong sign, relative to the costs.
  double largest_dual_violation = unlimited;
  /// A cost below which no answer can be, by weak duality from the duals given.
  double lower_bound = -unlimited;
  /// (cost - lower_bound) / max(1, |cost|).
  double relative_gap = unlimited;

  /// True when the answer is feasible and within the tolerance of the best.
  /// Wrong-signed row duals are clipped; where a reduced cost leans on a bound a
  /// column lacks, the one implied by the rows, or by "costs no more than this
  /// answer", serves, which holds for every answer that is feasible and better.
  [[nodiscard]] bool holds() const;
};

/// As of a certificate, for `columns`, one a column of the program; unlimited where one is
/// not finite.
[[nodiscard]] double largest_violation(const LinearProgram& program,
                                       const std::vector<double>& columns);

/// Checks an optimal continuous answer. A solution that is not usable gets a
/// certificate that does not hold.
[[nodiscard]] Certificate certify(const LinearProgram& program, const Solution& solution);

/// Checks only that `solution` satisfies rows, bounds and wholeness, and
/// measures its cost against `lower_bound`, itself certified elsewhere (the
/// relaxation's): for whole-number answers, whose optimality has no dual proof.
/// The gap is that of whole numbers, too, so holds() may be false for the best.
[[nodiscard]] Certificate certify_feasible(const LinearProgram& program, const Solution& solution,
                                           double lower_bound);

/// Checks that `row_multipliers` prove the program infeasible: returns how far
/// the contradiction goes, relative; a proof only when above the tolerance.
[[nodiscard]] double infeasibility_proof(const LinearProgram& program,
                                         const std::vector<double>& row_multipliers);

}  // namespace haymow
