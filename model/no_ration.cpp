#include "model/no_ration.h"

#include <algorithm>
#include <cmath>

#include "model/added_feeds.h"
#include "model/loosen.h"
#include "solver/certify.h"
#include "solver/conflict.h"
#include "solver/solve.h"

namespace haymow {
namespace {

// A miss is weighed by its share of the limit. Laws and dosing limits are not
// missed unless nothing else is possible.
std::vector<double> miss_weights(const RationQuestion& question, const Formulation& formulation,
                                 bool laws_hold) {
  std::vector<double> weights;
  weights.reserve(formulation.rows.size());
  for (const RowMeaning& row : formulation.rows) {
    const bool law = (row.limit && row.limit->strength == Strength::law) ||
                     row.family == RowFamily::maker || row.family == RowFamily::stock ||
                     row.family == RowFamily::grazing;
    weights.push_back(law && laws_hold ? unlimited : 1.0 / usual_size(question, row));
  }
  return weights;
}

// A clash over energy is told before one over lysine, where there are both: everybody
// knows what a fat or a thin horse is.
std::vector<Bound> harder_to_picture(const Formulation& formulation) {
  std::vector<Bound> bounds;
  for (std::size_t i = 0; i < formulation.rows.size(); ++i) {
    const RowMeaning& row = formulation.rows[i];
    if (row.family == RowFamily::need && row.nutrient != Nutrient::energy) {
      bounds.push_back({Bound::Of::row, static_cast<int>(i), row.side});
    }
  }
  return bounds;
}

}  // namespace

NoRation clash_alone(const Formulation& formulation) {
  NoRation answer;
  const auto conflict = find_conflict(formulation.program, harder_to_picture(formulation));
  if (!conflict) return answer;
  answer.conflict_is_minimal = conflict->is_minimal;
  answer.proof_strength = conflict->proof_strength;
  for (const Bound& bound : conflict->members) {
    if (bound.of != Bound::Of::row) continue;
    answer.conflict.push_back(formulation.rows[static_cast<std::size_t>(bound.index)]);
  }
  return answer;
}

NoRation explain_no_ration(const RationQuestion& question, const Formulation& formulation,
                           std::span<const Feed> known_feeds) {
  NoRation answer;
  std::vector<std::size_t> conflict_rows;
  if (const auto conflict = find_conflict(formulation.program, harder_to_picture(formulation))) {
    answer.conflict_is_minimal = conflict->is_minimal;
    answer.proof_strength = conflict->proof_strength;
    for (const Bound& bound : conflict->members) {
      if (bound.of != Bound::Of::row) continue;
      const auto index = static_cast<std::size_t>(bound.index);
      conflict_rows.push_back(index);
      answer.conflict.push_back(formulation.rows[index]);
      if (auto mend = loosened(question, formulation, index)) {
        answer.mends.push_back(std::move(*mend));
      }
    }
    answer.derivation = derive(formulation, conflict_rows, conflict->proof);
  }
  std::stable_sort(answer.mends.begin(), answer.mends.end(),
                   [](const Mend& a, const Mend& b) { return a.cost < b.cost; });
  for (Mend& mend : feeds_that_mend(question, known_feeds)) answer.mends.push_back(std::move(mend));
  if (answer.mends.empty()) {
    if (auto mend = loosened_together(question, formulation, conflict_rows)) {
      answer.mends.push_back(std::move(*mend));
    }
    if (auto mend = feeds_that_mend_together(question, known_feeds)) {
      answer.mends.push_back(std::move(*mend));
    }
  }

  Nearest nearest = nearest_to(formulation.program, miss_weights(question, formulation, true));
  if (!nearest.solution.usable()) {
    nearest = nearest_to(formulation.program, miss_weights(question, formulation, false));
  }
  if (nearest.solution.usable()) {
    answer.nearest = ration_from(question, formulation, nearest.solution.columns);
    answer.misses = broken_rows(formulation.rows, nearest.solution.columns);
  }
  return answer;
}

}  // namespace haymow
