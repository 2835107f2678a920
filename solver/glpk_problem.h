// Private to solver/: the only place that knows GLPK, with all its traps.
// GLPK keeps one environment a thread; a problem lives and dies on the thread
// that made it. On an internal error GLPK aborts the process unless a hook
// leaves it; ours jumps out, after which the thread's environment, and with it
// every problem of the thread, is gone. A GlpkProblem notices and says so.
#pragma once

#include <cstdint>
#include <span>

#include "solver/linear_program.h"
#include "solver/solution.h"
#include "solver/solve.h"

struct glp_prob;  // GLPK's, kept opaque so that glpk.h stays in the .cpp

namespace haymow {

enum class Method { dual, primal };
enum class Wholeness { heed, ignore };

// GLPK's default tolerances are 1e-7. A bound of a decomposition was wrong by
// 6e-6 relative with tol_dj = 1e-7 and right with 1e-9 (measured), so 1e-9 is
// asked for first; the default serves when the arithmetic is in trouble.
inline constexpr double tight_tolerance = 1e-9;
inline constexpr double default_tolerance = 1e-7;

/// One coefficient of a column.
struct RowTerm {
  int row = 0;
  double coefficient = 0.0;
};

/// A column's cost, already set, is so much more than it was.
struct CostMove {
  int column = 0;
  double by = 0.0;
};

class GlpkProblem {
 public:
  /// Copies `program` to GLPK, scaled, with the basis of slacks.
  explicit GlpkProblem(const LinearProgram& program, Wholeness wholeness);
  ~GlpkProblem();
  GlpkProblem(const GlpkProblem&) = delete;
  GlpkProblem& operator=(const GlpkProblem&) = delete;

  /// False after an internal error of GLPK on this thread, and on any other
  /// thread: then nothing below does anything, and optimise() says `gave_up`.
  [[nodiscard]] bool is_alive() const;

  /// Indices count from 0. A wrong index is an internal error of GLPK.
  void set_cost(int column, double cost);
  void set_column_bounds(int column, double lower, double upper);
  void set_row_bounds(int row, double lower, double upper);
  /// Adds a row behind the others, basic: the basis stays one, and dual feasible.
  void add_row(const Row& row);

  /// Adds a column x >= 0 behind the others, at 0: the basis stays one, and primal
  /// feasible. The terms name rows, counted from 0, each once.
  void add_column(double cost, double upper, std::span<const RowTerm> terms);

  /// Starts the next optimise() from `basis` if its shape fits, else not.
  void start_from(const Basis& basis);
  /// Starts the next optimise() from the basis of slacks.
  void start_afresh();

  /// Simplex on the program without wholeness. `gave_up` is a first verdict:
  /// the caller decides whether to try again.
  /// `not_solved`: no bounded answer, and the dual method cannot tell why.
  [[nodiscard]] Solution optimise(Method method, const SolveOptions& options,
                                  double tolerance = tight_tolerance);

  /// Whether `solution`, this problem's last optimum, is still one after some costs
  /// have moved; if so with its cost and duals brought up to date, if not of no more use.
  [[nodiscard]] bool stays_optimal(Solution& solution, std::span<const CostMove> moves);

  /// The rational simplex method from the basis as it stands; columns, rows, cost and
  /// basis only. Slow from a basis far off: mind the limit.
  [[nodiscard]] Solution optimise_exactly(const SolveOptions& options);

  /// Branch and cut, after optimise() has found the relaxation optimal.
  [[nodiscard]] Solution optimise_whole(const SolveOptions& options);

 private:
  void make_whole(const LinearProgram& program);

  glp_prob* problem_ = nullptr;
  std::uint64_t environment_ = 0;  // the one the problem lives in
  bool has_whole_values_ = true;   // each whole column has a value between its bounds
};

}  // namespace haymow
