// What `haymow offers` adds to an answer, as JSON.
#pragma once

#include "scenarios/offers.h"
#include "scenarios/report_json_parts.h"

namespace haymow {

/// What was asked for: `margin`, `count`, `without`, `with`, `from_price_list`.
[[nodiscard]] Json choice_json(const OffersOptions& options);
/// Puts `ranges`, `mixes` and `swaps` into `horse`.
void add_offers(Json& horse, const OffersAnswer& answer);

}  // namespace haymow
