// The pictures of a ration: each need as a ruler, and where the money goes.
#pragma once

#include "scenarios/report.h"
#include "scenarios/wording.h"

namespace haymow {

/// Every need that has a floor or a ceiling, beside what the ration to feed supplies.
[[nodiscard]] Section need_rulers(const HorseAnswer& answer);

/// What every feed of the ration costs a day, dearest first.
[[nodiscard]] Section money_by_feed(const HorseAnswer& answer, const Wording& words);

}  // namespace haymow
