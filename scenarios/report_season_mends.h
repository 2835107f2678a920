// What would mend a season without a plan, in sentences: `haymow winter` and `haymow
// stretch` tell it alike.
#pragma once

#include <optional>
#include <vector>

#include "model/season_mends.h"
#include "scenarios/report.h"
#include "scenarios/scenario.h"
#include "scenarios/wording.h"

namespace haymow {

/// The mends, the cheapest first, and behind them a faster change, for a vet to judge.
/// `mends` absent: none were looked for.
[[nodiscard]] std::vector<Section> mend_sections(const Scenario& scenario,
                                                 const SeasonQuestion& question,
                                                 const std::optional<SeasonMends>& mends,
                                                 const Wording& words);

}  // namespace haymow
