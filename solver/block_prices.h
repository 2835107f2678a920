// Private to solver/. All blocks of a program priced at once, by several threads, and the
// bound that their answers prove.
#pragma once

#include <memory>
#include <span>
#include <vector>

#include "solver/block_pricing.h"
#include "solver/gang.h"

namespace haymow {

class BlockPrices {
 public:
  /// `patience`: as of BlockOptions.
  BlockPrices(const LinearProgram& program, const BlockParts& parts, std::size_t threads,
              double patience);
  ~BlockPrices();
  BlockPrices(const BlockPrices&) = delete;
  BlockPrices& operator=(const BlockPrices&) = delete;

  void price(std::span<const double> master_duals, BlockCosts costs, const SolveOptions& options);

  [[nodiscard]] std::size_t size() const { return pricers_.size(); }
  [[nodiscard]] const BlockPricer& of(std::size_t block) const { return *pricers_[block]; }
  /// Status::optimal when all blocks are, else that of the first that is not.
  [[nodiscard]] Status status() const;
  /// What no point of the program costs less than, at the last multipliers, without the
  /// part of the master's rows and shared columns.
  [[nodiscard]] double bound() const;
  /// One a row of the program; those of the master's rows as given.
  [[nodiscard]] std::vector<double> all_duals(std::span<const double> master_duals) const;

 private:
  template <typename Task>
  void for_each(Task task);
  void find_leaders();

  const LinearProgram& program_;
  const BlockParts& parts_;
  Gang gang_;
  std::vector<std::unique_ptr<BlockPricer>> pricers_;  // block b on thread b % threads
  std::vector<std::size_t> leader_;                    // the first block of the same shape
  bool has_started_ = false;
};

}  // namespace haymow
