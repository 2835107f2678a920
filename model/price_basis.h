// How a price came about, so that a report can show the sum: what was written, the
// weight it was divided by, and whether that weight was known.
#pragma once

#include <optional>
#include <string>

#include "model/units.h"

namespace haymow {

/// What a pack weighs where nobody has weighed it: the published range, and the
/// figure the plan uses.
struct AssumedWeight {
  std::string pack;  // "round bale"
  KgAsFed taken;     // the light end: the barn then lasts, and the price is not understated
  KgAsFed least;
  KgAsFed most;
  std::string source;
};

/// A sum of money for an amount of feed: a price, or what a load costs to bring.
struct PriceBasis {
  std::string written;  // "4.50 per bale"
  Money money;          // for all of `amount`
  KgAsFed amount;
  bool assumed = false;  // `amount` rests on an assumed weight of the pack

  [[nodiscard]] Money per_kg() const { return money / amount.in_kg(); }
};

/// Money a kilogram: as planned, and as far as the weight of a bale leaves it open.
struct MoneyRange {
  Money planned;
  Money least;
  Money most;
  [[nodiscard]] bool is_open() const { return least < most; }
};

/// `basis` per kg, at the heaviest and the lightest that the pack may be.
[[nodiscard]] MoneyRange per_kg_range(const PriceBasis& basis,
                                      const std::optional<AssumedWeight>& assumed);

}  // namespace haymow
