// How much of each feed a small yard buys in the season when all of it comes in whole
// packs: all feeds at once, as a pack less of one is often paid for with two of another.
//
// By branch and cut on the program of the spells, with a whole number of packs a feed.
// Prices by quantity and loads are in it as in the relaxation, at their best; so the
// answer is a proposal, and what it costs is found by ordering it (season_orders.h).
#pragma once

#include <optional>
#include <vector>

#include "model/season_relaxation.h"

namespace haymow {

/// kg through the gate, at most, for each offer; nothing where it is not bought in packs.
using SeasonTotals = std::vector<std::optional<KgAsFed>>;

/// Nothing for a yard too large to be searched, or where no such totals were found. Same
/// question, same answer: the search is bounded by pivots, and by the clock only where
/// that is sooner.
[[nodiscard]] std::optional<SeasonTotals> cheapest_totals(const SeasonQuestion& question,
                                                          const SeasonParts& parts,
                                                          const Spells& spells,
                                                          const SeasonChoices& choices,
                                                          const SeasonClock& clock);

}  // namespace haymow
