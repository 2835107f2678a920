// What to feed, as a section of the ration report: how much of each feed a day
// and a meal, what it costs, and what weighing in whole steps adds to the cost.
#pragma once

#include "scenarios/report.h"
#include "scenarios/wording.h"

namespace haymow {

/// For an answer that was found.
[[nodiscard]] Section amounts_section(const HorseAnswer& answer, const Wording& words);

}  // namespace haymow
