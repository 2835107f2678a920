// The order that is enough in nine winters of ten, beside that of the plan.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "scenarios/winter.h"

namespace haymow {

struct OrderChance {
  std::size_t offer = 0;
  EnoughAmount plan;
  std::optional<EnoughAmount> enough;  // absent: too few winters have a plan
};

/// The feeds that the plan or the order that is enough buys, as they are in the file.
[[nodiscard]] std::vector<OrderChance> order_chances(const WinterAnswer& answer);

}  // namespace haymow
