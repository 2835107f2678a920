// Rows a'x >= b whose coefficients a are known only on average. With independent
// normal errors the row holds with probability P exactly when
//     mean'x - z * |deviation o x| >= b,      z = the normal quantile of P,
// which is convex in x for z >= 0. It is solved on the linear program by cutting
// planes: the norm is convex, so every tangent lies below it (Kelley 1960), and
// each round adds the tangents at the last answer and goes on by the dual simplex
// method. The program is always a relaxation: its bound is one of the true
// program, and what the answer still misses is measured and told.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "solver/linear_program.h"
#include "solver/solution.h"
#include "solver/solve.h"

namespace haymow {

/// A row of a program with a lower bound, and the standard deviations of its
/// coefficients; columns not named are known exactly.
struct UncertainRow {
  int row = 0;
  std::vector<Term> deviations;  // each > 0
};

/// margin >= slopes'x: a tangent of z * |deviation o x|.
struct Tangent {
  std::size_t uncertain = 0;  // index into the rows given
  std::vector<Term> slopes;
};

struct GuardedSolution {
  /// The program given, with one more column for each uncertain row (its margin,
  /// taken off the row) and behind the rows one for each tangent.
  LinearProgram program;
  std::vector<int> margins;  // column of each uncertain row
  std::vector<Tangent> tangents;
  Solution solution;          // of `program`
  double largest_miss = 0.0;  // of the true rows at the answer, relative to the row's size
  int rounds = 0;
};

/// The true rows may be missed by this much, relative to the size of the row.
inline constexpr double guard_tolerance = 1e-6;

/// z * |deviation o x|.
[[nodiscard]] double margin_of(const UncertainRow& row, double z, const std::vector<double>& x);
/// The tangent of margin_of at `x`; without slopes where nothing uncertain is in it.
[[nodiscard]] std::vector<Term> tangent_at(const UncertainRow& row, double z,
                                           const std::vector<double>& x);

/// Solves `program` with `rows` kept at the normal quantile `z`. The status is
/// the solution's: `infeasible` is a proof, since the program is a relaxation;
/// `limit_reached` when the rounds run out, with the miss that is left.
/// Throws std::invalid_argument when z is negative or not finite, or a row has no
/// lower bound or a deviation is not above 0.
[[nodiscard]] GuardedSolution solve_guarded(const LinearProgram& program,
                                            std::span<const UncertainRow> rows, double z,
                                            const SolveOptions& options = {});

}  // namespace haymow
