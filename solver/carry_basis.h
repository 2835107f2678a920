// The basis of one program as a start for another that shares most of its rows and
// columns, by their names.
#pragma once

#include <optional>

#include "solver/linear_program.h"
#include "solver/solution.h"

namespace haymow {

/// What both programs have keeps its status; a new row is slack, a new column stands
/// at a bound it has. Absent when the basis is not of `from`, or when a row is gone
/// that held the answer, so that as many basic ones as rows can no longer be told:
/// then a start from nothing is as good. What is returned need not be feasible.
[[nodiscard]] std::optional<Basis> carry_basis(const LinearProgram& from, const Basis& basis,
                                               const LinearProgram& to);

}  // namespace haymow
