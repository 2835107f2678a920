// Up to which price bought hay is worth it in the plan.
#pragma once

#include "scenarios/report.h"
#include "scenarios/stretch.h"
#include "scenarios/wording.h"

namespace haymow {

[[nodiscard]] Report::Part stretch_prices_part(const StretchAnswer& answer, const Wording& words);

}  // namespace haymow
