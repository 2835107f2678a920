// What `haymow stretch` says where there is no plan: the first day that fails, which
// horse, why, and the cheapest ways out.
#pragma once

#include "scenarios/report.h"
#include "scenarios/stretch.h"
#include "scenarios/wording.h"

namespace haymow {

[[nodiscard]] Report::Part stretch_failure_part(const Scenario& scenario,
                                                const StretchAnswer& answer, const Wording& words);

}  // namespace haymow
