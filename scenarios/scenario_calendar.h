// What changes in a horse through the season: `calendar`, `foaling`, `weaned`.
#pragma once

#include "feeds/map_reader.h"
#include "model/stable.h"
#include "scenarios/scenario_horse.h"

namespace haymow {

/// Reads the three keys of a horse whose stage has been read; with `foaling` the stage
/// becomes that of the first day. They need a season; what is wrong is reported.
void read_calendar(const MapReader& map, const SeasonStart& season, Horse& horse);

}  // namespace haymow
