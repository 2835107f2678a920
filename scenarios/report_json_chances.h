// What the JSON of `haymow winter` has of a winter that is only known as ranges.
#pragma once

#include "scenarios/report_json_parts.h"
#include "scenarios/winter.h"

namespace haymow {

/// Null where nothing was drawn.
[[nodiscard]] Json chances_json(const Scenario& scenario, const WinterAnswer& answer);

}  // namespace haymow
