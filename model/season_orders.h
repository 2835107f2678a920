// Orders as people give them: whole packs, at the price of the day and the quantity,
// with delivery, as few as cost the same, for what is fed week by week.
//
// One feed at a time, by the cheapest chain of orders, each of which covers the weeks
// to the next (Wagner & Whitin 1958, from memory); with charges and packs that carry
// over it is a good rule and not a proof, so a plan's cost is always told beside the
// bound of the relaxation.
#pragma once

#include <optional>
#include <vector>

#include "model/season_stock.h"

namespace haymow {

/// kg through the gate, [offer][week].
using Bought = std::vector<std::vector<double>>;

/// Nothing where the stores, the budget or the market do not allow it. `suggested` is
/// what the relaxation buys; taken, rounded up, where it is the cheaper or the only way.
[[nodiscard]] std::optional<Bought> order_season(const SeasonQuestion& question,
                                                 const std::vector<FeedDemand>& demand,
                                                 const Bought& suggested, Packs packs);

/// All that is bought and delivered, and what was on hand and is gone.
[[nodiscard]] double cost_of(const SeasonQuestion& question, const std::vector<FeedDemand>& demand,
                             const Bought& bought);

/// The order lines of what is bought, by week, then offer.
[[nodiscard]] std::vector<OrderLine> order_lines(const SeasonQuestion& question,
                                                 const Bought& bought, Packs packs);

}  // namespace haymow
