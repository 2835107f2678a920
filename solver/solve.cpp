#include "solver/solve.h"

#include <algorithm>
#include <chrono>
#include <optional>
#include <utility>

#include "solver/glpk_problem.h"

namespace haymow {
namespace {

/// What is left of the time limit of one solve of several attempts.
class Deadline {
 public:
  explicit Deadline(SolveOptions options) : options_(std::move(options)) {}

  [[nodiscard]] SolveOptions remaining() const {
    const std::chrono::duration<double> spent = std::chrono::steady_clock::now() - start_;
    SolveOptions rest = options_;
    rest.time_limit_seconds = std::max(0.0, options_.time_limit_seconds - spent.count());
    return rest;
  }

 private:
  SolveOptions options_;
  std::chrono::steady_clock::time_point start_ = std::chrono::steady_clock::now();
};

/// Simplex by `first`; by the primal method when the dual one cannot tell why
/// there is no answer; and once more from a fresh basis, with the default
/// tolerances, when the arithmetic fails.
Solution simplex(GlpkProblem& problem, Method first, const Deadline& deadline,
                 const SolveOptions& options) {
  Solution solution = problem.optimise(first, options);
  int iterations = solution.iterations;
  if (solution.status == Status::not_solved) {
    solution = problem.optimise(Method::primal, deadline.remaining());
    iterations += solution.iterations;
  }
  if (solution.status == Status::gave_up || solution.status == Status::not_solved) {
    problem.start_afresh();
    solution = problem.optimise(Method::primal, deadline.remaining(), default_tolerance);
    iterations += solution.iterations;
  }
  if (solution.status == Status::not_solved) {
    solution.status = Status::gave_up;
  }
  solution.iterations = iterations;
  return solution;
}

Solution branch_and_cut(GlpkProblem& problem, const Solution& relaxation,
                        const Deadline& deadline) {
  if (relaxation.status == Status::optimal) {
    Solution solution = problem.optimise_whole(deadline.remaining());
    solution.iterations += relaxation.iterations;
    return solution;
  }
  // A feasible point of the relaxation is not one of the program: say only why.
  Solution solution;
  solution.status = relaxation.status;
  solution.iterations = relaxation.iterations;
  return solution;
}

}  // namespace

Solution solve(const LinearProgram& program, const SolveOptions& options) {
  const Deadline deadline(options);
  const bool is_whole = program.has_whole_columns();
  GlpkProblem problem(program, is_whole ? Wholeness::heed : Wholeness::ignore);
  if (options.start != nullptr) {
    problem.start_from(*options.start);
  }
  const Method first = options.primal_first ? Method::primal : Method::dual;
  Solution solution = simplex(problem, first, deadline, options);
  return is_whole ? branch_and_cut(problem, solution, deadline) : solution;
}

namespace {
// Each move of a column in the basis costs about a pivot.
constexpr std::size_t most_moves = 4;
constexpr int most_kept = 50;
}  // namespace

struct WarmSolver::State {
  State(LinearProgram given, SolveOptions chosen)
      : program(std::move(given)), options(std::move(chosen)) {
    options.start = nullptr;  // may not outlive the call that brought it
    problem.emplace(program, Wholeness::ignore);
  }

  LinearProgram program;
  SolveOptions options;
  std::optional<GlpkProblem> problem;
  // After an optimum, dearer or cheaper columns leave it feasible: the primal
  // method goes on from there. Moved bounds leave it dual feasible instead.
  bool is_primal_feasible = false;
  // The last optimum, while nothing but costs has moved, and by how much they have.
  std::optional<Solution> optimum;
  std::vector<CostMove> moves;
  int kept = 0;  // how often it has served since it was solved for

  void bounds_moved() {
    is_primal_feasible = false;
    optimum.reset();
  }

  // Where the basis stays the best, the simplex method has nothing to do: a price
  // moved and solved again takes a fraction of the time. Brought up to date too
  // often, duals lose figures.
  bool keeps_optimum() {
    if (!optimum || moves.size() > most_moves || kept >= most_kept) {
      return false;
    }
    ++kept;
    return problem->stays_optimal(*optimum, moves);
  }
};

WarmSolver::WarmSolver(const LinearProgram& program, const SolveOptions& options)
    : state_(std::make_unique<State>(program, options)) {
  if (options.start != nullptr) {
    state_->problem->start_from(*options.start);
  }
}

WarmSolver::~WarmSolver() = default;

void WarmSolver::set_cost(int column, double cost) {
  State& state = *state_;
  const bool exists = column >= 0 && column < state.program.column_count();
  const double before =
      exists ? state.program.columns()[static_cast<std::size_t>(column)].cost : 0.0;
  state.program.set_cost(column, cost);  // refuses before GLPK hears of it
  state.problem->set_cost(column, cost);
  if (cost != before) {
    state.moves.push_back({column, cost - before});
  }
}

void WarmSolver::set_column_bounds(int column, double lower, double upper) {
  state_->program.set_column_bounds(column, lower, upper);
  state_->problem->set_column_bounds(column, lower, upper);
  state_->bounds_moved();
}

void WarmSolver::set_row_bounds(int row, double lower, double upper) {
  state_->program.set_row_bounds(row, lower, upper);
  state_->problem->set_row_bounds(row, lower, upper);
  state_->bounds_moved();
}

int WarmSolver::add_row(Row row) {
  const int index = state_->program.add_row(std::move(row));  // refuses before GLPK hears of it
  state_->problem->add_row(state_->program.rows().back());
  state_->bounds_moved();
  return index;
}

Solution WarmSolver::solve() {
  State& state = *state_;
  if (!state.problem->is_alive()) {  // an error in another solve of this thread took it along
    state.problem.emplace(state.program, Wholeness::ignore);
    state.bounds_moved();
  }
  const bool kept = state.keeps_optimum();
  state.moves.clear();
  if (kept) {
    return *state.optimum;
  }
  const Deadline deadline(state.options);
  const Method method = state.is_primal_feasible ? Method::primal : Method::dual;
  Solution solution = simplex(*state.problem, method, deadline, state.options);
  state.is_primal_feasible =
      solution.status == Status::optimal || solution.status == Status::unbounded;
  state.kept = 0;
  if (solution.status == Status::optimal) {
    state.optimum = solution;
  } else {
    state.optimum.reset();
  }
  return solution;
}

const LinearProgram& WarmSolver::program() const { return state_->program; }

}  // namespace haymow
