// One horse of a ration, and what was found in a file, as JSON.
#pragma once

#include <vector>

#include "feeds/diagnostic.h"
#include "scenarios/report_json_parts.h"
#include "scenarios/run.h"

namespace haymow {

/// All that `haymow ration --format json` says of a horse.
[[nodiscard]] Json answer_of(const HorseAnswer& answer);

/// One object a mistake or remark.
[[nodiscard]] Json diagnostics_of(const std::vector<Diagnostic>& diagnostics);

}  // namespace haymow
