// A clash of demands and its ways out as JSON.
#pragma once

#include "model/no_ration.h"
#include "scenarios/report_json_parts.h"

namespace haymow {

/// null where no chain was certified.
[[nodiscard]] Json derivation_of(const NoRation& no, const std::vector<Offer>& offers);
[[nodiscard]] Json mend_of(const Mend& mend);

}  // namespace haymow
