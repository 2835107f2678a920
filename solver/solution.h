// What a solve returns, and what may be read from it. A status is never an
// exception: "there is no ration" is an answer.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

namespace haymow {

enum class Status {
  not_solved,     // the default: cannot be mistaken for a result
  optimal,        // cost, values and duals are set
  infeasible,     // no values; ask find_conflict why
  unbounded,      // the cost falls without end: some column or row is missing
  limit_reached,  // time or iterations ran out; values are set only if feasible
  gave_up,        // the solver's arithmetic failed, also after a second method
};

[[nodiscard]] std::string_view name_of(Status status);

enum class BasisStatus : char { basic, at_lower, at_upper, free, fixed };

/// Where the simplex method stopped; lets a later solve start from there.
struct Basis {
  std::vector<BasisStatus> columns;
  std::vector<BasisStatus> rows;
};

/// Sign convention, for a program that minimises: a dual is the rate at which
/// the cost changes when the bound it belongs to is raised. So a row held at
/// its lower bound has a dual >= 0, one held at its upper bound <= 0, a slack
/// row 0; the same for columns and their reduced costs. The duals are those of
/// one optimal basis: under degeneracy there are others (see sensitivity.h).
struct Solution {
  Status status = Status::not_solved;
  double cost = 0.0;
  std::vector<double> columns;        // value of each column
  std::vector<double> rows;           // activity of each row
  std::vector<double> row_duals;      // one for each row; empty for whole-number programs
  std::vector<double> reduced_costs;  // one for each column; empty likewise
  std::optional<Basis> basis;
  /// Whole-number programs only: the solver's own claim of a lower bound.
  std::optional<double> claimed_bound;
  int iterations = 0;

  /// True when `columns`, `rows` and `cost` hold a point that satisfies the program.
  [[nodiscard]] bool usable() const {
    return status == Status::optimal || (status == Status::limit_reached && !columns.empty());
  }
};

}  // namespace haymow
