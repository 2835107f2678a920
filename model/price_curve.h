// What the cheapest ration is as the price of one feed moves: at which prices it
// changes, and how.
#pragma once

#include <cstddef>
#include <vector>

#include "model/formulate.h"

namespace haymow {

/// Prices a kilogram, as bought, between which the same ration is cheapest.
struct PriceStep {
  Money from;
  Money to;
  std::vector<double> amounts;  // kg as fed eaten a day, one an offer
  Money cost_from;              // a day, at `from`
  Money cost_to;                // a day, at `to`
};

/// Steps from the lower price to the higher, each starting where the last ends; the
/// feed is never used more at a higher price. Empty when there is no ration.
/// Throws std::invalid_argument for an offer that does not exist or prices that are
/// negative or crossed.
[[nodiscard]] std::vector<PriceStep> price_curve(const RationQuestion& question,
                                                 const Formulation& formulation, std::size_t offer,
                                                 Money from, Money to);

/// A stretch of prices of one offer that is asked about.
struct PriceSpan {
  std::size_t offer = 0;
  Money from;
  Money to;
};

/// The same for many offers of one question, each from where the last ended: one entry a
/// span, in their order.
[[nodiscard]] std::vector<std::vector<PriceStep>> price_curves(const RationQuestion& question,
                                                               const Formulation& formulation,
                                                               const std::vector<PriceSpan>& spans);

}  // namespace haymow
