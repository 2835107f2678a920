#include "solver/block_bound.h"

#include <cmath>
#include <cstddef>

namespace haymow {

double BlockBound::at(std::vector<double>& duals, BlockCosts costs) const {
  double sum = 0.0;
  std::vector<double> reduced(parts_.shared.size(), 0.0);
  for (std::size_t j = 0; j < reduced.size() && costs == BlockCosts::given; ++j) {
    reduced[j] = program_.columns()[static_cast<std::size_t>(parts_.shared[j])].cost;
  }
  for (std::size_t i = 0; i < duals.size(); ++i) {
    sum += row_part(duals[i], program_.rows()[static_cast<std::size_t>(parts_.master_rows[i])],
                    reduced);
  }
  for (std::size_t j = 0; j < reduced.size(); ++j) {
    if (reduced[j] == 0.0) continue;
    const auto column = static_cast<std::size_t>(parts_.shared[j]);
    sum += reduced[j] * (reduced[j] > 0.0 ? box_.lower[column] : box_.upper[column]);
  }
  return sum;
}

double BlockBound::row_part(double& dual, const Row& row, std::vector<double>& reduced) const {
  const double leans_on = dual > 0.0 ? row.lower : row.upper;
  if (std::isinf(leans_on)) dual = 0.0;
  if (dual == 0.0) return 0.0;
  for (const Term& term : row.terms) {
    const auto j = static_cast<std::size_t>(term.column);
    if (is_shared(j)) {
      reduced[static_cast<std::size_t>(parts_.place[j])] -= dual * term.coefficient;
    }
  }
  return dual * leans_on;
}

bool BlockBound::is_shared(std::size_t column) const {
  const auto place = static_cast<std::size_t>(parts_.place[column]);
  return place < parts_.shared.size() && parts_.shared[place] == static_cast<int>(column);
}

double BlockBound::of_costs() const {
  double sum = 0.0;
  for (std::size_t j = 0; j < program_.columns().size(); ++j) {
    const double cost = program_.columns()[j].cost;
    if (cost != 0.0) sum += cost * (cost > 0.0 ? box_.lower[j] : box_.upper[j]);
  }
  return sum;
}

void BlockBound::narrow(double cost) {
  const Box box = implied_box(program_, cost);
  for (const int column : parts_.shared) {
    const auto j = static_cast<std::size_t>(column);
    if (std::isinf(box_.lower[j])) box_.lower[j] = box.lower[j];
    if (std::isinf(box_.upper[j])) box_.upper[j] = box.upper[j];
  }
}

}  // namespace haymow
