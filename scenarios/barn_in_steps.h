// Whole steps and a barn that has to last the season. The continuous rations
// share the barn to the gram; in whole steps each horse may round up. This keeps
// the yard's total within the barn where it can, and measures what is lacking
// where it cannot.
#pragma once

#include <optional>
#include <vector>

#include "scenarios/run.h"

namespace haymow {

/// Lets whole steps have what no question's share takes of a stock, split alike.
/// `days`: of the season, for which each question is; empty: all.
void share_what_is_spare(std::vector<RationQuestion>& questions, Days season,
                         const std::vector<Days>& days);

/// Where the rations in whole steps take more of a stock in the season than there
/// is, asks the horses in the order of the file for one that takes less, until it
/// lasts. Costs may rise by a little; the limits are all kept. Spells of other grass
/// count with their days.
void keep_to_the_barn(std::vector<HorseAnswer>& answers, Days season);

/// How much more of `offer` a day, over the season, the rations to feed put out than there is for
/// each day of the season; nothing where it lasts.
[[nodiscard]] std::optional<KgAsFed> over_the_barn(const std::vector<HorseAnswer>& answers,
                                                   std::size_t offer, Days season);

}  // namespace haymow
