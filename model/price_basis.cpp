#include "model/price_basis.h"

namespace haymow {

MoneyRange per_kg_range(const PriceBasis& basis, const std::optional<AssumedWeight>& assumed) {
  const Money planned = basis.per_kg();
  if (!basis.assumed || !assumed) return {planned, planned, planned};
  return {planned, planned * (assumed->taken / assumed->most),
          planned * (assumed->taken / assumed->least)};
}

}  // namespace haymow
