// A program as text that other solvers read, so that anyone can check an answer.
#pragma once

#include <string>

#include "solver/linear_program.h"

namespace haymow {

/// CPLEX LP format. Names are made of letters, digits and `_`; where that
/// changes a name, a comment at the head gives the original.
[[nodiscard]] std::string to_cplex_lp(const LinearProgram& program);

/// Free MPS format, minimising. Names as for to_cplex_lp.
[[nodiscard]] std::string to_free_mps(const LinearProgram& program);

}  // namespace haymow
