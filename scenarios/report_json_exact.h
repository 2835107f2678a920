// What solving again in fractions came to, as JSON.
#pragma once

#include "scenarios/report_json_parts.h"
#include "scenarios/run.h"

namespace haymow {

/// Nulls where there is no ration, or where it did not finish.
[[nodiscard]] Json exact_of(const HorseAnswer& answer);

}  // namespace haymow
