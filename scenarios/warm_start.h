// Where the search for a ration can start, when much the same has been answered
// before: the same feeds at their limits as then.
#pragma once

#include <optional>
#include <vector>

#include "scenarios/run.h"

namespace haymow {

/// The basis of the answer to the same horse, carried over to `program`; absent where
/// `before` is null or has none that fits.
[[nodiscard]] std::optional<Basis> start_for(const RationQuestion& question,
                                             const LinearProgram& program,
                                             const std::vector<HorseAnswer>* before);

}  // namespace haymow
