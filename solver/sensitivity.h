// What a limit costs at the margin. Under degeneracy a solver's dual is one of
// many, so prices here are one-sided: what tightening costs and what loosening
// saves are two numbers, each from a program over the active set, and how far
// each holds is found by solving again at the edge.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "solver/linear_program.h"
#include "solver/solution.h"

namespace haymow {

struct BoundPrice {
  Bound bound;
  double value = 0.0;  // the bound's own value
  /// Cost of moving the bound inward by one unit, >= 0; `unlimited` when any
  /// tightening leaves no answer.
  double tightening_costs = 0.0;
  /// Cost saved by moving the bound outward by one unit, >= 0.
  double loosening_saves = 0.0;
  /// The value of the bound up to which each of the two stays true; absent
  /// when it stays true as far as was looked (search_span).
  std::optional<double> tightening_until;
  std::optional<double> loosening_until;
};

/// The bounds that hold the answer: met within 1e-7 relative. Bounds x >= 0 of
/// columns are facts and not listed; entry_cost speaks of those columns.
[[nodiscard]] std::vector<Bound> active_bounds(const LinearProgram& program,
                                               const Solution& solution);

/// One-sided prices of the bounds given, in their order; `solution` must be
/// optimal for `program`. A bound that does not hold the answer gets zeros, and
/// as `tightening_until` the value at which it begins to. The search for
/// `until` looks as far as |value| (at least `least_span`) on either side.
/// Throws std::invalid_argument on a bound that does not exist, a program with
/// whole columns or an answer that is not optimal; std::runtime_error when the
/// arithmetic fails.
[[nodiscard]] std::vector<BoundPrice> bound_prices(const LinearProgram& program,
                                                   const Solution& solution,
                                                   std::span<const Bound> bounds,
                                                   double least_span = 1.0);

/// The cost of `column` at or below which it enters the answer, for one at its
/// lower bound; one above it is in already and gets its present cost. Nothing
/// when no cost, however low, makes it enter. Throws as bound_prices does.
[[nodiscard]] std::optional<double> entry_cost(const LinearProgram& program,
                                               const Solution& solution, int column);

}  // namespace haymow
