// Mending a clash by feeds of the table that are not on offer: which, and how little of
// them. What they would cost nobody has told.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "model/mend.h"

namespace haymow {

/// The feeds that mend it alone, each with the least of it a day, solved and certified:
/// one of each group, at most three, the least first.
[[nodiscard]] std::vector<Mend> feeds_that_mend(const RationQuestion& question,
                                                std::span<const Feed> known_feeds);

/// Several feeds together, for where none does it alone: the lightest mix of all, then
/// each left out that can be. Nothing when even all of them do not mend it.
[[nodiscard]] std::optional<Mend> feeds_that_mend_together(const RationQuestion& question,
                                                           std::span<const Feed> known_feeds);

}  // namespace haymow
