// The prices of a scenario's feeds as JSON, for report_json.cpp alone.
#pragma once

#include "scenarios/report_json_parts.h"

#include "scenarios/scenario.h"

namespace haymow {

/// One object for each feed on offer, the cheapest energy first; money and shares
/// at full precision. The keys are in docs/reference/report.schema.json.
[[nodiscard]] Json prices_of(const Scenario& scenario);

}  // namespace haymow
