#include "solver/conflict.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <stdexcept>
#include <string>
#include <tuple>
#include <utility>

#include "solver/bound_moves.h"
#include "solver/certify.h"
#include "solver/elastic.h"
#include "solver/solve.h"

namespace haymow {
namespace {

// A miss this small relative to the bound is the solver's own tolerance, not a
// miss. GLPK's default tol_bnd.
constexpr double miss_tolerance = 1e-7;

// Room given to a bound that a first program has placed, so that the second
// finds it feasible in its own rounding. Relative; wider on the second try.
constexpr double placing_room = 1e-9;
constexpr double wider_placing_room = 1e-7;

bool is_member(const LinearProgram& program, Bound bound) {
  const double value = value_of(program, bound);
  const bool is_fact = bound.of == Bound::Of::column && bound.side == Side::lower && value == 0.0;
  return std::isfinite(value) && !is_fact;
}

std::vector<Bound> members_of(const LinearProgram& program) {
  std::vector<Bound> members;
  const auto add = [&](Bound::Of of, int count) {
    for (int index = 0; index < count; ++index) {
      for (const Side side : {Side::lower, Side::upper}) {
        const Bound bound{of, index, side};
        if (is_member(program, bound)) {
          members.push_back(bound);
        }
      }
    }
  };
  add(Bound::Of::row, program.row_count());
  add(Bound::Of::column, program.column_count());
  return members;
}

bool contains(std::span<const Bound> bounds, Bound bound) {
  return std::find(bounds.begin(), bounds.end(), bound) != bounds.end();
}

LinearProgram without_costs(LinearProgram program) {
  for (int j = 0; j < program.column_count(); ++j) {
    program.set_cost(j, 0.0);
  }
  return program;
}

enum class Answer { feasible, infeasible, unknown };

/// Asks of a program, some of whose bounds are left out, whether it has a point.
class Feasibility {
 public:
  explicit Feasibility(const LinearProgram& program)
      : given_(program), solver_(without_costs(program)) {}

  void leave_out(Bound bound) { move_bound(solver_, bound, value_when_left_out(given_, bound)); }
  void put_back(Bound bound) { move_bound(solver_, bound, value_of(given_, bound)); }

  [[nodiscard]] Answer ask() {
    Answer answer = answer_of(solver_.solve().status);
    if (answer == Answer::feasible && heeds_wholeness_) {
      answer = answer_of(solve(solver_.program()).status);
    }
    return answer;
  }

  /// From now on also asks for whole numbers where columns are whole.
  void heed_wholeness() { heeds_wholeness_ = true; }
  [[nodiscard]] bool heeds_wholeness() const { return heeds_wholeness_; }

  /// The program as it stands, without costs.
  [[nodiscard]] const LinearProgram& program() const { return solver_.program(); }

 private:
  static Answer answer_of(Status status) {
    switch (status) {
      case Status::optimal:
      case Status::unbounded:
        return Answer::feasible;
      case Status::infeasible:
        return Answer::infeasible;
      default:
        return Answer::unknown;
    }
  }

  const LinearProgram& given_;
  WarmSolver solver_;
  bool heeds_wholeness_ = false;
};

/// One multiplier a row: the duals of the elastic program, where a row is
/// weighed by its largest coefficient so that no unit drowns another.
std::vector<double> farkas_multipliers(const LinearProgram& program) {
  std::vector<double> weights;
  for (const Row& row : program.rows()) {
    double largest = 0.0;
    for (const Term& term : row.terms) {
      largest = std::max(largest, std::abs(term.coefficient));
    }
    weights.push_back(largest > 0.0 ? 1.0 / largest : 1.0);
  }
  LinearProgram elastic = elastic_of(program, weights).program;
  WarmSolver solver(elastic);  // ignores wholeness: the proof is of the rows alone
  return solver.solve().row_duals;
}

/// The bounds that a proof leans on.
std::vector<Bound> support_of(const LinearProgram& program, const std::vector<double>& proof) {
  std::vector<Bound> support;
  std::vector<double> weights(program.columns().size(), 0.0);
  for (std::size_t i = 0; i < proof.size(); ++i) {
    if (proof[i] == 0.0) {
      continue;
    }
    support.push_back(
        {Bound::Of::row, static_cast<int>(i), proof[i] > 0.0 ? Side::lower : Side::upper});
    for (const Term& term : program.rows()[i].terms) {
      weights[static_cast<std::size_t>(term.column)] += proof[i] * term.coefficient;
    }
  }
  for (std::size_t j = 0; j < weights.size(); ++j) {
    if (weights[j] != 0.0) {
      support.push_back(
          {Bound::Of::column, static_cast<int>(j), weights[j] > 0.0 ? Side::upper : Side::lower});
    }
  }
  return support;
}

/// Leaves out each of `candidates` that the conflict does not need. The bounds
/// that stay are added to `kept`; false when an answer was unknown.
bool filter(Feasibility& feasibility, std::span<const Bound> candidates, std::vector<Bound>& kept) {
  bool is_certain = true;
  for (const Bound bound : candidates) {
    feasibility.leave_out(bound);
    const Answer answer = feasibility.ask();
    if (answer != Answer::infeasible) {
      feasibility.put_back(bound);
      kept.push_back(bound);
      is_certain = is_certain && answer == Answer::feasible;
    }
  }
  return is_certain;
}

/// Narrows `candidates` to those a Farkas proof leans on, if that is enough.
void keep_support(Feasibility& feasibility, std::vector<Bound>& candidates) {
  const std::vector<double> proof = farkas_multipliers(feasibility.program());
  if (infeasibility_proof(feasibility.program(), proof) <= certificate_tolerance) {
    return;
  }
  const std::vector<Bound> support = support_of(feasibility.program(), proof);
  std::vector<Bound> inside;
  std::vector<Bound> outside;
  for (const Bound bound : candidates) {
    (contains(support, bound) ? inside : outside).push_back(bound);
  }
  for (const Bound bound : outside) {
    feasibility.leave_out(bound);
  }
  if (feasibility.ask() == Answer::infeasible) {
    candidates = inside;
    return;
  }
  for (const Bound bound : outside) {
    feasibility.put_back(bound);
  }
}

/// True when leaving out any one member gives an answer, each tried.
bool is_minimal(Feasibility& feasibility, std::span<const Bound> members) {
  if (feasibility.ask() != Answer::infeasible) {
    return false;
  }
  bool is_minimal = true;
  for (const Bound bound : members) {
    feasibility.leave_out(bound);
    is_minimal = is_minimal && feasibility.ask() == Answer::feasible;
    feasibility.put_back(bound);
  }
  return is_minimal;
}

void prove(const LinearProgram& program, const Feasibility& feasibility, Conflict& conflict) {
  conflict.proof = farkas_multipliers(feasibility.program());
  if (conflict.proof.empty()) {
    conflict.proof.assign(program.rows().size(), 0.0);
  }
  conflict.proof_strength = std::max(0.0, infeasibility_proof(program, conflict.proof));
}

void sort_members(std::vector<Bound>& members) {
  std::sort(members.begin(), members.end(), [](const Bound& a, const Bound& b) {
    return std::tuple(a.of, a.index, a.side) < std::tuple(b.of, b.index, b.side);
  });
}

double room(double value, double relative) { return relative * std::max(1.0, std::abs(value)); }

/// Reads a point of `program` out of an answer to a program that extends it.
Solution point_of(const LinearProgram& program, const Solution& extended) {
  Solution solution;
  solution.status = extended.status;
  solution.iterations = extended.iterations;
  if (!extended.usable()) {
    return solution;
  }
  solution.columns.assign(extended.columns.begin(),
                          extended.columns.begin() + program.column_count());
  for (std::size_t j = 0; j < solution.columns.size(); ++j) {
    solution.cost += program.columns()[j].cost * solution.columns[j];
  }
  for (const Row& row : program.rows()) {
    double activity = 0.0;
    for (const Term& term : row.terms) {
      activity += term.coefficient * solution.columns[static_cast<std::size_t>(term.column)];
    }
    solution.rows.push_back(activity);
  }
  return solution;
}

void check_weights(const LinearProgram& program, std::span<const double> weights) {
  if (weights.size() != program.rows().size()) {
    throw std::invalid_argument(
        "there must be one weight a row: " + std::to_string(program.row_count()) + " rows, " +
        std::to_string(weights.size()) + " weights");
  }
  for (std::size_t i = 0; i < weights.size(); ++i) {
    if (!(weights[i] >= 0.0)) {
      throw std::invalid_argument("the weight of row `" + program.rows()[i].name +
                                  "` is negative or not a number");
    }
  }
}

/// The cheapest point of `elastic` that misses by no more than `least_miss`.
Solution cheapest_at(const LinearProgram& program, const Elastic& elastic, double least_miss,
                     const SolveOptions& options) {
  LinearProgram second = elastic.program;
  Row misses{.name = unused_row_name(program, "all misses"),
             .upper = least_miss + room(least_miss, placing_room)};
  for (const Give& give : elastic.gives) {
    const double weight = second.columns()[static_cast<std::size_t>(give.column)].cost;
    misses.terms.push_back({give.column, weight});
    second.set_cost(give.column, 0.0);
  }
  for (int j = 0; j < program.column_count(); ++j) {
    second.set_cost(j, program.columns()[static_cast<std::size_t>(j)].cost);
  }
  second.add_row(std::move(misses));
  return solve(second, options);
}

/// How far each row of `program` is missed by the point.
std::vector<Miss> misses_of(const LinearProgram& program, const Solution& point) {
  std::vector<Miss> misses;
  const auto add = [&](int index, Side side, double bound, double amount) {
    if (std::isfinite(bound) && amount > room(bound, miss_tolerance)) {
      misses.push_back({{Bound::Of::row, index, side}, amount});
    }
  };
  for (int i = 0; i < program.row_count(); ++i) {
    const Row& row = program.rows()[static_cast<std::size_t>(i)];
    const double activity = point.rows[static_cast<std::size_t>(i)];
    add(i, Side::lower, row.lower, row.lower - activity);
    add(i, Side::upper, row.upper, activity - row.upper);
  }
  return misses;
}

/// The least outward move of `bound` after which there is a point: from a
/// program in which that bound gives way by a column that costs 1 a unit.
std::optional<double> least_move(const LinearProgram& program, Bound bound) {
  LinearProgram giving = without_costs(program);
  move_bound(giving, bound, bound.side == Side::lower ? -unlimited : unlimited);
  const int move = giving.add_column({.name = unused_column_name(program, "move"), .cost = 1.0});
  Row row{.name = unused_row_name(program, "giving"), .terms = terms_of(program, bound)};
  const bool is_lower = bound.side == Side::lower;
  (is_lower ? row.lower : row.upper) = value_of(program, bound);
  row.terms.push_back({move, is_lower ? 1.0 : -1.0});
  giving.add_row(std::move(row));
  const Solution solution = solve(giving);
  if (solution.status != Status::optimal) {
    return std::nullopt;
  }
  return std::max(0.0, solution.columns[static_cast<std::size_t>(move)]);
}

}  // namespace

std::optional<Conflict> find_conflict(const LinearProgram& program,
                                      std::span<const Bound> keep_last) {
  Feasibility feasibility(program);
  Answer answer = feasibility.ask();
  if (answer == Answer::feasible && program.has_whole_columns()) {
    feasibility.heed_wholeness();
    answer = feasibility.ask();
  }
  if (answer == Answer::feasible) {
    return std::nullopt;
  }
  Conflict conflict;
  std::vector<Bound> candidates = members_of(program);
  if (answer == Answer::unknown) {
    conflict.members = std::move(candidates);
    conflict.proof.assign(program.rows().size(), 0.0);
    return conflict;
  }
  std::vector<Bound> first;
  for (const Bound bound : keep_last) {
    if (is_member(program, bound) && !contains(first, bound)) {
      first.push_back(bound);
      std::erase(candidates, bound);
    }
  }
  bool is_certain = filter(feasibility, first, conflict.members);
  if (!feasibility.heeds_wholeness()) {
    keep_support(feasibility, candidates);
  }
  is_certain = filter(feasibility, candidates, conflict.members) && is_certain;
  sort_members(conflict.members);
  conflict.is_minimal = is_certain && is_minimal(feasibility, conflict.members);
  prove(program, feasibility, conflict);
  return conflict;
}

Nearest nearest_to(const LinearProgram& program, std::span<const double> row_weights,
                   const SolveOptions& options) {
  check_weights(program, row_weights);
  const Elastic elastic = elastic_of(program, row_weights);
  const Solution first = solve(elastic.program, options);
  Nearest nearest;
  nearest.solution = point_of(program, first);
  if (first.status != Status::optimal) {
    return nearest;
  }
  // A cost that falls without end, or trouble in the second program, leaves
  // the first point: it misses least, only its cost is not the lowest.
  const Solution second = cheapest_at(program, elastic, first.cost, options);
  if (second.status == Status::optimal) {
    nearest.solution = point_of(program, second);
  }
  nearest.misses = misses_of(program, nearest.solution);
  return nearest;
}

std::optional<Loosening> least_loosening(const LinearProgram& program, Bound bound) {
  const double value = value_of(program, bound);
  if (std::isinf(value)) {
    return std::nullopt;
  }
  const std::optional<double> move = least_move(program, bound);
  if (!move) {
    return std::nullopt;
  }
  Loosening loosening;
  loosening.bound = bound;
  loosening.by = *move > room(value, miss_tolerance * placing_room) ? *move : 0.0;
  const double outward = bound.side == Side::lower ? -1.0 : 1.0;
  for (const double relative : {placing_room, wider_placing_room}) {
    LinearProgram moved = program;
    if (loosening.by > 0.0) {
      move_bound(moved, bound, value + outward * (loosening.by + room(value, relative)));
    }
    loosening.solution = solve(moved);
    if (loosening.solution.usable()) {
      return loosening;
    }
  }
  // The edge is so sharp that the solver cannot place a point on it: no answer is
  // shown rather than one without values.
  return std::nullopt;
}

}  // namespace haymow
