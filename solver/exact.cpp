#include "solver/exact.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "solver/certify.h"
#include "solver/glpk_problem.h"

namespace haymow {
namespace {

Solution solved_exactly(GlpkProblem& problem, double time_limit_seconds) {
  SolveOptions options;
  options.time_limit_seconds = time_limit_seconds;
  return problem.optimise_exactly(options);
}

}  // namespace

bool ExactCheck::confirms_cost() const {
  return status == Status::optimal &&
         std::abs(difference) <= certificate_tolerance * std::max(1.0, std::abs(cost));
}

ExactCheck check_exactly(const LinearProgram& program, const Solution& solution,
                         double time_limit_seconds) {
  ExactCheck check;
  if (solution.status != Status::optimal || !solution.basis || program.has_whole_columns()) {
    return check;
  }
  GlpkProblem problem(program, Wholeness::ignore);
  problem.start_from(*solution.basis);
  const Solution exact = solved_exactly(problem, time_limit_seconds);
  check.status = exact.status;
  check.iterations = exact.iterations;
  if (exact.status != Status::optimal) return check;
  check.cost = exact.cost;
  check.difference = solution.cost - exact.cost;
  check.same_basis = exact.basis && exact.basis->columns == solution.basis->columns &&
                     exact.basis->rows == solution.basis->rows;
  return check;
}

ExactCheck check_clash_exactly(const LinearProgram& program, std::span<const std::size_t> rows,
                               double time_limit_seconds) {
  LinearProgram alone;
  for (const Column& column : program.columns()) {
    alone.add_column({.name = column.name, .lower = column.lower, .upper = column.upper});
  }
  for (const std::size_t row : rows) {
    if (row >= program.rows().size()) throw std::out_of_range("no such row of the program");
    alone.add_row(program.rows()[row]);
  }
  ExactCheck check;
  GlpkProblem problem(alone, Wholeness::ignore);
  const Solution exact = solved_exactly(problem, time_limit_seconds);
  check.status = exact.status;
  check.iterations = exact.iterations;
  return check;
}

}  // namespace haymow
