// What the keeper has decided for one horse: feeds it must have or must not
// have, what it gets today, and what a vet has put on record.
#pragma once

#include "feeds/findings.h"
#include "feeds/map_reader.h"
#include "model/stable.h"
#include "scenarios/scenario_feed_names.h"

namespace haymow {

/// The keys `feeds`, `fed now` and `instructions` of a horse.
void read_wishes(const MapReader& horse_keys_read, const FeedNames& names, Horse& horse);

}  // namespace haymow
