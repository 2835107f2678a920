#include "solver/uncertain_rows.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>
#include <utility>

#include "solver/bound_moves.h"

namespace haymow {
namespace {

// Every round halves the miss or better in practice; this guards against rounding.
constexpr int most_rounds = 200;

void check(const LinearProgram& program, std::span<const UncertainRow> rows, double z) {
  if (!std::isfinite(z) || z < 0.0) throw std::invalid_argument("z must be finite and not below 0");
  for (const UncertainRow& row : rows) {
    if (row.row < 0 || row.row >= program.row_count() ||
        std::isinf(program.rows()[static_cast<std::size_t>(row.row)].lower)) {
      throw std::invalid_argument("an uncertain row needs a lower bound");
    }
    for (const Term& term : row.deviations) {
      if (!(term.coefficient > 0.0) || !std::isfinite(term.coefficient)) {
        throw std::invalid_argument("a deviation must be above 0 and finite");
      }
    }
  }
}

// The program with a margin column taken off each uncertain row.
LinearProgram with_margins(const LinearProgram& program, std::span<const UncertainRow> rows,
                           std::vector<int>& margins) {
  LinearProgram guarded;
  for (const Column& column : program.columns()) guarded.add_column(column);
  std::vector<std::vector<int>> margins_of_row(program.rows().size());
  for (const UncertainRow& row : rows) {
    const auto index = static_cast<std::size_t>(row.row);
    const int margin = guarded.add_column(
        {.name = unused_column_name(guarded, "margin of " + program.rows()[index].name)});
    margins.push_back(margin);
    margins_of_row[index].push_back(margin);
  }
  for (std::size_t i = 0; i < program.rows().size(); ++i) {
    Row row = program.rows()[i];
    for (const int margin : margins_of_row[i]) row.terms.push_back({margin, -1.0});
    guarded.add_row(std::move(row));
  }
  return guarded;
}

// Relative to the largest of 1, the bound and the terms, as a certificate has it.
double miss_of(const LinearProgram& program, const UncertainRow& uncertain, double z,
               const std::vector<double>& x) {
  const Row& row = program.rows()[static_cast<std::size_t>(uncertain.row)];
  double activity = 0.0;
  double size = std::max(1.0, std::abs(row.lower));
  for (const Term& term : row.terms) {
    const double part = term.coefficient * x[static_cast<std::size_t>(term.column)];
    activity += part;
    size = std::max(size, std::abs(part));
  }
  return (row.lower - (activity - margin_of(uncertain, z, x))) / size;
}

// A margin costs nothing and has no upper bound, so a reduced cost below 0, if only by
// rounding, would leave no lower bound at all on the cost. Its row takes over what the
// tangents' duals add up to, rounded up: any duals give a valid bound.
void settle_margins(const LinearProgram& program, std::span<const UncertainRow> rows,
                    GuardedSolution& out) {
  constexpr double rounding = 1e-9;
  constexpr double upward = 1.0 + 1e-15;
  std::vector<double>& duals = out.solution.row_duals;
  std::vector<double> sums(rows.size(), 0.0);
  for (std::size_t t = 0; t < out.tangents.size(); ++t) {
    sums[out.tangents[t].uncertain] += duals[program.rows().size() + t];
  }
  for (std::size_t u = 0; u < rows.size(); ++u) {
    double& dual = duals[static_cast<std::size_t>(rows[u].row)];
    const double sum = sums[u] * upward;
    if (dual < sum && sum - dual <= rounding * std::max(1.0, sum)) dual = sum;
  }
}

}  // namespace

double margin_of(const UncertainRow& row, double z, const std::vector<double>& x) {
  double squares = 0.0;
  for (const Term& term : row.deviations) {
    const double part = term.coefficient * x[static_cast<std::size_t>(term.column)];
    squares += part * part;
  }
  return z * std::sqrt(squares);
}

std::vector<Term> tangent_at(const UncertainRow& row, double z, const std::vector<double>& x) {
  std::vector<Term> slopes;
  const double norm = margin_of(row, 1.0, x);
  if (norm <= 0.0) return slopes;
  for (const Term& term : row.deviations) {
    const double at = x[static_cast<std::size_t>(term.column)];
    const double slope = z * term.coefficient * term.coefficient * at / norm;
    if (slope != 0.0) slopes.push_back({term.column, slope});
  }
  return slopes;
}

GuardedSolution solve_guarded(const LinearProgram& program, std::span<const UncertainRow> rows,
                              double z, const SolveOptions& options) {
  check(program, rows, z);
  GuardedSolution out;
  WarmSolver solver(with_margins(program, rows, out.margins), options);
  for (out.rounds = 1; out.rounds <= most_rounds; ++out.rounds) {
    out.solution = solver.solve();
    if (out.solution.status != Status::optimal) break;
    const std::vector<double>& x = out.solution.columns;
    out.largest_miss = 0.0;
    bool cut = false;
    for (std::size_t u = 0; u < rows.size(); ++u) {
      const double miss = miss_of(program, rows[u], z, x);
      out.largest_miss = std::max(out.largest_miss, miss);
      if (miss <= guard_tolerance) continue;
      Tangent tangent{u, tangent_at(rows[u], z, x)};
      Row row{.name = unused_row_name(solver.program(), "tangent"), .lower = 0.0};
      row.terms.push_back({out.margins[u], 1.0});
      for (const Term& slope : tangent.slopes)
        row.terms.push_back({slope.column, -slope.coefficient});
      solver.add_row(std::move(row));
      out.tangents.push_back(std::move(tangent));
      cut = true;
    }
    if (!cut) break;
  }
  if (out.rounds > most_rounds) out.solution.status = Status::limit_reached;
  if (!out.solution.row_duals.empty()) settle_margins(program, rows, out);
  out.program = solver.program();
  return out;
}

}  // namespace haymow
