#include "solver/certify.h"

#include <Eigen/SparseCore>
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>

#include "solver/implied_box.h"

namespace haymow {
namespace {

using Matrix = Eigen::SparseMatrix<double, Eigen::RowMajor>;
using Vector = Eigen::VectorXd;

// A sum of products this small beside the largest of them is rounding, not a
// sign. Common practice, no source: some thousand units of the last place.
constexpr double rounding = 1e-12;

// How far from a whole number a whole column may be, absolute.
// GLPK's own tol_int is 1e-5; it rounds what it returns. Common practice, no source.
constexpr double whole_tolerance = 1e-6;

Eigen::Index index_of(std::size_t index) { return static_cast<Eigen::Index>(index); }

Matrix matrix_of(const LinearProgram& program) {
  Matrix matrix(program.row_count(), program.column_count());
  Eigen::VectorXi sizes(program.row_count());
  for (std::size_t i = 0; i < program.rows().size(); ++i) {
    sizes[index_of(i)] = static_cast<int>(program.rows()[i].terms.size());
  }
  matrix.reserve(sizes);
  for (std::size_t i = 0; i < program.rows().size(); ++i) {
    for (const Term& term : program.rows()[i].terms) {
      matrix.insert(index_of(i), term.column) = term.coefficient;
    }
  }
  return matrix;
}

bool is_finite(const std::vector<double>& values) {
  return std::all_of(values.begin(), values.end(),
                     [](double value) { return std::isfinite(value); });
}

Vector vector_of(const std::vector<double>& values) {
  return Eigen::Map<const Vector>(values.data(), index_of(values.size()));
}

double miss(double value, double lower, double upper) {
  return std::max({lower - value, value - upper, 0.0});
}

/// The size a miss of a bound is measured against.
double size_of(double lower, double upper, double largest_term) {
  double size = std::max(1.0, largest_term);
  if (std::isfinite(lower)) {
    size = std::max(size, std::abs(lower));
  }
  if (std::isfinite(upper)) {
    size = std::max(size, std::abs(upper));
  }
  return size;
}

double cost_of(const LinearProgram& program, const Vector& point) {
  double cost = 0.0;
  for (std::size_t j = 0; j < program.columns().size(); ++j) {
    cost += program.columns()[j].cost * point[index_of(j)];
  }
  return cost;
}

/// Multipliers without those that ask for a bound the row does not have.
struct Clipped {
  Vector multipliers;
  double largest_dropped = 0.0;
};

Clipped clipped(const LinearProgram& program, const std::vector<double>& row_multipliers) {
  Clipped result{vector_of(row_multipliers), 0.0};
  for (std::size_t i = 0; i < program.rows().size(); ++i) {
    const Row& row = program.rows()[i];
    double& multiplier = result.multipliers[index_of(i)];
    if (std::isinf(multiplier > 0.0 ? row.lower : row.upper) && multiplier != 0.0) {
      result.largest_dropped = std::max(result.largest_dropped, std::abs(multiplier));
      multiplier = 0.0;
    }
  }
  return result;
}

/// sum_i of y_i times the bound it leans on; y already clipped.
double row_part(const LinearProgram& program, const Vector& multipliers, double& size) {
  double sum = 0.0;
  for (std::size_t i = 0; i < program.rows().size(); ++i) {
    const double multiplier = multipliers[index_of(i)];
    if (multiplier != 0.0) {
      const Row& row = program.rows()[i];
      const double part = multiplier * (multiplier > 0.0 ? row.lower : row.upper);
      sum += part;
      size += std::abs(part);
    }
  }
  return sum;
}

/// Least value of sum_j weight_j x_j over the columns' bounds. Where a weight
/// pushes a column towards a bound it does not have, the bound that the rows
/// (and `cost`, see implied_box.h) imply serves; where they imply none, a
/// weight beyond rounding makes the least value -unlimited.
double column_part(const LinearProgram& program, const Vector& weights, const Vector& sizes,
                   double cost, double& size) {
  double sum = 0.0;
  std::optional<Box> implied;
  for (std::size_t j = 0; j < program.columns().size(); ++j) {
    const double weight = weights[index_of(j)];
    if (weight == 0.0) {
      continue;
    }
    const Column& column = program.columns()[j];
    double bound = weight > 0.0 ? column.lower : column.upper;
    if (std::isinf(bound)) {
      if (!implied) {
        implied = implied_box(program, cost);
      }
      bound = weight > 0.0 ? implied->lower[j] : implied->upper[j];
    }
    if (std::isinf(bound)) {
      if (std::abs(weight) <= rounding * sizes[index_of(j)]) {
        continue;
      }
      return -unlimited;
    }
    sum += weight * bound;
    size += std::abs(weight * bound);
  }
  return sum;
}

/// Largest |a_ij y_i| of each column, at least |cost_j|.
Vector term_sizes(const LinearProgram& program, const Matrix& matrix, const Vector& multipliers,
                  bool with_costs) {
  Vector sizes = Vector::Zero(program.column_count());
  for (std::size_t j = 0; with_costs && j < program.columns().size(); ++j) {
    sizes[index_of(j)] = std::abs(program.columns()[j].cost);
  }
  for (Eigen::Index i = 0; i < matrix.rows(); ++i) {
    for (Matrix::InnerIterator entry(matrix, i); entry; ++entry) {
      double& size = sizes[entry.col()];
      size = std::max(size, std::abs(entry.value() * multipliers[i]));
    }
  }
  return sizes;
}

Vector costs_of(const LinearProgram& program) {
  Vector costs(program.column_count());
  for (std::size_t j = 0; j < program.columns().size(); ++j) {
    costs[index_of(j)] = program.columns()[j].cost;
  }
  return costs;
}

/// Without the multipliers of which every product is rounding beside the largest cost: any
/// multipliers prove a bound, but one of 1e-17 would prove none where a column has no bound
/// to lean on.
void drop_rounding(const LinearProgram& program, double largest_cost, Vector& multipliers) {
  for (std::size_t i = 0; i < program.rows().size(); ++i) {
    double& multiplier = multipliers[index_of(i)];
    const auto& terms = program.rows()[i].terms;
    const bool is_rounding = std::all_of(terms.begin(), terms.end(), [&](const Term& term) {
      return std::abs(term.coefficient * multiplier) <= rounding * largest_cost;
    });
    if (largest_cost == 0.0 || is_rounding) multiplier = 0.0;
  }
}

/// Fills in the dual half of a certificate for a point that costs `cost`.
void certify_duals(const LinearProgram& program, const Matrix& matrix,
                   const std::vector<double>& row_duals, double cost, Certificate& certificate) {
  Clipped duals = clipped(program, row_duals);
  const Vector costs = costs_of(program);
  const double largest_cost = costs.size() == 0 ? 0.0 : costs.cwiseAbs().maxCoeff();
  drop_rounding(program, largest_cost, duals.multipliers);
  const Vector reduced = costs - matrix.transpose() * duals.multipliers;
  const Vector sizes = term_sizes(program, matrix, duals.multipliers, true);
  double wrong = duals.largest_dropped / std::max(1.0, largest_cost);
  for (std::size_t j = 0; j < program.columns().size(); ++j) {
    const Column& column = program.columns()[j];
    const double weight = reduced[index_of(j)];
    if (std::isinf(weight > 0.0 ? column.lower : column.upper)) {
      wrong = std::max(wrong, std::abs(weight) / std::max(1.0, sizes[index_of(j)]));
    }
  }
  certificate.largest_dual_violation = wrong;
  double size = 0.0;
  certificate.lower_bound =
      row_part(program, duals.multipliers, size) + column_part(program, reduced, sizes, cost, size);
}

double relative_gap(double cost, double lower_bound) {
  return (cost - lower_bound) / std::max(1.0, std::abs(cost));
}

bool fits(const LinearProgram& program, const Solution& solution) {
  return solution.usable() && solution.columns.size() == program.columns().size() &&
         is_finite(solution.columns);
}

}  // namespace

double largest_violation(const LinearProgram& program, const std::vector<double>& columns) {
  if (!is_finite(columns)) return unlimited;
  double largest = 0.0;
  for (const Row& row : program.rows()) {
    double activity = 0.0;
    double largest_term = 0.0;
    for (const Term& term : row.terms) {
      const double part = term.coefficient * columns[static_cast<std::size_t>(term.column)];
      activity += part;
      largest_term = std::max(largest_term, std::abs(part));
    }
    largest = std::max(largest, miss(activity, row.lower, row.upper) /
                                    size_of(row.lower, row.upper, largest_term));
  }
  for (std::size_t j = 0; j < program.columns().size(); ++j) {
    const Column& column = program.columns()[j];
    largest = std::max(largest, miss(columns[j], column.lower, column.upper) /
                                    size_of(column.lower, column.upper, 0.0));
  }
  return largest;
}

bool Certificate::holds() const {
  // A gap far below zero is as suspect as one above: the bound passes the cost.
  return largest_violation <= certificate_tolerance &&
         largest_dual_violation <= certificate_tolerance &&
         std::abs(relative_gap) <= certificate_tolerance;
}

Certificate certify(const LinearProgram& program, const Solution& solution) {
  Certificate certificate;
  if (!fits(program, solution) || solution.row_duals.size() != program.rows().size() ||
      !is_finite(solution.row_duals)) {
    return certificate;
  }
  certificate.largest_violation = largest_violation(program, solution.columns);
  const Matrix matrix = matrix_of(program);
  const Vector point = vector_of(solution.columns);
  const double cost = cost_of(program, point);
  certify_duals(program, matrix, solution.row_duals, cost, certificate);
  certificate.relative_gap = relative_gap(cost, certificate.lower_bound);
  return certificate;
}

Certificate certify_feasible(const LinearProgram& program, const Solution& solution,
                             double lower_bound) {
  Certificate certificate;
  if (!fits(program, solution) || std::isnan(lower_bound)) {
    return certificate;
  }
  const Vector point = vector_of(solution.columns);
  certificate.largest_violation = largest_violation(program, solution.columns);
  for (std::size_t j = 0; j < program.columns().size(); ++j) {
    const double value = point[index_of(j)];
    const double off = std::abs(value - std::round(value));
    if (program.columns()[j].whole && off > whole_tolerance) {
      certificate.largest_violation = std::max(certificate.largest_violation, off);
    }
  }
  certificate.largest_dual_violation = 0.0;  // no duals take part
  certificate.lower_bound = lower_bound;
  certificate.relative_gap = relative_gap(cost_of(program, point), lower_bound);
  return certificate;
}

double infeasibility_proof(const LinearProgram& program,
                           const std::vector<double>& row_multipliers) {
  if (row_multipliers.size() != program.rows().size() || !is_finite(row_multipliers)) {
    return -unlimited;
  }
  const Matrix matrix = matrix_of(program);
  const Vector multipliers = clipped(program, row_multipliers).multipliers;
  // Any point has y'Ax >= least; no point within the columns' bounds has more
  // than most. least > most is the contradiction.
  double size = 0.0;
  const double least = row_part(program, multipliers, size);
  const Vector weights = -(matrix.transpose() * multipliers);
  const Vector sizes = term_sizes(program, matrix, multipliers, false);
  const double most = -column_part(program, weights, sizes, unlimited, size);
  if (size == 0.0) {
    return most == 0.0 ? 0.0 : -unlimited;
  }
  return (least - most) / size;
}

}  // namespace haymow
