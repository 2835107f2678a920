#include "solver/block_pricing.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "solver/attempts.h"

namespace haymow {
namespace {

bool same_shape(const Row& a, const Row& b, const BlockParts& parts) {
  return std::equal(a.terms.begin(), a.terms.end(), b.terms.begin(), b.terms.end(),
                    [&](const Term& x, const Term& y) {
                      return parts.place[static_cast<std::size_t>(x.column)] ==
                             parts.place[static_cast<std::size_t>(y.column)];
                    });
}

// What is so small beside what it may be, or beside what cancels to it, is rounding of
// nothing. Kept, 1e-43 kg of a feed has taken a column's scale so far off that no basis of
// the master could be factorized, and 1e-16 that a master's answer was none.
constexpr double residue = 1e-13;

}  // namespace

BlockPricer::BlockPricer(const LinearProgram& program, const BlockParts& parts, std::size_t block,
                         double patience)
    : program_(program),
      parts_(parts),
      part_(parts.blocks[block]),
      patience_(patience),
      problem_(own_program(), Wholeness::ignore),
      duals_(part_.rows.size(), 0.0) {}

LinearProgram BlockPricer::own_program() const {
  LinearProgram own;
  for (const int column : part_.columns) {
    const auto j = static_cast<std::size_t>(column);
    own.add_column({std::to_string(j), parts_.box.lower[j], parts_.box.upper[j], 0.0});
  }
  for (const int row : part_.rows) {
    const Row& whole = program_.rows()[static_cast<std::size_t>(row)];
    Row mine{std::to_string(row), whole.lower, whole.upper, whole.terms};
    for (Term& term : mine.terms) term.column = parts_.place[static_cast<std::size_t>(term.column)];
    own.add_row(std::move(mine));
  }
  return own;
}

void BlockPricer::start_like(const BlockPricer& other) {
  if (!other.basis_) return;
  problem_.start_from(*other.basis_);
  basis_ = other.basis_;
}

bool BlockPricer::is_shaped_like(const BlockPricer& other) const {
  if (part_.columns.size() != other.part_.columns.size() ||
      part_.rows.size() != other.part_.rows.size()) {
    return false;
  }
  for (std::size_t i = 0; i < part_.rows.size(); ++i) {
    if (!same_shape(program_.rows()[static_cast<std::size_t>(part_.rows[i])],
                    program_.rows()[static_cast<std::size_t>(other.part_.rows[i])], parts_)) {
      return false;
    }
  }
  return true;
}

void BlockPricer::price(std::span<const double> master_duals, BlockCosts costs,
                        const SolveOptions& options) {
  std::vector<double> reduced(part_.columns.size(), 0.0);
  for (std::size_t j = 0; j < reduced.size(); ++j) {
    if (costs == BlockCosts::given) {
      reduced[j] = program_.columns()[static_cast<std::size_t>(part_.columns[j])].cost;
    }
    for (const RowTerm& term : part_.in_master(j)) {
      reduced[j] -= term.coefficient * master_duals[static_cast<std::size_t>(term.row)];
    }
    problem_.set_cost(static_cast<int>(j), reduced[j]);
  }
  Solution solution = optimise(options);
  const bool has_answer = solution.usable();
  if (has_answer) {
    basis_ = std::move(solution.basis);
    duals_ = std::move(solution.row_duals);
  }
  // Any multipliers give a bound: where the arithmetic fails, the last ones serve.
  const bool failed = solution.status == Status::gave_up || solution.status == Status::not_solved;
  status_ = failed && has_point_ ? Status::optimal : solution.status;
  bound_ = bound_from(std::move(reduced));
  if (!has_answer) return;
  has_point_ = true;
  std::vector<BlockValue> values;
  for (std::size_t j = 0; j < solution.columns.size(); ++j) {
    values.push_back({static_cast<int>(j), solution.columns[j]});
  }
  point_ = made_of(std::move(values));
}

// At first by the dual method: costs are seldom below 0, so that the slacks are a start,
// and the primal method, with many rows to meet at costs of nothing, has lost its way
// there (measured).
Solution BlockPricer::optimise(const SolveOptions& options) {
  Attempts attempts;
  attempts.first = basis_ ? Method::primal : Method::dual;
  attempts.pivots =
      static_cast<int>(patience_ * static_cast<double>(part_.rows.size() + part_.columns.size()));
  attempts.has_answer = has_point_;
  attempts.to_the_end = !has_point_;  // without, the last multipliers serve
  return optimise_in_turn(problem_, attempts, options);
}

double BlockPricer::bound_from(std::vector<double> reduced) {
  double sum = 0.0;
  for (std::size_t i = 0; i < duals_.size(); ++i) {
    const Row& row = program_.rows()[static_cast<std::size_t>(part_.rows[i])];
    double& dual = duals_[i];
    const double leans_on = dual > 0.0 ? row.lower : row.upper;
    if (std::isinf(leans_on)) dual = 0.0;  // the arithmetic's: there is nothing to lean on
    if (dual == 0.0) continue;
    sum += dual * leans_on;
    for (const Term& term : row.terms) {
      reduced[static_cast<std::size_t>(parts_.place[static_cast<std::size_t>(term.column)])] -=
          dual * term.coefficient;
    }
  }
  for (std::size_t j = 0; j < reduced.size(); ++j) {
    const auto column = static_cast<std::size_t>(part_.columns[j]);
    sum += reduced[j] * (reduced[j] > 0.0 ? parts_.box.lower[column] : parts_.box.upper[column]);
  }
  return sum;
}

BlockPoint BlockPricer::made_of(std::vector<BlockValue> values) const {
  BlockPoint point;
  std::erase_if(values, [this](const BlockValue& value) {
    const auto column =
        static_cast<std::size_t>(part_.columns[static_cast<std::size_t>(value.place)]);
    return std::abs(value.value) <= residue * std::max(std::abs(parts_.box.lower[column]),
                                                       std::abs(parts_.box.upper[column]));
  });
  std::vector<RowTerm> terms;
  for (const BlockValue& value : values) {
    const auto j = static_cast<std::size_t>(value.place);
    point.cost += program_.columns()[static_cast<std::size_t>(part_.columns[j])].cost * value.value;
    for (const RowTerm& term : part_.in_master(j)) {
      terms.push_back({term.row, term.coefficient * value.value});
    }
  }
  std::stable_sort(terms.begin(), terms.end(),
                   [](const RowTerm& a, const RowTerm& b) { return a.row < b.row; });
  for (auto from = terms.begin(); from != terms.end();) {
    RowTerm sum{from->row, 0.0};
    double most = 0.0;
    for (; from != terms.end() && from->row == sum.row; ++from) {
      sum.coefficient += from->coefficient;
      most = std::max(most, std::abs(from->coefficient));
    }
    if (std::abs(sum.coefficient) > residue * most) point.in_master.push_back(sum);
  }
  point.values = std::move(values);
  return point;
}

BlockPoint BlockPricer::point_of(std::span<const double> columns) const {
  std::vector<BlockValue> values;
  for (std::size_t j = 0; j < part_.columns.size(); ++j) {
    values.push_back({static_cast<int>(j), columns[static_cast<std::size_t>(part_.columns[j])]});
  }
  return made_of(std::move(values));
}

}  // namespace haymow
