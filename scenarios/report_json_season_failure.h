// Why a season has no plan, and what would mend it, as JSON.
#pragma once

#include <optional>

#include "model/season_mends.h"
#include "scenarios/report_json_parts.h"
#include "scenarios/scenario.h"

namespace haymow {

/// null without a failure.
[[nodiscard]] Json season_failure_json(const Scenario& scenario, const SeasonQuestion& question,
                                       const std::optional<SeasonFailure>& failure,
                                       const std::optional<SeasonMends>& mends);

}  // namespace haymow
