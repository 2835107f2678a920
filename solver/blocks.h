// A linear program that falls apart into blocks but for some shared columns and rows,
// solved by the decomposition of Dantzig & Wolfe (1960): a master program mixes points
// of the blocks, and each block, alone, is asked for the point that the master's prices
// make best. Where the blocks are many it is faster than the simplex method on the whole
// (docs/explanation/season.md has the measurements).
#pragma once

#include <cstddef>
#include <functional>
#include <span>
#include <vector>

#include "solver/linear_program.h"
#include "solver/solution.h"

namespace haymow {

struct BlockOptions {
  /// Done when (cost - bound) / max(1, |cost|) is no more, the bound by weak duality
  /// from multipliers of all rows.
  double gap = 1e-7;
  double time_limit_seconds = 60.0;
  /// The answer is the same, to the last bit, whatever the number.
  std::size_t threads = 1;
  /// After so many rounds of prices without a better mix or bound the program is solved
  /// as one.
  int idle_rounds = 50;
  /// Pivots for each row and column of a master or a block before its solve is thought to
  /// go round in circles: then it is begun by another method, or, of a master where the last
  /// answer's certificate holds (certify.h), left at that.
  double patience = 1.0;
  /// True ends the solve as the time limit does; empty: never. Asked often, by every one
  /// of the threads.
  std::function<bool()> stop;
  /// A first guess of the row duals, one a row of the program; empty: nothing is known.
  /// Only those of rows that touch several blocks or shared columns count.
  std::vector<double> prices;
  /// Points known to satisfy the program, one value a column each.
  std::vector<std::vector<double>> starts;
};

struct BlockAnswer {
  /// As of solve(), but without a basis; reduced costs are those of the row duals, which
  /// are within the gap of the best and prove the bound (certify.h). limit_reached: the
  /// duals are set, the columns only if they satisfy the program.
  Solution solution;
  double lower_bound = -unlimited;  // holds whatever the status but infeasible
  int rounds = 0;                   // of prices; 0: solved as one program
};

/// `block_of_column`: one a column, a block counted from 0 or -1 for shared; every block
/// has a column and no column is whole. Throws std::invalid_argument where that is not so.
/// A program in which a block's column has no bound, neither its own nor one that a row
/// implies, and one whose arithmetic fails, is given to solve() as it is. Infeasible is
/// said only with a proof (certify.h), or by solve(). Never throws for a "no".
[[nodiscard]] BlockAnswer solve_blocks(const LinearProgram& program,
                                       std::span<const int> block_of_column,
                                       const BlockOptions& options = {});

}  // namespace haymow
