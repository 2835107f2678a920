// The JSON of `haymow winter`, beside the head that every document has.
#pragma once

#include <string_view>

#include "scenarios/report_json_parts.h"
#include "scenarios/winter.h"

namespace haymow {

void add_winter(Json& document, const Scenario& scenario, const WinterAnswer& answer);

/// "found" only when no horse is left out; else as SeasonStatus has it.
[[nodiscard]] std::string_view winter_status(const WinterAnswer& answer);

}  // namespace haymow
