// What was asked about prices and limits, in the JSON of `haymow offers`.
#pragma once

#include "scenarios/curves.h"
#include "scenarios/report_json_parts.h"

namespace haymow {

/// `price_curves` and `limit_curves`, empty lists where nothing was asked, and
/// `left_out`: what each feed on offer that is not fed is worth.
void add_curves(Json& horse, const HorseCurves& curves, const HorseAnswer& answer);

}  // namespace haymow
