// One feed's stock through a season, kilogram by kilogram: what came when, the oldest
// fed first, what is too old thrown away.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "model/season_plan.h"

namespace haymow {

/// What is taken out of the store of one feed, kg a week after what the store loses.
struct FeedDemand {
  std::vector<double> put_out;
  std::vector<double> thrown_away;  // of packs that did not keep once open
};

/// The stock when `bought` kg come through the gate in each week; nothing when it runs
/// out. What the store will lose of stock on hand or bought is taken off at once.
[[nodiscard]] std::optional<std::vector<StockWeek>> stock_of(const SeasonQuestion& question,
                                                             std::size_t offer,
                                                             const FeedDemand& demand,
                                                             const std::vector<double>& bought);

/// The first week in which something is short; the number of weeks when nothing is.
[[nodiscard]] std::size_t first_short_week(const SeasonQuestion& question, std::size_t offer,
                                           const FeedDemand& demand,
                                           const std::vector<double>& bought);

/// What has to come in week `week` beside `bought` so that nothing is short through week
/// `through`, kg through the gate; nothing when what comes then would be too old.
[[nodiscard]] std::optional<double> needed_in(const SeasonQuestion& question, std::size_t offer,
                                              const FeedDemand& demand,
                                              const std::vector<double>& bought, std::size_t week,
                                              std::size_t through);

/// What an order of so much in that week costs.
struct OrderCost {
  double goods = 0.0;
  double delivery = 0.0;
};
[[nodiscard]] OrderCost order_cost(const SeasonQuestion& question, std::size_t offer,
                                   std::size_t week, double kg);

/// Money for what was on hand and is gone by the end: eaten, wasted, spoiled.
[[nodiscard]] double opening_cost(const SeasonQuestion& question, std::size_t offer,
                                  const std::vector<StockWeek>& stock);

/// The largest |opening + bought - lost - put out - spoiled - closing|, kg.
[[nodiscard]] double largest_imbalance(const std::vector<std::vector<StockWeek>>& stock);

}  // namespace haymow
