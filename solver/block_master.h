// Private to solver/. The restricted master of a decomposition: the shared columns, the
// rows that touch several blocks, and of each block a mean of the points known so far.
// Each row may be missed at a price, so that there is always an answer; whether any is
// missed must be asked before an answer is believed.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "solver/block_pricing.h"

namespace haymow {

struct MasterAnswer {
  Status status = Status::not_solved;
  double cost = 0.0;                // with what the misses cost
  double missed = 0.0;              // the largest miss of a row, relative to its bounds
  std::vector<double> row_duals;    // of the master's rows
  std::vector<double> block_duals;  // what each block's share costs
};

enum class LastAnswer { too_far_off, would_do };

class BlockMaster {
 public:
  /// A row may be missed for `miss_cost` a unit.
  BlockMaster(const LinearProgram& program, const BlockParts& parts, double miss_cost);

  /// Another point of a block.
  void add(std::size_t block, BlockPoint point);
  /// By the primal method; after `patience` pivots a row and column by others, unless the
  /// last answer, which columns() then still tells, would do: `gave_up`.
  [[nodiscard]] MasterAnswer solve(const SolveOptions& options, double patience,
                                   LastAnswer last = LastAnswer::too_far_off);

  /// As if the blocks took `share` of the range of each of their columns besides: then
  /// what no point takes yet has the price of taking it, and not any. 0: as given.
  void lean(double share);

  /// From now on only misses cost anything; and back to the given costs, no row missed.
  void cost_misses_alone();
  void forbid_misses();

  /// What one more unit of the block's point earns at these duals: below 0 it enters.
  [[nodiscard]] static double reduced_cost(std::size_t block, const BlockPoint& point,
                                           const MasterAnswer& at, BlockCosts costs);
  /// The last answer as values of all columns of the program.
  [[nodiscard]] std::vector<double> columns() const;

 private:
  struct Known {
    std::size_t block = 0;
    BlockPoint point;
  };
  [[nodiscard]] LinearProgram first_program(double miss_cost);
  [[nodiscard]] Solution optimise(const SolveOptions& options, double patience, LastAnswer last);

  const LinearProgram& program_;
  const BlockParts& parts_;
  std::vector<double> full_ranges_;  // what all blocks' columns have in each row, over their range
  std::vector<int> missed_row_;      // one an artificial column, these behind the shared ones
  GlpkProblem problem_;
  std::vector<Known> known_;  // these behind the artificial ones
  std::vector<double> values_;
};

}  // namespace haymow
