// Rows that say nothing the others do not say: left out, the same points remain.
#pragma once

#include <vector>

#include "solver/linear_program.h"

namespace haymow {

/// One a row: true where the rows marked false and the columns' bounds imply it, each
/// found by going as far against the row as the others let one (1e-10 relative).
/// Of several rows that imply one another one stays. All false where the program has
/// no answer or the arithmetic fails. Ignores wholeness.
[[nodiscard]] std::vector<bool> implied_rows(const LinearProgram& program);

}  // namespace haymow
