#include "scenarios/promise_check.h"

#include <algorithm>

namespace haymow {

PromiseCheck check_promise(const HorseAnswer& answer) {
  PromiseCheck check;
  const std::vector<Nutrient>& guarded = answer.promise->promise.guarded;
  for (const SimulatedFloor& floor :
       simulate(answer.question, answer.amounts_to_feed(), promise_draws, promise_seed)) {
    if (floor.nutrient == Nutrient::energy && answer.promise->promise.energy_left_out) {
      check.energy_kept = floor.kept;
    }
    if (std::find(guarded.begin(), guarded.end(), floor.nutrient) == guarded.end()) continue;
    check.floors.push_back(floor);
    if (!check.least_kept || floor.kept < check.least_kept->kept) check.least_kept = floor;
  }
  return check;
}

}  // namespace haymow
