// Why a program has no answer: a set of bounds that cannot hold together, a
// proof of it, how near one can come, and how far one bound must move to mend it.
// Deletion filter: Chinneck & Dravnieks 1991; Farkas proof from the duals of
// the elastic program, since GLPK offers no ray for an infeasible one.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "solver/linear_program.h"
#include "solver/solution.h"
#include "solver/solve.h"

namespace haymow {

struct Conflict {
  /// Bounds that cannot hold together, in order of rows, then columns.
  std::vector<Bound> members;
  /// True when leaving out any one member was tried and gives an answer.
  bool is_minimal = false;
  /// One multiplier a row, checked by infeasibility_proof.
  std::vector<double> proof;
  /// What infeasibility_proof returned for it: above 1e-6 the proof holds.
  double proof_strength = 0.0;
};

/// The conflict of an infeasible program, or nothing when it is feasible.
/// Bounds x >= 0 of columns are facts, not members; leaving out x >= 0.5 leaves
/// x >= 0. Wholeness is a fact too: a program that fails for whole numbers only
/// gets a conflict without a proof (strength 0). When the arithmetic fails all
/// bounds come back, neither minimal nor proven. `keep_last` names bounds
/// that should stay in the conflict only if nothing else explains it: the
/// filter tries to drop them first.
[[nodiscard]] std::optional<Conflict> find_conflict(const LinearProgram& program,
                                                    std::span<const Bound> keep_last = {});

struct Miss {
  Bound bound;
  double amount = 0.0;  // how far beyond the bound, in the row's unit
};

/// The point that misses the rows least: the sum of weight * miss is smallest,
/// then the cost. `row_weights`: one a row, how bad a miss of one unit is; an
/// unlimited weight means the row may not be missed. Throws
/// std::invalid_argument on a weight too few or many, negative or NaN.
struct Nearest {
  /// Columns, rows and cost of the program given, without duals. `optimal`
  /// means nearest; with misses the point does not satisfy the program.
  /// `infeasible`: the rows that may not be missed clash already.
  Solution solution;
  std::vector<Miss> misses;  // empty when the program is feasible
};
[[nodiscard]] Nearest nearest_to(const LinearProgram& program, std::span<const double> row_weights,
                                 const SolveOptions& options = {});

/// How far `bound` alone must be moved outward for an answer to exist, and the
/// cheapest answer there; nothing when moving it alone does not help,
/// or when the solver finds no point at the edge.
struct Loosening {
  Bound bound;
  double by = 0.0;    // in the row's unit, >= 0
  Solution solution;  // cheapest answer with the bound moved so far
};
[[nodiscard]] std::optional<Loosening> least_loosening(const LinearProgram& program, Bound bound);

}  // namespace haymow
