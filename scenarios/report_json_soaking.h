// The soaking plan as JSON, for report_json.cpp alone.
#pragma once

#include <vector>

#include "scenarios/report_json_parts.h"
#include "scenarios/run.h"

namespace haymow {

/// {"feeds": [...], "hay": [...]} of one horse; for an answer that was found.
[[nodiscard]] Json soaking_of(const HorseAnswer& answer);

/// What is soaked for all horses together, feed at one feeding and hay a day.
[[nodiscard]] Json yard_soaking_of(const std::vector<HorseAnswer>& answers);

}  // namespace haymow
