// An answer solved again in rational arithmetic, from where the floating-point solve
// stopped: no rounding decides anything. Not exact for the doubles given: GLPK's
// rational simplex method (glp_exact) keeps whole numbers as they are and takes any
// other as a simple fraction near it, within 1e-9 of it (relative; below 1, absolute),
// so that 0.1 is a tenth: set_d_eps in GLPK's glpapi07.c. Debian's GLPK computes with GMP.
#pragma once

#include <span>

#include "solver/linear_program.h"
#include "solver/solution.h"

namespace haymow {

struct ExactCheck {
  /// `optimal` or `infeasible`, without rounding; anything else: it did not finish
  /// (the limit was reached, the arithmetic failed, or there was no basis).
  Status status = Status::not_solved;
  // --- of an optimum ---
  double cost = 0.0;        // at the exact amounts, each rounded once to a double
  double difference = 0.0;  // the cost given less the exact one
  /// The basis given is optimal without rounding; otherwise another is.
  bool same_basis = false;
  int iterations = 0;  // steps to the exact answer

  [[nodiscard]] bool finished() const {
    return status == Status::optimal || status == Status::infeasible;
  }
  /// True when optimal and the difference is within the tolerance of certificates.
  [[nodiscard]] bool confirms_cost() const;
};

/// Solves `program` again from the basis of `solution`. A ration takes milliseconds;
/// slow where many steps are needed (measured: 45 ms and more for 190 rows from
/// scratch), and able to go round for ever where many bounds meet in a point, hence the
/// limit. A program with whole columns, or a solution that is not
/// optimal or has no basis, is not_solved.
[[nodiscard]] ExactCheck check_exactly(const LinearProgram& program, const Solution& solution,
                                       double time_limit_seconds = 10.0);

/// Solves `rows` of `program` alone, with the bounds of all columns and no costs:
/// `infeasible` when they cannot hold together, and so neither can all rows.
/// Row indices out of range throw std::out_of_range.
[[nodiscard]] ExactCheck check_clash_exactly(const LinearProgram& program,
                                             std::span<const std::size_t> rows,
                                             double time_limit_seconds = 10.0);

}  // namespace haymow
