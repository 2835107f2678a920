// The soaking plan as JSON, for report_json.cpp alone.
#pragma once

#include <nlohmann/json.hpp>
#include <vector>

#include "scenarios/run.h"

namespace haymow {

/// {"feeds": [...], "hay": [...]} of one horse; for an answer that was found.
[[nodiscard]] nlohmann::ordered_json soaking_of(const HorseAnswer& answer);

/// What is soaked for all horses together, feed at one feeding and hay a day.
[[nodiscard]] nlohmann::ordered_json yard_soaking_of(const std::vector<HorseAnswer>& answers);

}  // namespace haymow
