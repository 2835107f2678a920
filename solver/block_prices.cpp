#include "solver/block_prices.h"

#include <algorithm>

namespace haymow {

template <typename Task>
void BlockPrices::for_each(Task task) {
  gang_.run([&](std::size_t thread) {
    for (std::size_t b = thread; b < pricers_.size(); b += gang_.size()) task(b);
  });
}

BlockPrices::BlockPrices(const LinearProgram& program, const BlockParts& parts, std::size_t threads,
                         double patience)
    : program_(program),
      parts_(parts),
      gang_(std::clamp<std::size_t>(threads, 1, std::max<std::size_t>(1, parts.blocks.size()))),
      pricers_(parts.blocks.size()) {
  for_each([&](std::size_t b) {
    pricers_[b] = std::make_unique<BlockPricer>(program, parts, b, patience);
  });
  find_leaders();
}

BlockPrices::~BlockPrices() {
  for_each([&](std::size_t b) { pricers_[b].reset(); });
}

void BlockPrices::find_leaders() {
  std::vector<std::size_t> leaders;
  for (std::size_t b = 0; b < pricers_.size(); ++b) {
    const auto found = std::find_if(leaders.begin(), leaders.end(), [&](std::size_t l) {
      return pricers_[b]->is_shaped_like(*pricers_[l]);
    });
    leader_.push_back(found == leaders.end() ? b : *found);
    if (found == leaders.end()) leaders.push_back(b);
  }
}

void BlockPrices::price(std::span<const double> master_duals, BlockCosts costs,
                        const SolveOptions& options) {
  if (!has_started_) {
    // Where one of them stands after its first prices is near where all of them will.
    for_each([&](std::size_t b) {
      if (leader_[b] == b) pricers_[b]->price(master_duals, costs, options);
    });
    for_each([&](std::size_t b) {
      if (leader_[b] == b) return;
      pricers_[b]->start_like(*pricers_[leader_[b]]);
      pricers_[b]->price(master_duals, costs, options);
    });
    has_started_ = true;
    return;
  }
  for_each([&](std::size_t b) { pricers_[b]->price(master_duals, costs, options); });
}

Status BlockPrices::status() const {
  for (const auto& pricer : pricers_) {
    if (pricer->status() != Status::optimal) return pricer->status();
  }
  return Status::optimal;
}

double BlockPrices::bound() const {
  double sum = 0.0;
  for (const auto& pricer : pricers_) sum += pricer->bound();
  return sum;
}

std::vector<double> BlockPrices::all_duals(std::span<const double> master_duals) const {
  std::vector<double> duals(program_.rows().size(), 0.0);
  for (std::size_t i = 0; i < parts_.master_rows.size(); ++i) {
    duals[static_cast<std::size_t>(parts_.master_rows[i])] = master_duals[i];
  }
  for (std::size_t b = 0; b < pricers_.size(); ++b) {
    const BlockPart& part = parts_.blocks[b];
    for (std::size_t i = 0; i < part.rows.size(); ++i) {
      duals[static_cast<std::size_t>(part.rows[i])] = pricers_[b]->duals()[i];
    }
  }
  return duals;
}

}  // namespace haymow
