// What is lost of a feed on its way to the horse: `waste` or `fed from`, `storage
// loss` or `stored`, and hay that is soaked before feeding.
#pragma once

#include "feeds/map_reader.h"
#include "model/stable.h"

namespace haymow {

/// Reads those keys of `map` into `offer`, whose feed and name are known. A loss
/// that comes from a published range is remarked with the range and its source.
void read_handling(const MapReader& map, Offer& offer, Findings& findings);

}  // namespace haymow
