// What a feed on offer costs and how much of it there is: `price`, `delivery` and
// `on hand`, brought to kilograms; what a pack weighs where it is not written.
#pragma once

#include "feeds/map_reader.h"
#include "model/stable.h"

namespace haymow {

/// Reads the three keys of `map` into `offer`, whose feed and name are known.
/// A weight that has to be assumed is remarked with its range and source; one that
/// cannot be assumed is a mistake.
void read_stock_and_price(const MapReader& map, Offer& offer, Findings& findings);

}  // namespace haymow
