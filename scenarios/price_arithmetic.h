// The sum behind a price: from what was written to what a kilogram eaten costs.
#pragma once

#include <string>

#include "model/stable.h"
#include "scenarios/wording.h"

namespace haymow {

/// "4.50 per bale: 4.50 / 18.0 kg = 0.25 a kg; 6 % lost in the store (barn) and 19 %
/// not eaten (round bale ring): 0.25 / (0.94 x 0.81) = 0.3283 a kg eaten". Empty when the
/// offer has no price.
[[nodiscard]] std::string price_arithmetic(const Offer& offer, const Wording& words);

/// True when more than a price stands behind the cost: a delivery, a loss, or a
/// weight that is not known.
[[nodiscard]] bool has_more_than_a_price(const Offer& offer);

/// What a kilogram eaten costs: as planned, and as far as the weight of a bale and
/// the published losses leave it open.
[[nodiscard]] MoneyRange cost_per_kg_eaten_range(const Offer& offer);

}  // namespace haymow
