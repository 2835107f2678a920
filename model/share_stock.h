// Who gets the hay: when the barn has to last the season, one program over all
// horses says how much of each stock every horse may have a day.
#pragma once

#include <optional>
#include <vector>

#include "model/formulate.h"

namespace haymow {

/// For each question, which stands for one horse on `days` days of the season (by
/// default on all of them), the most of each offer a day as put out; an empty list
/// where no stock is short, and for a horse that has no ration however much there
/// is. Stocks that last the season however the horses are fed cheapest are left
/// free. When they do not, the split is the one that makes the whole yard's feed
/// cheapest; if no split feeds every horse, or there are more than
/// `most_horses_split_exactly`, each gets its share by bodyweight.
/// A horse may have several questions, for different days: each of its days has the
/// share of its question. Offers are the same list in every question, but for the
/// grass of the day, which comes last.
struct StockShares {
  std::vector<std::vector<std::optional<KgAsFed>>> a_day;  // [horse][offer]
  bool cheapest = true;                                    // false: split by bodyweight
};
inline constexpr std::size_t most_horses_split_exactly = 250;
[[nodiscard]] StockShares share_stock(const std::vector<RationQuestion>& questions, Days season,
                                      const std::vector<Days>& days = {});

}  // namespace haymow
