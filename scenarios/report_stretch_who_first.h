// Which horse is to have a short feed first, and what it is worth to each.
#pragma once

#include "scenarios/report.h"
#include "scenarios/stretch.h"
#include "scenarios/wording.h"

namespace haymow {

[[nodiscard]] Report::Part stretch_who_first_part(const StretchAnswer& answer,
                                                  const Wording& words);

}  // namespace haymow
