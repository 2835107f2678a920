#include "scenarios/report_json_exact.h"

#include "scenarios/exact_answer.h"

namespace haymow {

Json exact_of(const HorseAnswer& answer) {
  const ExactCheck& check = *answer.exact;
  const bool has_cost = check.status == Status::optimal && !answer.no_ration;
  return {{"confirmed", is_confirmed(answer, check)},
          {"cost_per_day", has_cost ? number(check.cost) : Json(nullptr)},
          {"difference", has_cost ? number(check.difference) : Json(nullptr)},
          {"same_basis", has_cost ? Json(check.same_basis) : Json(nullptr)}};
}

}  // namespace haymow
