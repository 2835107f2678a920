// Grass and the months of a season in the JSON of a ration.
#pragma once

#include "scenarios/report_json_parts.h"
#include "scenarios/run.h"

namespace haymow {

/// Adds `grazing`, for a horse at grass, and `months`, where they are fed unlike.
void add_grazing(Json& horse, const HorseAnswer& answer);

}  // namespace haymow
