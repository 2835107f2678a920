#include "scenarios/order_chances.h"

namespace haymow {

std::vector<OrderChance> order_chances(const WinterAnswer& answer) {
  std::vector<OrderChance> all;
  for (std::size_t f = 0; f < answer.question.offers.size(); ++f) {
    OrderChance one;
    one.offer = f;
    for (const OrderLine& order : answer.plan.orders) {
      if (order.offer != f) continue;
      one.plan.kg += order.amount.in_kg();
      if (order.packs) one.plan.packs = one.plan.packs.value_or(0) + *order.packs;
    }
    if (answer.chances->enough) one.enough = answer.chances->enough->as_told[f];
    if (one.plan.kg > 0.0 || (one.enough && one.enough->kg > 0.0)) all.push_back(one);
  }
  return all;
}

}  // namespace haymow
