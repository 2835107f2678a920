// What to have in the yard so that nine winters in ten can be fed from it, whatever each
// turns out to be. Not a plan: nobody buys it all at once.
#pragma once

#include <optional>

#include "model/season_chance.h"
#include "model/season_relaxation.h"

namespace haymow {

/// Of every feed as much as so many of the draws bought; of all feeds the same count of
/// draws, the least with which most_winters of the draws are fed by all of it at once. A
/// draw is known to be when it bought no more of anything, or when it has a plan that does
/// not. Once the clock has run out none are planned, and the order is the larger for it.
/// Absent: too few draws have a plan. `as_told` has the packs of the order.
[[nodiscard]] std::optional<EnoughOrder> order_enough(const SeasonQuestion& as_told,
                                                      const SeasonOfDraw& season,
                                                      const std::vector<SeasonDraw>& draws,
                                                      const SeasonClock& clock);

}  // namespace haymow
