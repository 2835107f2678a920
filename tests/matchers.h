// What a test may say of a Solution in one line. Status before values: a wrong
// status shows as such, not as a wrong number.
#pragma once

#include <gmock/gmock.h>

#include <cmath>
#include <ostream>
#include <vector>

#include "solver/certify.h"
#include "solver/linear_program.h"
#include "solver/solution.h"

namespace haymow {

// Found by GoogleTest through the argument's namespace.
inline void PrintTo(Status status, std::ostream* out) { *out << name_of(status); }
inline void PrintTo(const Solution& solution, std::ostream* out) {
  *out << name_of(solution.status);
  if (solution.usable()) {
    *out << ", cost " << solution.cost;
  }
}
inline void PrintTo(const Bound& bound, std::ostream* out) {
  *out << (bound.side == Side::lower ? "lower" : "upper") << " side of "
       << (bound.of == Bound::Of::row ? "row " : "column ") << bound.index;
}
inline void PrintTo(const Certificate& certificate, std::ostream* out) {
  *out << "violation " << certificate.largest_violation << ", dual violation "
       << certificate.largest_dual_violation << ", lower bound " << certificate.lower_bound
       << ", gap " << certificate.relative_gap;
}

/// Equal within `tolerance` relative to the larger of 1 and the value expected.
MATCHER_P2(IsNear, expected, tolerance, "") {
  if (std::isinf(static_cast<double>(expected))) {
    return arg == expected;
  }
  return std::abs(arg - expected) <= tolerance * std::max(1.0, std::abs(double{expected}));
}

MATCHER_P(IsOptimal, cost, "is optimal at cost " + testing::PrintToString(cost)) {
  return arg.status == Status::optimal &&
         std::abs(arg.cost - cost) <= 1e-7 * std::max(1.0, std::abs(double{cost}));
}

MATCHER(IsInfeasible, "") {
  return arg.status == Status::infeasible && arg.columns.empty() && !arg.usable();
}

MATCHER(IsUnbounded, "") {
  return arg.status == Status::unbounded && arg.columns.empty() && !arg.usable();
}

MATCHER(Holds, "") { return arg.holds(); }

}  // namespace haymow
