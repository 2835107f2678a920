// Private to solver/. What the master's rows and the shared columns add to the bound of a
// decomposition at given multipliers; the blocks add the rest (block_prices.h).
#pragma once

#include <vector>

#include "solver/block_parts.h"
#include "solver/block_pricing.h"

namespace haymow {

class BlockBound {
 public:
  BlockBound(const LinearProgram& program, const BlockParts& parts)
      : program_(program), parts_(parts), box_(parts.box) {}

  /// `duals`: one a row of the master; those without a bound to lean on are made 0.
  [[nodiscard]] double at(std::vector<double>& duals, BlockCosts costs) const;

  /// What the columns' own bounds say of the cost of the whole program.
  [[nodiscard]] double of_costs() const;

  /// Answers that cost more than `cost` are of no more interest: shared columns that are
  /// bounded by nothing else are bounded by that.
  void narrow(double cost);

 private:
  double row_part(double& dual, const Row& row, std::vector<double>& reduced) const;
  [[nodiscard]] bool is_shared(std::size_t column) const;

  const LinearProgram& program_;
  const BlockParts& parts_;
  Box box_;
};

}  // namespace haymow
