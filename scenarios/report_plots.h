// The plots of a page: what a price and a limit do to a ration, and how the stores empty
// over a season.
#pragma once

#include <vector>

#include "model/season_plan.h"
#include "scenarios/curves.h"
#include "scenarios/pictures.h"
#include "scenarios/scenario.h"
#include "scenarios/wording.h"

namespace haymow {

/// Feeds of a ration that a plot tells apart by their lines.
inline constexpr std::size_t most_lines_told_apart = 4;

/// The amounts put out and the cost a day over the price of the feed by its pack; the
/// feeds that change most. None where nothing moves.
[[nodiscard]] std::vector<Plot> price_plots(const PricePath& path, const Wording& words);

/// The cost a day over where the limit lies. None where there are no rations.
[[nodiscard]] std::vector<Plot> limit_plots(const LimitPath& path, const Wording& words);

/// One a feed that is ever in store: what lies there at the end of each week, and the
/// weeks in which it comes. A mark where it first runs out before the season does.
[[nodiscard]] std::vector<Plot> stock_plots(const Scenario& scenario,
                                            const SeasonQuestion& question, const SeasonPlan& plan);

}  // namespace haymow
