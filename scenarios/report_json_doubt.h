// What bad batches would do, and a promise against them, as JSON.
#pragma once

#include "scenarios/report_json_parts.h"
#include "scenarios/run.h"

namespace haymow {

/// For an answer that was found.
[[nodiscard]] Json doubts_of(const HorseAnswer& answer);
/// For an answer with a promise, kept or not.
[[nodiscard]] Json promise_of(const HorseAnswer& answer);

}  // namespace haymow
