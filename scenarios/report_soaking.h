// What has to be soaked, how long before it is fed and in how much water: the
// section of its own in the report of a ration.
#pragma once

#include "scenarios/report.h"
#include "scenarios/wording.h"

namespace haymow {

/// What to soak for one horse; empty when nothing is. For an answer that was found.
[[nodiscard]] Section soaking_section(const HorseAnswer& answer, const Wording& words);

}  // namespace haymow
