// The JSON of `haymow stretch`, beside the head that every document has.
#pragma once

#include <string_view>

#include "scenarios/report_json_parts.h"
#include "scenarios/stretch.h"

namespace haymow {

void add_stretch(Json& document, const Scenario& scenario, const StretchAnswer& answer);

/// "found" only when no horse is left out; else as SeasonStatus has it.
[[nodiscard]] std::string_view stretch_status(const StretchAnswer& answer);

}  // namespace haymow
