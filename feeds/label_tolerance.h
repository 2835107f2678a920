// What a bag may lawfully hold of an additive that its label declares.
#pragma once

#include <optional>

#include "model/nutrient.h"

namespace haymow {

/// Per kg as fed, in the nutrient's unit.
struct BagContent {
  double least = 0.0;
  std::optional<double> most;  // absent: the law sets no end
};

/// From what is declared per kg as fed. Vitamins may be 30 % short, trace elements
/// 50 % either way, vitamin D 50 % either way up to 4,000 IU/kg (label-tolerances-2006).
/// Absent for anything else, and for more vitamin D, of which the source says nothing.
[[nodiscard]] std::optional<BagContent> bag_content(Nutrient nutrient, double declared_per_kg);

}  // namespace haymow
