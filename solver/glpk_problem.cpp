#include "solver/glpk_problem.h"

#include <glpk.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <cmath>
#include <csetjmp>
#include <cstddef>
#include <functional>

#include "solver/scale_factors.h"

namespace haymow {
namespace {

// A single ration has about sixty rows, a yard over a winter thousands.
constexpr int few_rows = 200;

// How far a bound of a whole column may lie past a whole number and still be
// taken for it, relative: 0.1 * 30 is not 3. Common practice, no source.
constexpr double whole_bound_tolerance = 1e-9;

// ---- The environment of this thread --------------------------------------

// Trivially destructible, so that it can be read while the thread winds down.
struct Environment {
  std::uint64_t id = 0;  // 0: none; unique over all threads and restarts
  int problems = 0;
};
// A mirror of GLPK's own state, which is as global.
// NOLINTNEXTLINE(cppcoreguidelines-avoid-non-const-global-variables)
thread_local Environment environment;

// Frees the thread's environment at its end: GLPK never does by itself.
struct EnvironmentOwner {
  EnvironmentOwner() = default;
  EnvironmentOwner(const EnvironmentOwner&) = delete;
  EnvironmentOwner& operator=(const EnvironmentOwner&) = delete;
  ~EnvironmentOwner() {
    if (environment.id != 0 && environment.problems == 0) {
      glp_free_env();
      environment.id = 0;
    }
  }
  void touch() const {}  // a thread_local is only made when it is used
};
thread_local const EnvironmentOwner environment_owner;

int swallow(void* /*info*/, const char* /*text*/) { return 1; }

void enter_environment() {
  if (environment.id != 0) {
    return;
  }
  static std::atomic<std::uint64_t> last_id = 0;
  environment_owner.touch();
  glp_init_env();
  glp_term_out(GLP_OFF);
  // An error switches the terminal on again before it speaks.
  glp_term_hook(swallow, nullptr);
  environment.problems = 0;
  environment.id = ++last_id;
}

void jump_out(void* target) {
  // Throwing through C code is not safe everywhere.
  std::longjmp(*static_cast<std::jmp_buf*>(target), 1);  // NOLINT(cert-err52-cpp)
}

/// Runs `call(argument)`; false when GLPK met an internal error, after which
/// the environment is gone. The jump passes only through GLPK's frames and
/// `call`, so `call` must own nothing that needs a destructor.
bool run_guarded(void (*call)(void*), void* argument) {
  enter_environment();
  std::jmp_buf target;
  if (setjmp(target) != 0) {  // NOLINT(cert-err52-cpp): no destructor is skipped
    glp_free_env();
    environment.id = 0;
    return false;
  }
  glp_error_hook(jump_out, &target);
  call(argument);
  glp_error_hook(nullptr, nullptr);
  return true;
}

template <typename Call>
bool guarded(Call call) {
  return run_guarded([](void* argument) { (*static_cast<Call*>(argument))(); }, &call);
}

// GLPK asks nobody while a simplex method runs, but tells its progress every so many
// milliseconds. To stop, the telling does not come back: the environment is given up, as
// after an error. Solving in slices of time would let the clock choose the pivots.
struct Listener {
  const std::function<bool()>* stop = nullptr;
  bool stopped = false;
};
constexpr int listen_every_ms = 100;

int listen(void* info, const char* /*text*/) {
  auto* listener = static_cast<Listener*>(info);
  if (!listener->stopped && (*listener->stop)()) {
    listener->stopped = true;
    glp_error("stopped");  // does not return
  }
  return 1;
}

void begin_listening(Listener& listener, glp_smcp& control) {
  if (listener.stop == nullptr) {
    return;
  }
  control.msg_lev = GLP_MSG_ON;
  control.out_frq = listen_every_ms;
  glp_term_hook(listen, &listener);
  glp_term_out(GLP_ON);
}

void end_listening() {
  glp_term_out(GLP_OFF);
  glp_term_hook(swallow, nullptr);
}

// ---- Translation: GLPK counts from 1 ---------------------------------------

int bound_type(double lower, double upper) {
  if (lower == -unlimited) {
    return upper == unlimited ? GLP_FR : GLP_UP;
  }
  if (upper == unlimited) {
    return GLP_LO;
  }
  return lower == upper ? GLP_FX : GLP_DB;
}

int glpk_status(BasisStatus status) {
  switch (status) {
    case BasisStatus::basic:
      return GLP_BS;
    case BasisStatus::at_lower:
      return GLP_NL;
    case BasisStatus::at_upper:
      return GLP_NU;
    case BasisStatus::free:
      return GLP_NF;
    case BasisStatus::fixed:
      return GLP_NS;
  }
  return GLP_NL;
}

BasisStatus basis_status(int glpk_status) {
  switch (glpk_status) {
    case GLP_BS:
      return BasisStatus::basic;
    case GLP_NU:
      return BasisStatus::at_upper;
    case GLP_NF:
      return BasisStatus::free;
    case GLP_NS:
      return BasisStatus::fixed;
    default:
      return BasisStatus::at_lower;
  }
}

std::size_t size_of(int count) { return static_cast<std::size_t>(count); }

int milliseconds(double seconds) {
  constexpr double most = 2'000'000'000.0;  // fits an int
  return static_cast<int>(std::clamp(std::ceil(seconds * 1000.0), 0.0, most));
}

struct Range {
  double lower;
  double upper;
};

/// The bounds of a whole column drawn in to whole numbers: GLPK refuses others.
Range whole_range(const Column& column) {
  const double lower_slack = whole_bound_tolerance * std::max(1.0, std::abs(column.lower));
  const double upper_slack = whole_bound_tolerance * std::max(1.0, std::abs(column.upper));
  return {std::isinf(column.lower) ? column.lower : std::ceil(column.lower - lower_slack),
          std::isinf(column.upper) ? column.upper : std::floor(column.upper + upper_slack)};
}

/// Room for one row as GLPK wants it: counted from 1, entry 0 unused.
struct RowInGlpk {
  explicit RowInGlpk(const LinearProgram& program)
      : columns(program.columns().size() + 1), values(program.columns().size() + 1) {}
  /// Fills the room and returns how many entries there are.
  int take(const Row& row) {
    std::size_t k = 0;
    for (const Term& term : row.terms) {
      ++k;
      columns[k] = term.column + 1;
      values[k] = term.coefficient;
    }
    return static_cast<int>(k);
  }

  std::vector<int> columns;
  std::vector<double> values;
};

void load(glp_prob* problem, const LinearProgram& program, RowInGlpk& room,
          const ScaleFactors& scale) {
  if (program.row_count() > 0) {
    glp_add_rows(problem, program.row_count());
  }
  if (program.column_count() > 0) {
    glp_add_cols(problem, program.column_count());
  }
  int i = 0;
  for (const Row& row : program.rows()) {
    ++i;
    glp_set_row_bnds(problem, i, bound_type(row.lower, row.upper), row.lower, row.upper);
  }
  int j = 0;
  for (const Column& column : program.columns()) {
    ++j;
    glp_set_obj_coef(problem, j, column.cost);
    glp_set_col_bnds(problem, j, bound_type(column.lower, column.upper), column.lower,
                     column.upper);
  }
  i = 0;
  for (const Row& row : program.rows()) {
    ++i;
    const int count = room.take(row);
    glp_set_mat_row(problem, i, count, room.columns.data(), room.values.data());
  }
  for (i = 1; i <= program.row_count(); ++i) {
    glp_set_rii(problem, i, scale.rows[size_of(i - 1)]);
  }
  for (j = 1; j <= program.column_count(); ++j) {
    glp_set_sjj(problem, j, scale.columns[size_of(j - 1)]);
  }
}

/// Where branch and cut has come to; filled in by GLPK's call-back.
struct Progress {
  glp_prob* problem = nullptr;
  int first_iteration = 0;
  int iteration_limit = 0;
  double bound = -unlimited;
  const std::function<bool()>* stop = nullptr;
};

void follow(glp_tree* tree, void* info) {
  auto* progress = static_cast<Progress*>(info);
  const int node = glp_ios_best_node(tree);
  if (node != 0) {
    progress->bound = std::max(progress->bound, glp_ios_node_bound(tree, node));
  }
  const bool stopped = *progress->stop && (*progress->stop)();
  if (stopped ||
      glp_get_it_cnt(progress->problem) - progress->first_iteration > progress->iteration_limit) {
    glp_ios_terminate(tree);
  }
}

/// Pivots that a simplex method needs for no program of this size unless it goes round
/// in circles: two or three times rows and columns is usual (common practice, no source).
int pivots_in_circles(glp_prob* problem) {
  constexpr int least = 1000;
  constexpr int for_each = 10;
  return least + for_each * (glp_get_num_rows(problem) + glp_get_num_cols(problem));
}

/// glp_simplex, but one method that goes round in circles gives way to the other, which
/// goes on from the same basis: nothing in GLPK keeps either from it, and they do not
/// circle at the same corners.
int pivot(glp_prob* problem, glp_smcp& control) {
  const int most = control.it_lim;
  const int before = glp_get_it_cnt(problem);
  const auto start = std::chrono::steady_clock::now();
  control.it_lim = std::min(most, pivots_in_circles(problem));
  const int outcome = glp_simplex(problem, &control);
  if (outcome != GLP_EITLIM || control.it_lim == most) {
    return outcome;
  }
  const std::chrono::duration<double> spent = std::chrono::steady_clock::now() - start;
  control.meth = control.meth == GLP_PRIMAL ? GLP_DUALP : GLP_PRIMAL;
  control.it_lim = most - (glp_get_it_cnt(problem) - before);
  control.tm_lim = std::max(0, control.tm_lim - milliseconds(spent.count()));
  return glp_simplex(problem, &control);
}

/// The verdict of glp_simplex. `not_solved` means: the dual method cannot tell
/// an infeasible program from an unbounded one, ask the primal method.
Status verdict(glp_prob* problem, int outcome) {
  if (outcome == GLP_EITLIM || outcome == GLP_ETMLIM) {
    return Status::limit_reached;
  }
  if (outcome != 0) {
    return Status::gave_up;
  }
  const int primal = glp_get_prim_stat(problem);
  const int dual = glp_get_dual_stat(problem);
  if (primal == GLP_FEAS && dual == GLP_FEAS) {
    return Status::optimal;
  }
  if (primal == GLP_NOFEAS) {
    return Status::infeasible;
  }
  if (dual == GLP_NOFEAS) {
    return primal == GLP_FEAS ? Status::unbounded : Status::not_solved;
  }
  return Status::gave_up;
}

double cost_of(glp_prob* problem, const std::vector<double>& columns) {
  double cost = 0.0;
  for (std::size_t j = 0; j < columns.size(); ++j) {
    cost += glp_get_obj_coef(problem, static_cast<int>(j) + 1) * columns[j];
  }
  return cost;
}

void read_point(glp_prob* problem, Solution& solution) {
  solution.columns.resize(size_of(glp_get_num_cols(problem)));
  solution.rows.resize(size_of(glp_get_num_rows(problem)));
  for (std::size_t j = 0; j < solution.columns.size(); ++j) {
    solution.columns[j] = glp_get_col_prim(problem, static_cast<int>(j) + 1);
  }
  for (std::size_t i = 0; i < solution.rows.size(); ++i) {
    solution.rows[i] = glp_get_row_prim(problem, static_cast<int>(i) + 1);
  }
  solution.cost = cost_of(problem, solution.columns);
}

void read_duals(glp_prob* problem, Solution& solution) {
  solution.reduced_costs.resize(solution.columns.size());
  solution.row_duals.resize(solution.rows.size());
  for (std::size_t j = 0; j < solution.reduced_costs.size(); ++j) {
    solution.reduced_costs[j] = glp_get_col_dual(problem, static_cast<int>(j) + 1);
  }
  for (std::size_t i = 0; i < solution.row_duals.size(); ++i) {
    solution.row_duals[i] = glp_get_row_dual(problem, static_cast<int>(i) + 1);
  }
}

void read_basis(glp_prob* problem, Solution& solution) {
  Basis& basis = solution.basis.emplace();
  basis.columns.resize(solution.columns.size());
  basis.rows.resize(solution.rows.size());
  for (std::size_t j = 0; j < basis.columns.size(); ++j) {
    basis.columns[j] = basis_status(glp_get_col_stat(problem, static_cast<int>(j) + 1));
  }
  for (std::size_t i = 0; i < basis.rows.size(); ++i) {
    basis.rows[i] = basis_status(glp_get_row_stat(problem, static_cast<int>(i) + 1));
  }
}

/// Whether no column or row leans the wrong way on the bound it stands at.
bool are_signed_well(const std::vector<BasisStatus>& statuses, const std::vector<double>& duals) {
  for (std::size_t k = 0; k < statuses.size(); ++k) {
    const bool may_rise = statuses[k] == BasisStatus::at_lower || statuses[k] == BasisStatus::free;
    const bool may_fall = statuses[k] == BasisStatus::at_upper || statuses[k] == BasisStatus::free;
    if ((may_rise && duals[k] < 0.0) || (may_fall && duals[k] > 0.0)) {
      return false;
    }
  }
  return true;
}

}  // namespace

GlpkProblem::GlpkProblem(const LinearProgram& program, Wholeness wholeness) {
  RowInGlpk room(program);
  const ScaleFactors scale = scale_factors(program);
  const bool made = guarded([&] {
    problem_ = glp_create_prob();
    load(problem_, program, room, scale);
  });
  if (!made) {
    return;
  }
  environment_ = environment.id;
  ++environment.problems;
  if (wholeness == Wholeness::heed) {
    make_whole(program);
  }
}

void GlpkProblem::make_whole(const LinearProgram& program) {
  int j = 0;
  for (const Column& column : program.columns()) {
    ++j;
    if (!column.whole) {
      continue;
    }
    const Range range = whole_range(column);
    has_whole_values_ = has_whole_values_ && range.lower <= range.upper;
    if (has_whole_values_) {
      guarded([&] {
        glp_set_col_kind(problem_, j, GLP_IV);
        glp_set_col_bnds(problem_, j, bound_type(range.lower, range.upper), range.lower,
                         range.upper);
      });
    }
  }
}

GlpkProblem::~GlpkProblem() {
  // A problem of a lost environment was freed with it. One of another thread
  // cannot be freed here: GLPK would return its memory to the wrong pool.
  if (is_alive()) {
    guarded([&] { glp_delete_prob(problem_); });
    --environment.problems;
  }
}

bool GlpkProblem::is_alive() const { return environment_ != 0 && environment_ == environment.id; }

void GlpkProblem::set_cost(int column, double cost) {
  if (is_alive()) {
    guarded([&] { glp_set_obj_coef(problem_, column + 1, cost); });
  }
}

void GlpkProblem::set_column_bounds(int column, double lower, double upper) {
  if (is_alive()) {
    guarded(
        [&] { glp_set_col_bnds(problem_, column + 1, bound_type(lower, upper), lower, upper); });
  }
}

void GlpkProblem::set_row_bounds(int row, double lower, double upper) {
  if (is_alive()) {
    guarded([&] { glp_set_row_bnds(problem_, row + 1, bound_type(lower, upper), lower, upper); });
  }
}

void GlpkProblem::add_row(const Row& row) {
  if (!is_alive()) {
    return;
  }
  std::vector<int> columns(row.terms.size() + 1);
  std::vector<double> values(row.terms.size() + 1);
  double logarithms = 0.0;
  int counted = 0;
  guarded([&] {
    std::size_t k = 0;
    for (const Term& term : row.terms) {
      ++k;
      columns[k] = term.column + 1;
      values[k] = term.coefficient;
      const double size = std::abs(term.coefficient) * glp_get_sjj(problem_, term.column + 1);
      if (size > 0.0) {
        logarithms += std::log2(size);
        ++counted;
      }
    }
    const int i = glp_add_rows(problem_, 1);
    glp_set_row_bnds(problem_, i, bound_type(row.lower, row.upper), row.lower, row.upper);
    glp_set_mat_row(problem_, i, static_cast<int>(k), columns.data(), values.data());
    // As scale_factors.h has it: to a power of two near the geometric mean.
    if (counted > 0) {
      glp_set_rii(problem_, i, std::exp2(-std::round(logarithms / counted)));
    }
  });
}

void GlpkProblem::add_column(double cost, double upper, std::span<const RowTerm> terms) {
  if (!is_alive()) {
    return;
  }
  std::vector<int> rows(terms.size() + 1);
  std::vector<double> values(terms.size() + 1);
  double logarithms = 0.0;
  int counted = 0;
  guarded([&] {
    std::size_t k = 0;
    for (const RowTerm& term : terms) {
      ++k;
      rows[k] = term.row + 1;
      values[k] = term.coefficient;
      const double size = std::abs(term.coefficient) * glp_get_rii(problem_, term.row + 1);
      if (size > 0.0) {
        logarithms += std::log2(size);
        ++counted;
      }
    }
    const int j = glp_add_cols(problem_, 1);
    glp_set_obj_coef(problem_, j, cost);
    glp_set_col_bnds(problem_, j, bound_type(0.0, upper), 0.0, upper);
    glp_set_mat_col(problem_, j, static_cast<int>(k), rows.data(), values.data());
    if (counted > 0) {
      glp_set_sjj(problem_, j, std::exp2(-std::round(logarithms / counted)));
    }
  });
}

void GlpkProblem::start_from(const Basis& basis) {
  if (!is_alive()) {
    return;
  }
  guarded([&] {
    const auto rows = size_of(glp_get_num_rows(problem_));
    const auto columns = size_of(glp_get_num_cols(problem_));
    const auto is_basic = [](BasisStatus status) { return status == BasisStatus::basic; };
    const auto basics = std::count_if(basis.rows.begin(), basis.rows.end(), is_basic) +
                        std::count_if(basis.columns.begin(), basis.columns.end(), is_basic);
    if (basis.rows.size() != rows || basis.columns.size() != columns ||
        static_cast<std::size_t>(basics) != rows) {
      return;
    }
    for (std::size_t i = 0; i < rows; ++i) {
      glp_set_row_stat(problem_, static_cast<int>(i) + 1, glpk_status(basis.rows[i]));
    }
    for (std::size_t j = 0; j < columns; ++j) {
      glp_set_col_stat(problem_, static_cast<int>(j) + 1, glpk_status(basis.columns[j]));
    }
    if (glp_factorize(problem_) != 0) {
      glp_std_basis(problem_);  // the columns named do not span: no start at all
    }
  });
}

void GlpkProblem::start_afresh() {
  if (is_alive()) {
    guarded([&] { glp_std_basis(problem_); });
  }
}

Solution GlpkProblem::optimise(Method method, const SolveOptions& options, double tolerance) {
  Solution solution;
  if (!has_whole_values_) {
    solution.status = Status::infeasible;
    return solution;
  }
  solution.status = Status::gave_up;
  if (!is_alive()) {
    return solution;
  }
  Listener listener{options.stop ? &options.stop : nullptr, false};
  const bool sound = guarded([&] {
    glp_smcp control;
    glp_init_smcp(&control);
    control.msg_lev = GLP_MSG_OFF;
    // Steepest edge earns its keep over hundreds of pivots; a ration takes ten.
    control.pricing = glp_get_num_rows(problem_) <= few_rows ? GLP_PT_STD : GLP_PT_PSE;
    control.meth = method == Method::dual ? GLP_DUALP : GLP_PRIMAL;
    control.tol_bnd = tolerance;
    control.tol_dj = tolerance;
    control.it_lim = std::max(options.iteration_limit, 0);
    control.tm_lim = milliseconds(options.time_limit_seconds);
    control.presolve = GLP_OFF;
    const int before = glp_get_it_cnt(problem_);
    begin_listening(listener, control);
    solution.status = verdict(problem_, pivot(problem_, control));
    end_listening();
    solution.iterations = glp_get_it_cnt(problem_) - before;
  });
  if (!sound) {
    solution.status = listener.stopped ? Status::limit_reached : Status::gave_up;
    return solution;
  }
  const bool is_feasible =
      solution.status == Status::optimal ||
      (solution.status == Status::limit_reached && glp_get_prim_stat(problem_) == GLP_FEAS);
  if (!is_feasible) {
    return solution;
  }
  read_point(problem_, solution);
  read_duals(problem_, solution);
  read_basis(problem_, solution);
  return solution;
}

bool GlpkProblem::stays_optimal(Solution& solution, std::span<const CostMove> moves) {
  if (!is_alive() || !solution.basis || glp_bf_exists(problem_) == 0) {
    return false;
  }
  const auto rows = static_cast<int>(solution.rows.size());
  const auto columns = static_cast<int>(solution.columns.size());
  std::vector<int> indices(size_of(rows + columns + 1));
  std::vector<double> values(indices.size());
  const bool sound = guarded([&] {
    for (const CostMove& move : moves) {
      if (glp_get_col_stat(problem_, move.column + 1) != GLP_BS) {
        solution.reduced_costs[size_of(move.column)] += move.by;
        continue;
      }
      // What the column is made of, of the others: they pay for its new cost.
      const int count =
          glp_eval_tab_row(problem_, rows + move.column + 1, indices.data(), values.data());
      for (int t = 1; t <= count; ++t) {
        const int k = indices[size_of(t)];
        double& dual = k <= rows ? solution.row_duals[size_of(k - 1)]
                                 : solution.reduced_costs[size_of(k - rows - 1)];
        dual += move.by * values[size_of(t)];
      }
    }
  });
  if (!sound || !are_signed_well(solution.basis->rows, solution.row_duals) ||
      !are_signed_well(solution.basis->columns, solution.reduced_costs)) {
    return false;
  }
  solution.cost = cost_of(problem_, solution.columns);
  solution.iterations = 0;
  return true;
}

Solution GlpkProblem::optimise_exactly(const SolveOptions& options) {
  Solution solution;
  solution.status = Status::gave_up;
  if (!is_alive()) {
    return solution;
  }
  const bool sound = guarded([&] {
    glp_smcp control;
    glp_init_smcp(&control);
    control.msg_lev = GLP_MSG_OFF;
    control.it_lim = std::max(options.iteration_limit, 0);
    control.tm_lim = milliseconds(options.time_limit_seconds);
    const int before = glp_get_it_cnt(problem_);
    solution.status = verdict(problem_, glp_exact(problem_, &control));
    solution.iterations = glp_get_it_cnt(problem_) - before;
  });
  if (!sound) {
    solution.status = Status::gave_up;
  }
  if (solution.status != Status::optimal) {
    return solution;
  }
  read_point(problem_, solution);
  read_basis(problem_, solution);
  return solution;
}

Solution GlpkProblem::optimise_whole(const SolveOptions& options) {
  Solution solution;
  solution.status = Status::gave_up;
  if (!is_alive()) {
    return solution;
  }
  Progress progress;
  int outcome = 0;
  const bool sound = guarded([&] {
    progress.problem = problem_;
    progress.first_iteration = glp_get_it_cnt(problem_);
    progress.iteration_limit = options.iteration_limit;
    progress.stop = &options.stop;
    progress.bound = glp_get_obj_val(problem_);  // the relaxation's
    glp_iocp control;
    glp_init_iocp(&control);
    control.msg_lev = GLP_MSG_OFF;
    control.tm_lim = milliseconds(options.time_limit_seconds);
    control.mip_gap = options.whole_gap;
    control.presolve = GLP_OFF;
    control.cb_func = follow;
    control.cb_info = &progress;
    outcome = glp_intopt(problem_, &control);
    solution.iterations = glp_get_it_cnt(problem_) - progress.first_iteration;
  });
  if (!sound) {
    return solution;
  }
  const int found = glp_mip_status(problem_);
  const bool has_point = found == GLP_OPT || found == GLP_FEAS;
  const bool was_stopped = outcome == GLP_ETMLIM || outcome == GLP_ESTOP;
  if (has_point && (outcome == 0 || outcome == GLP_EMIPGAP)) {
    solution.status = Status::optimal;
  } else if (was_stopped) {
    solution.status = Status::limit_reached;
  } else if (outcome == 0 && found == GLP_NOFEAS) {
    solution.status = Status::infeasible;
  }
  if (has_point && solution.status != Status::gave_up) {
    solution.columns.resize(size_of(glp_get_num_cols(problem_)));
    solution.rows.resize(size_of(glp_get_num_rows(problem_)));
    for (std::size_t j = 0; j < solution.columns.size(); ++j) {
      solution.columns[j] = glp_mip_col_val(problem_, static_cast<int>(j) + 1);
    }
    for (std::size_t i = 0; i < solution.rows.size(); ++i) {
      solution.rows[i] = glp_mip_row_val(problem_, static_cast<int>(i) + 1);
    }
    solution.cost = cost_of(problem_, solution.columns);
  }
  if (solution.status == Status::optimal && outcome == 0) {
    solution.claimed_bound = solution.cost;  // the tree was searched to its end
  } else if (was_stopped || solution.status == Status::optimal) {
    solution.claimed_bound = progress.bound;
  }
  return solution;
}

}  // namespace haymow
