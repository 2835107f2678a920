// Money in whole hundredths, so that the parts of a bill add up to its total. Each part
// is rounded down, and the hundredths left over go to the largest remainders (the method
// of Hamilton, as seats are shared out).
#pragma once

#include <cstdint>
#include <vector>

#include "model/units.h"

namespace haymow {

/// Hundredths of the currency.
using Pennies = std::int64_t;

[[nodiscard]] Pennies nearest_penny(Money money);

/// `total` divided in the proportion of `parts`, none of which is below zero: each within
/// a hundredth of its exact share, together the total. Of equal remainders the earlier
/// part has the first. Parts that are all zero get equal shares. Throws
/// std::invalid_argument for a part below zero or not finite, or a total without parts.
[[nodiscard]] std::vector<Pennies> divide(Pennies total, const std::vector<double>& parts);

}  // namespace haymow
