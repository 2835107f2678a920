// What the practical ration adds to a horse's JSON: steps, meals, forage in lots,
// the gap. Keys only ever get added.
#pragma once

#include "scenarios/report_json_parts.h"

#include "scenarios/run.h"

namespace haymow {

/// Adds its keys to `out`, the horse's `practical` object; for an answer that has
/// a practical ration.
void add_steps_and_meals(Json& out, const HorseAnswer& answer);

}  // namespace haymow
