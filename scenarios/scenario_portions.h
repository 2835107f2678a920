// What a keeper deals out by the piece, and how the day's buckets are split over
// its meals.
#pragma once

#include "feeds/map_reader.h"
#include "model/stable.h"

namespace haymow {

/// Reads `scoop`, `slice` or `whole bale` of an offer: its weight. Reported: two of
/// them, a scoop of hay, or a slice of what is not long forage.
void read_whole_portion(const MapReader& map, Offer& offer, Findings& findings);

/// Reads a horse's `bucket feeds`, and its `meals` where they are a list of shares:
/// `[20 %, 40 %, 40 %]` or `{breakfast: 20 %, supper: 80 %}`. Reported: shares that do not add up
/// to 100 %, none or too many.
void read_portions_of_day(const MapReader& map, Horse& horse, Findings& findings);

}  // namespace haymow
