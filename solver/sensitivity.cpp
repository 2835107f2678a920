#include "solver/sensitivity.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <stdexcept>
#include <string>
#include <utility>

#include "solver/bound_moves.h"
#include "solver/solve.h"

namespace haymow {
namespace {

// A bound counts as met within this, relative to its row (sensitivity.h).
constexpr double active_tolerance = 1e-7;

// Two costs this near, relative, lie on one straight piece. Ten times the
// solver's own tolerance.
constexpr double same_cost_tolerance = 1e-8;

// A cost of this size beside the largest cost of a column is a solver's zero.
constexpr double zero_rate_tolerance = 1e-10;

// Steps back from the last feasible value, in the rounding of which the
// program may seem infeasible. Relative.
constexpr double edge_steps[] = {0.0, 1e-10, 1e-8, 1e-6};

// The search starts at this part of the span and grows by this factor until
// the cost leaves the line: an end is mostly near, and near programs take few
// pivots. Chosen by trial; they change the time taken, not the answer.
constexpr double first_look = 1.0 / 1024.0;
constexpr double look_growth = 4.0;

// Every tangent finds a new piece of the cost, of which there are finitely
// many; this only guards against rounding.
constexpr int most_tangents = 200;

double inward_of(Bound bound) { return bound.side == Side::lower ? 1.0 : -1.0; }

double size_of(const LinearProgram& program, const Solution& solution, Bound bound) {
  double size = std::max(1.0, std::abs(value_of(program, bound)));
  if (bound.of == Bound::Of::row) {
    for (const Term& term : program.rows()[static_cast<std::size_t>(bound.index)].terms) {
      size = std::max(size, std::abs(term.coefficient *
                                     solution.columns[static_cast<std::size_t>(term.column)]));
    }
  }
  return size;
}

double activity_of(const LinearProgram& program, const Solution& solution, Bound bound) {
  double activity = 0.0;
  for (const Term& term : terms_of(program, bound)) {
    activity += term.coefficient * solution.columns[static_cast<std::size_t>(term.column)];
  }
  return activity;
}

bool is_active(const LinearProgram& program, const Solution& solution, Bound bound) {
  const double value = value_of(program, bound);
  return std::isfinite(value) && std::abs(activity_of(program, solution, bound) - value) <=
                                     active_tolerance * size_of(program, solution, bound);
}

void check(const LinearProgram& program, const Solution& solution) {
  if (program.has_whole_columns()) {
    throw std::invalid_argument("prices at the margin exist for continuous programs only");
  }
  if (solution.status != Status::optimal || solution.columns.size() != program.columns().size()) {
    throw std::invalid_argument("prices at the margin need the optimal answer of the program");
  }
}

/// Starts where `solution` stopped.
SolveOptions from_basis_of(const Solution& solution) {
  SolveOptions options;
  options.start = solution.basis ? &*solution.basis : nullptr;
  return options;
}

/// The program over directions d away from an optimum x: rows and columns keep
/// only the bounds that x meets, each moved to 0. Moving the bound of one of
/// them to t makes the least cost t times the one-sided derivative of the
/// cost of the whole program: LP duality over the optimal dual face.
class Directions {
 public:
  // The basis of the optimum is one of the directions d = 0, too.
  Directions(const LinearProgram& program, const Solution& solution)
      : solver_(over_directions(program, solution), from_basis_of(solution)) {
    for (const Column& column : program.columns()) {
      largest_cost_ = std::max(largest_cost_, std::abs(column.cost));
    }
  }

  /// Rate of the cost when the active `bound` is moved by `step` (1 or -1);
  /// unlimited when there is no direction that keeps up.
  [[nodiscard]] double rate(Bound bound, double step) {
    // One unit of a row of large coefficients moves the columns by next to
    // nothing; as many units as its largest coefficient move them by about 1.
    const double units = largest_coefficient(bound);
    const Solution solution = solve_moved(bound, step * units);
    if (solution.status == Status::infeasible) {
      return unlimited;
    }
    if (solution.status != Status::optimal) {
      throw std::runtime_error("the price of a bound could not be computed: solver " +
                               std::string(name_of(solution.status)));
    }
    return std::abs(solution.cost) <= zero_rate_tolerance * largest_cost_ ? 0.0
                                                                          : solution.cost / units;
  }

 private:
  /// An equality keeps to 0 what its other side says: moving one side of it
  /// outward frees that side alone, moving it inward past the other has no answer.
  [[nodiscard]] Solution solve_moved(Bound bound, double step) {
    const Bound other{bound.of, bound.index, bound.side == Side::lower ? Side::upper : Side::lower};
    const bool crosses =
        step * inward_of(bound) > 0.0 && std::isfinite(value_of(solver_.program(), other));
    if (crosses) {
      Solution none;
      none.status = Status::infeasible;
      return none;
    }
    move_bound(solver_, bound, step);
    Solution solution = solver_.solve();
    move_bound(solver_, bound, 0.0);
    return solution;
  }

  [[nodiscard]] double largest_coefficient(Bound bound) const {
    double largest = 0.0;
    for (const Term& term : terms_of(solver_.program(), bound)) {
      largest = std::max(largest, std::abs(term.coefficient));
    }
    return largest > 0.0 ? largest : 1.0;
  }

  static LinearProgram over_directions(const LinearProgram& program, const Solution& solution) {
    LinearProgram directions = program;
    const auto end = [&](Bound bound) {
      if (is_active(program, solution, bound)) {
        return 0.0;
      }
      return bound.side == Side::lower ? -unlimited : unlimited;
    };
    for (int j = 0; j < program.column_count(); ++j) {
      directions.set_column_bounds(j, end({Bound::Of::column, j, Side::lower}),
                                   end({Bound::Of::column, j, Side::upper}));
    }
    for (int i = 0; i < program.row_count(); ++i) {
      directions.set_row_bounds(i, end({Bound::Of::row, i, Side::lower}),
                                end({Bound::Of::row, i, Side::upper}));
    }
    return directions;
  }

  double largest_cost_ = 0.0;
  WarmSolver solver_;
};

double cost_of(const LinearProgram& program, const Solution& solution) {
  double cost = 0.0;
  for (std::size_t j = 0; j < solution.columns.size(); ++j) {
    cost += program.columns()[j].cost * solution.columns[j];
  }
  return cost;
}

/// The cost of the program as a function of how far one bound is moved.
class CostCurve {
 public:
  CostCurve(const LinearProgram& program, const Solution& solution)
      : program_(program),
        cost_here_(cost_of(program, solution)),
        solver_(program, from_basis_of(solution)),
        reach_(without_costs(program), from_basis_of(solution)) {}

  /// How far `bound` may move by `direction`, at most `span`, until the cost
  /// leaves the straight line of slope `rate` a unit; nothing if it does not.
  ///
  /// The cost is convex in the move, so a tangent at a far point lies below it
  /// and crosses the line at or beyond the end of the straight piece. The
  /// crossing is the next far point; every tangent belongs to a new piece.
  [[nodiscard]] std::optional<double> straight_until(Bound bound, double direction, double rate,
                                                     double span) {
    Far far;
    double move = span * first_look;
    while (true) {
      far = at(bound, direction, move);
      if (std::isinf(far.cost)) {
        far = at_edge(bound, direction, move);
        break;
      }
      if (!is_straight(far, rate)) {
        break;
      }
      if (move >= span) {
        return std::nullopt;
      }
      move = std::min(span, move * look_growth);
    }
    for (int tangent = 0; tangent < most_tangents && !is_straight(far, rate); ++tangent) {
      // The tangent is far.cost + far.slope * (t - far.move).
      const double crossing = (far.cost - far.slope * far.move - cost_here_) / (rate - far.slope);
      if (!(crossing > 0.0)) {
        return 0.0;
      }
      if (crossing >= far.move) {
        break;  // parallel within rounding
      }
      far = at(bound, direction, crossing);
      if (std::isinf(far.cost)) {
        return 0.0;  // the arithmetic failed: claim nothing beyond the value
      }
    }
    return far.move;
  }

 private:
  struct Far {
    double move = 0.0;
    double cost = unlimited;
    double slope = 0.0;  // of one tangent there, a unit of the move
  };

  [[nodiscard]] bool is_straight(const Far& far, double rate) const {
    const double line = cost_here_ + rate * far.move;
    return far.cost - line <= same_cost_tolerance * std::max(1.0, std::abs(far.cost));
  }

  static LinearProgram without_costs(LinearProgram program) {
    for (int j = 0; j < program.column_count(); ++j) {
      program.set_cost(j, 0.0);
    }
    return program;
  }

  /// The last feasible point before `beyond`, at which there is none.
  [[nodiscard]] Far at_edge(Bound bound, double direction, double beyond) {
    const double edge = std::min(most_inward(bound), beyond);
    for (const double step : edge_steps) {
      const Far far =
          at(bound, direction, edge - step * std::max(1.0, std::abs(value_of(program_, bound))));
      if (std::isfinite(far.cost)) {
        return far;
      }
    }
    return {.move = 0.0, .cost = cost_here_};  // not established: claim nothing beyond the value
  }

  /// How far `bound` may be moved inward before no point is left.
  [[nodiscard]] double most_inward(Bound bound) {
    const std::vector<Term> terms = terms_of(program_, bound);
    for (const Term& term : terms) {
      reach_.set_cost(term.column, -inward_of(bound) * term.coefficient);
    }
    const Solution solution = reach_.solve();
    for (const Term& term : terms) {
      reach_.set_cost(term.column, 0.0);
    }
    if (solution.status != Status::optimal) {
      return unlimited;
    }
    return std::max(0.0, -solution.cost - inward_of(bound) * value_of(program_, bound));
  }

  [[nodiscard]] Far at(Bound bound, double direction, double move) {
    const double value = value_of(program_, bound);
    double moved = value + direction * move;
    // Rounding must not carry the bound past its own other side.
    const Bound other{bound.of, bound.index, bound.side == Side::lower ? Side::upper : Side::lower};
    const double opposite = value_of(program_, other);
    moved = bound.side == Side::lower ? std::min(moved, opposite) : std::max(moved, opposite);
    move_bound(solver_, bound, moved);
    const Solution solution = solver_.solve();
    move_bound(solver_, bound, value);
    if (solution.status != Status::optimal) {
      return {.move = move};
    }
    const auto index = static_cast<std::size_t>(bound.index);
    const double dual =
        bound.of == Bound::Of::row ? solution.row_duals[index] : solution.reduced_costs[index];
    return {.move = move, .cost = solution.cost, .slope = direction * dual};
  }

  const LinearProgram& program_;
  double cost_here_;
  WarmSolver solver_;  // the program
  WarmSolver reach_;   // the same rows, asked how far they reach
};

/// Prices one bound after another on shared programs.
class Pricing {
 public:
  Pricing(const LinearProgram& program, const Solution& solution)
      : program_(program),
        solution_(solution),
        directions_(program, solution),
        curve_(program, solution) {}

  [[nodiscard]] BoundPrice price(Bound bound, double least_span) {
    BoundPrice price;
    price.bound = bound;
    price.value = value_of(program_, bound);
    if (std::isinf(price.value)) {
      return price;
    }
    const double inward = inward_of(bound);
    if (is_active(program_, solution_, bound)) {
      price.tightening_costs = std::max(0.0, directions_.rate(bound, inward));
      price.loosening_saves = std::max(0.0, -directions_.rate(bound, -inward));
    }
    const double span = std::max(std::abs(price.value), least_span);
    if (std::isfinite(price.tightening_costs)) {
      price.tightening_until = value_at(
          price.value, inward, curve_.straight_until(bound, inward, price.tightening_costs, span));
    }
    // What saves nothing at first never will: the cost is convex in the bound.
    if (price.loosening_saves > 0.0) {
      price.loosening_until =
          value_at(price.value, -inward,
                   curve_.straight_until(bound, -inward, -price.loosening_saves, span));
    }
    return price;
  }

 private:
  static std::optional<double> value_at(double value, double direction,
                                        std::optional<double> move) {
    return move ? std::optional(value + direction * *move) : std::nullopt;
  }

  const LinearProgram& program_;
  const Solution& solution_;
  Directions directions_;
  CostCurve curve_;
};

}  // namespace

std::vector<Bound> active_bounds(const LinearProgram& program, const Solution& solution) {
  std::vector<Bound> active;
  if (solution.columns.size() != program.columns().size()) {
    return active;
  }
  const auto add = [&](Bound::Of of, int count) {
    for (int index = 0; index < count; ++index) {
      for (const Side side : {Side::lower, Side::upper}) {
        const Bound bound{of, index, side};
        const bool is_fact =
            of == Bound::Of::column && side == Side::lower && value_of(program, bound) == 0.0;
        if (!is_fact && is_active(program, solution, bound)) {
          active.push_back(bound);
        }
      }
    }
  };
  add(Bound::Of::row, program.row_count());
  add(Bound::Of::column, program.column_count());
  return active;
}

std::vector<BoundPrice> bound_prices(const LinearProgram& program, const Solution& solution,
                                     std::span<const Bound> bounds, double least_span) {
  check(program, solution);
  std::vector<BoundPrice> prices;
  if (bounds.empty()) {
    return prices;
  }
  Pricing pricing(program, solution);
  prices.reserve(bounds.size());
  for (const Bound bound : bounds) {
    prices.push_back(pricing.price(bound, least_span));
  }
  return prices;
}

std::optional<double> entry_cost(const LinearProgram& program, const Solution& solution,
                                 int column) {
  check(program, solution);
  const Bound floor{Bound::Of::column, column, Side::lower};
  const bool is_at_floor = is_active(program, solution, floor);  // refuses a wrong index
  const double cost_now = program.columns()[static_cast<std::size_t>(column)].cost;
  if (!is_at_floor) {
    return cost_now;
  }
  const double rate = Directions(program, solution).rate(floor, 1.0);
  if (std::isinf(rate)) {
    return std::nullopt;
  }
  return cost_now - rate;
}

}  // namespace haymow
