#include "solver/attempts.h"

#include <algorithm>
#include <limits>

namespace haymow {
namespace {

// From nothing there are more pivots to make (common practice, no source).
constexpr int from_nothing = 3;

struct Attempt {
  Method method;
  double tolerance;
};

enum class Outcome { answered, failed, circled };

class Turns {
 public:
  Turns(GlpkProblem& problem, const Attempts& attempts, const SolveOptions& options)
      : problem_(problem), attempts_(attempts), options_(options) {}

  Outcome take(const Attempt& attempt, int pivots) {
    SolveOptions limited = options_;
    limited.iteration_limit = std::min(options_.iteration_limit, pivots);
    solution = problem_.optimise(attempt.method, limited, attempt.tolerance);
    switch (solution.status) {
      case Status::limit_reached:
        return solution.iterations >= limited.iteration_limit ? Outcome::circled
                                                              : Outcome::answered;
      case Status::gave_up:
      case Status::not_solved:
        return Outcome::failed;
      case Status::infeasible:
        return attempts_.has_answer ? Outcome::failed : Outcome::answered;
      default:
        return Outcome::answered;
    }
  }

  Solution solution;

 private:
  GlpkProblem& problem_;
  const Attempts& attempts_;
  const SolveOptions& options_;
};

}  // namespace

Solution optimise_in_turn(GlpkProblem& problem, const Attempts& attempts,
                          const SolveOptions& options) {
  Turns turns(problem, attempts, options);
  const Method other = attempts.first == Method::primal ? Method::dual : Method::primal;
  for (const Method method : {attempts.first, other}) {
    const Outcome outcome = turns.take({method, tight_tolerance}, attempts.pivots);
    if (outcome == Outcome::answered) return turns.solution;
    if (outcome == Outcome::failed) break;
    if (attempts.is_spare) {
      turns.solution.status = Status::gave_up;
      return turns.solution;
    }
  }
  for (const Attempt& attempt :
       {Attempt{Method::primal, tight_tolerance}, Attempt{Method::primal, default_tolerance},
        Attempt{Method::dual, default_tolerance}}) {
    problem.start_afresh();
    const Outcome outcome = turns.take(attempt, from_nothing * attempts.pivots);
    if (outcome == Outcome::answered) return turns.solution;
  }
  if (attempts.to_the_end) {
    problem.start_afresh();
    (void)turns.take({Method::primal, default_tolerance}, std::numeric_limits<int>::max());
  } else {
    turns.solution.status = Status::gave_up;
  }
  return turns.solution;
}

}  // namespace haymow
