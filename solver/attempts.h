// Private to solver/. A problem that is solved many times over, each time moved a little:
// where a simplex method goes round in circles or its arithmetic fails, other ways follow.
#pragma once

#include "solver/glpk_problem.h"

namespace haymow {

struct Attempts {
  Method first = Method::primal;
  /// Of one attempt; more are thought to be round in circles. The last attempt, made where
  /// `to_the_end`, has no such limit.
  int pivots = 0;
  /// The problem has an answer, so that `infeasible` is rounding.
  bool has_answer = false;
  /// Nothing is lost without an answer: `gave_up` after the first round in circles.
  bool is_spare = false;
  bool to_the_end = true;
};

/// From where the problem stands by `first`, then by the other method; from nothing by
/// both, at last with the default tolerances. Statuses as of GlpkProblem::optimise();
/// `gave_up` also where all attempts went round in circles.
[[nodiscard]] Solution optimise_in_turn(GlpkProblem& problem, const Attempts& attempts,
                                        const SolveOptions& options);

}  // namespace haymow
