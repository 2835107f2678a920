#include "solver/block_master.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "solver/attempts.h"

namespace haymow {

BlockMaster::BlockMaster(const LinearProgram& program, const BlockParts& parts, double miss_cost)
    : program_(program),
      parts_(parts),
      full_ranges_(parts.master_rows.size(), 0.0),
      problem_(first_program(miss_cost), Wholeness::ignore) {
  for (const BlockPart& part : parts.blocks) {
    for (std::size_t j = 0; j < part.columns.size(); ++j) {
      const auto column = static_cast<std::size_t>(part.columns[j]);
      for (const RowTerm& term : part.in_master(j)) {
        full_ranges_[static_cast<std::size_t>(term.row)] +=
            term.coefficient * (parts.box.upper[column] - parts.box.lower[column]);
      }
    }
  }
}

void BlockMaster::lean(double share) {
  for (std::size_t i = 0; i < full_ranges_.size(); ++i) {
    if (full_ranges_[i] == 0.0) continue;
    const Row& row = program_.rows()[static_cast<std::size_t>(parts_.master_rows[i])];
    const double taken = share * full_ranges_[i];
    problem_.set_row_bounds(static_cast<int>(i), row.lower - taken, row.upper - taken);
  }
}

LinearProgram BlockMaster::first_program(double miss_cost) {
  LinearProgram first;
  std::vector<int> place_of_shared(program_.columns().size(), -1);
  for (const int column : parts_.shared) {
    const Column& shared = program_.columns()[static_cast<std::size_t>(column)];
    place_of_shared[static_cast<std::size_t>(column)] =
        first.add_column({"x" + std::to_string(column), shared.lower, shared.upper, shared.cost});
  }
  std::vector<Row> rows;
  for (std::size_t i = 0; i < parts_.master_rows.size(); ++i) {
    const Row& whole = program_.rows()[static_cast<std::size_t>(parts_.master_rows[i])];
    Row row{"r" + std::to_string(i), whole.lower, whole.upper, {}};
    for (const Term& term : whole.terms) {
      const int place = place_of_shared[static_cast<std::size_t>(term.column)];
      if (place >= 0) row.terms.push_back({place, term.coefficient});
    }
    for (const double sign : {1.0, -1.0}) {
      if (std::isinf(sign > 0.0 ? row.lower : row.upper)) continue;
      const std::string name = (sign > 0.0 ? "short" : "over") + std::to_string(i);
      row.terms.push_back({first.add_column({name, 0.0, unlimited, miss_cost}), sign});
      missed_row_.push_back(static_cast<int>(i));
    }
    rows.push_back(std::move(row));
  }
  for (Row& row : rows) first.add_row(std::move(row));
  for (std::size_t b = 0; b < parts_.blocks.size(); ++b) {
    first.add_row({"b" + std::to_string(b), 1.0, 1.0, {}});
  }
  return first;
}

void BlockMaster::add(std::size_t block, BlockPoint point) {
  std::vector<RowTerm> terms = point.in_master;
  terms.push_back({static_cast<int>(parts_.master_rows.size() + block), 1.0});
  problem_.add_column(point.cost, unlimited, terms);
  known_.push_back({block, std::move(point)});
}

// The primal method has gone round in circles here, for minutes, where a dozen pivots are
// usual: many mixes have one cost. The dual one came out of it in 70 pivots (measured).
Solution BlockMaster::optimise(const SolveOptions& options, double patience, LastAnswer last) {
  const std::size_t size = parts_.master_rows.size() + parts_.blocks.size() + parts_.shared.size() +
                           missed_row_.size() + known_.size();
  Attempts attempts;
  attempts.pivots = static_cast<int>(patience * static_cast<double>(size));
  attempts.has_answer = true;  // every row may be missed
  attempts.is_spare = last == LastAnswer::would_do;
  return optimise_in_turn(problem_, attempts, options);
}

MasterAnswer BlockMaster::solve(const SolveOptions& options, double patience, LastAnswer last) {
  Solution solution = optimise(options, patience, last);
  MasterAnswer answer;
  answer.status = solution.status;
  if (!solution.usable()) return answer;
  answer.cost = solution.cost;
  for (std::size_t a = 0; a < missed_row_.size(); ++a) {
    const auto master_row = static_cast<std::size_t>(missed_row_[a]);
    const Row& row = program_.rows()[static_cast<std::size_t>(parts_.master_rows[master_row])];
    double size = 1.0;
    if (std::isfinite(row.lower)) size = std::max(size, std::abs(row.lower));
    if (std::isfinite(row.upper)) size = std::max(size, std::abs(row.upper));
    answer.missed = std::max(answer.missed, solution.columns[parts_.shared.size() + a] / size);
  }
  const auto split =
      solution.row_duals.begin() + static_cast<std::ptrdiff_t>(parts_.master_rows.size());
  answer.row_duals.assign(solution.row_duals.begin(), split);
  answer.block_duals.assign(split, solution.row_duals.end());
  values_ = std::move(solution.columns);
  return answer;
}

void BlockMaster::cost_misses_alone() {
  for (std::size_t j = 0; j < parts_.shared.size(); ++j) {
    problem_.set_cost(static_cast<int>(j), 0.0);
  }
  const std::size_t first_known = parts_.shared.size() + missed_row_.size();
  for (std::size_t j = parts_.shared.size(); j < first_known; ++j) {
    problem_.set_cost(static_cast<int>(j), 1.0);
  }
  for (std::size_t k = 0; k < known_.size(); ++k) {
    problem_.set_cost(static_cast<int>(first_known + k), 0.0);
  }
}

void BlockMaster::forbid_misses() {
  for (std::size_t j = 0; j < parts_.shared.size(); ++j) {
    problem_.set_cost(static_cast<int>(j),
                      program_.columns()[static_cast<std::size_t>(parts_.shared[j])].cost);
  }
  const std::size_t first_known = parts_.shared.size() + missed_row_.size();
  for (std::size_t j = parts_.shared.size(); j < first_known; ++j) {
    problem_.set_cost(static_cast<int>(j), 0.0);
    problem_.set_column_bounds(static_cast<int>(j), 0.0, 0.0);
  }
  for (std::size_t k = 0; k < known_.size(); ++k) {
    problem_.set_cost(static_cast<int>(first_known + k), known_[k].point.cost);
  }
}

double BlockMaster::reduced_cost(std::size_t block, const BlockPoint& point, const MasterAnswer& at,
                                 BlockCosts costs) {
  double sum = (costs == BlockCosts::given ? point.cost : 0.0) - at.block_duals[block];
  for (const RowTerm& term : point.in_master) {
    sum -= term.coefficient * at.row_duals[static_cast<std::size_t>(term.row)];
  }
  return sum;
}

std::vector<double> BlockMaster::columns() const {
  std::vector<double> columns(program_.columns().size(), 0.0);
  for (std::size_t j = 0; j < parts_.shared.size(); ++j) {
    columns[static_cast<std::size_t>(parts_.shared[j])] = values_[j];
  }
  const std::size_t first_known = parts_.shared.size() + missed_row_.size();
  for (std::size_t k = 0; first_known + k < values_.size(); ++k) {
    const double share = values_[first_known + k];
    if (share == 0.0) continue;
    const BlockPart& part = parts_.blocks[known_[k].block];
    for (const BlockValue& value : known_[k].point.values) {
      columns[static_cast<std::size_t>(part.columns[static_cast<std::size_t>(value.place)])] +=
          share * value.value;
    }
  }
  return columns;
}

}  // namespace haymow
