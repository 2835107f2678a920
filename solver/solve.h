// Solving with GLPK. Nothing of GLPK shows here: its traps (one-based indices,
// terminal output, aborting on an error, NaN taken for optimal) end in
// glpk_problem.cpp.
#pragma once

#include <functional>
#include <memory>

#include "solver/linear_program.h"
#include "solver/solution.h"

namespace haymow {

struct SolveOptions {
  int iteration_limit = 200'000;
  double time_limit_seconds = 60.0;
  /// Whole-number programs stop when the best answer is within this of the bound, relative.
  double whole_gap = 1e-6;
  /// The primal method first: six times faster on a yard's winter of ten thousand rows
  /// (measured), and out of time it may leave a point that satisfies the program.
  bool primal_first = false;
  /// A basis of a program of the same shape to start from; ignored if it does not fit.
  const Basis* start = nullptr;
  /// Asked a few times a second while a solve is long; true ends it with `limit_reached`,
  /// without a point. Must not throw. The same answer comes out whether it is set or not.
  std::function<bool()> stop = nullptr;
};

/// Solves by the dual simplex method (branch and cut when columns are whole).
/// If the arithmetic fails, tries once more by the primal method from a fresh
/// basis before it says `gave_up`. Never throws for a "no"; never prints.
[[nodiscard]] Solution solve(const LinearProgram& program, const SolveOptions& options = {});

/// The same program solved again and again after small changes, each time from
/// where the last solve stopped. Must stay on the thread that made it. Ignores
/// `whole`: for continuous programs.
class WarmSolver {
 public:
  explicit WarmSolver(const LinearProgram& program, const SolveOptions& options = {});
  ~WarmSolver();
  WarmSolver(const WarmSolver&) = delete;
  WarmSolver& operator=(const WarmSolver&) = delete;

  /// The same refusals as LinearProgram.
  void set_cost(int column, double cost);
  void set_column_bounds(int column, double lower, double upper);
  void set_row_bounds(int row, double lower, double upper);
  /// Returns the row's index. The next solve goes on by the dual simplex method.
  int add_row(Row row);

  [[nodiscard]] Solution solve();
  /// The program as it stands after the changes.
  [[nodiscard]] const LinearProgram& program() const;

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace haymow
