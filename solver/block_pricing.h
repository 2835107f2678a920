// Private to solver/. One block priced again and again: its own program with the cost of
// every column less what the master's rows pay for it, solved by the primal method from
// where the last prices left it.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "solver/block_parts.h"
#include "solver/glpk_problem.h"

namespace haymow {

/// A value that is not 0, of the column at `place` in its block.
struct BlockValue {
  int place = 0;
  double value = 0.0;
};

/// A point of a block.
struct BlockPoint {
  std::vector<BlockValue> values;
  std::vector<RowTerm> in_master;  // what it has in the master's rows, by rising row
  double cost = 0.0;               // at the program's own costs
};

enum class BlockCosts { given, none };

/// Lives and dies on one thread, as GLPK demands.
class BlockPricer {
 public:
  /// `patience`: as of BlockOptions.
  BlockPricer(const LinearProgram& program, const BlockParts& parts, std::size_t block,
              double patience);

  /// Starts the next price() where `other`, of the same shape, stands.
  void start_like(const BlockPricer& other);
  /// True when both have the same rows and columns but for bounds and costs.
  [[nodiscard]] bool is_shaped_like(const BlockPricer& other) const;

  /// The best point at these multipliers of the master's rows. Where the arithmetic
  /// fails the last point stays, not the best any more, and status() is optimal all the
  /// same: bound() tells the truth.
  void price(std::span<const double> master_duals, BlockCosts costs, const SolveOptions& options);

  [[nodiscard]] Status status() const { return status_; }
  [[nodiscard]] const BlockPoint& point() const { return point_; }
  /// No point of the block costs less at the last multipliers: by weak duality from the
  /// block's own multipliers, anew from the program.
  [[nodiscard]] double bound() const { return bound_; }
  /// One a row of the block.
  [[nodiscard]] const std::vector<double>& duals() const { return duals_; }

  /// The point of the block in a point of the whole program.
  [[nodiscard]] BlockPoint point_of(std::span<const double> columns) const;

 private:
  [[nodiscard]] LinearProgram own_program() const;
  [[nodiscard]] Solution optimise(const SolveOptions& options);
  [[nodiscard]] BlockPoint made_of(std::vector<BlockValue> values) const;
  [[nodiscard]] double bound_from(std::vector<double> reduced);

  const LinearProgram& program_;
  const BlockParts& parts_;
  const BlockPart& part_;
  double patience_;
  GlpkProblem problem_;
  Status status_ = Status::not_solved;
  std::optional<Basis> basis_;
  BlockPoint point_;
  bool has_point_ = false;
  std::vector<double> duals_;
  double bound_ = -unlimited;
};

}  // namespace haymow
