#include "scenarios/warm_start.h"

#include "solver/carry_basis.h"

namespace haymow {
namespace {

std::optional<Basis> carried(const HorseAnswer& answer, const LinearProgram& program) {
  if (!answer.solution.basis) return std::nullopt;
  return carry_basis(answer.formulation.program, *answer.solution.basis, program);
}

}  // namespace

std::optional<Basis> start_for(const RationQuestion& question, const LinearProgram& program,
                               const std::vector<HorseAnswer>* before) {
  if (before == nullptr) return std::nullopt;
  for (const HorseAnswer& answer : *before) {
    if (answer.question.horse.name != question.horse.name) continue;
    if (auto basis = carried(answer, program)) return basis;
    for (const HorseAnswer& other : answer.other_spells) {
      if (auto basis = carried(other, program)) return basis;
    }
  }
  return std::nullopt;
}

}  // namespace haymow
