// The grazing of one horse in a scenario file: hours of turnout, the state of the
// grass and a muzzle, for all months or month by month.
#pragma once

#include "feeds/map_reader.h"
#include "model/stable.h"
#include "scenarios/scenario_horse.h"

namespace haymow {

/// Reads `grazing` of a horse, if it has it. Whatever is wrong is reported.
void read_grazing(const MapReader& horse_keys_read, const SeasonStart& season, Horse& horse);

}  // namespace haymow
