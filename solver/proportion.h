// When one program is another with every bound multiplied: then the sum of their
// answers is an answer of the first with the bounds added up, and every answer of
// that one divides into answers of both, because the set of answers is convex. So
// many alike may be solved as one, exactly.
#pragma once

#include <optional>

#include "solver/linear_program.h"

namespace haymow {

/// The factor k > 0 by which every bound of `other` is that of `base`, columns and
/// rows taken in their order, where coefficients and costs are the same (1e-12
/// relative); names do not matter. 1 where no finite bound but 0 tells a factor.
/// Nothing when there is no such factor, or when a column is whole: whole numbers
/// are not convex.
[[nodiscard]] std::optional<double> proportion(const LinearProgram& base,
                                               const LinearProgram& other);

}  // namespace haymow
