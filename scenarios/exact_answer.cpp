#include "scenarios/exact_answer.h"

#include <algorithm>
#include <vector>

namespace haymow {

bool is_confirmed(const HorseAnswer& answer, const ExactCheck& check) {
  return answer.no_ration ? check.status == Status::infeasible : check.confirms_cost();
}

bool confirmed_exactly(HorseAnswer& answer) {
  if (!answer.no_ration) {
    answer.exact = check_exactly(answer.formulation.program, answer.solution);
    return is_confirmed(answer, *answer.exact);
  }
  const auto& conflict = answer.no_ration->conflict;
  std::vector<std::size_t> rows;
  for (std::size_t i = 0; i < answer.formulation.rows.size(); ++i) {
    const RowMeaning& row = answer.formulation.rows[i];
    const bool clashes = std::any_of(conflict.begin(), conflict.end(),
                                     [&](const RowMeaning& c) { return c.id == row.id; });
    if (clashes) rows.push_back(i);
  }
  answer.exact = check_clash_exactly(answer.formulation.program, rows);
  return is_confirmed(answer, *answer.exact);
}

}  // namespace haymow
