// The points of the curves as CSV (RFC 4180), for a spreadsheet or a plotting program:
// a line a point, a column a feed.
#pragma once

#include <string>
#include <vector>

#include "scenarios/offers.h"

namespace haymow {

/// `money`: the code of the currency. Columns: horse, curve (price or limit), of, at, unit,
/// cost_per_day, then the kilograms put out of each feed. Where amounts jump a price has two lines:
/// before and beyond.
[[nodiscard]] std::string curves_csv(const std::vector<OffersAnswer>& answers,
                                     const std::string& money);

}  // namespace haymow
