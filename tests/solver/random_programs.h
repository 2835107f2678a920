// Random little programs for property tests. Small whole numbers keep the
// arithmetic well away from the solver's tolerances.
#pragma once

#include <rapidcheck.h>

#include <string>
#include <utility>
#include <vector>

#include "solver/linear_program.h"
#include "solver/write_program.h"

namespace haymow {

// Found by RapidCheck through the argument's namespace: prints a failing case.
inline void showValue(const LinearProgram& program, std::ostream& out) {
  out << to_cplex_lp(program);
}

namespace random_programs {

/// A feasible program that cannot fall without end: columns x >= 0 of cost >= 0,
/// some bounded above, rows drawn around a random point.
inline rc::Gen<LinearProgram> feasible() {
  return rc::gen::exec([] {
    LinearProgram program;
    const int columns = *rc::gen::inRange(1, 6);
    const int rows = *rc::gen::inRange(1, 7);
    std::vector<int> point;
    for (int j = 0; j < columns; ++j) {
      point.push_back(*rc::gen::inRange(0, 5));
      Column column{.name = "x" + std::to_string(j),
                    .cost = static_cast<double>(*rc::gen::inRange(0, 10))};
      if (*rc::gen::arbitrary<bool>()) {
        column.upper = static_cast<double>(point.back() + *rc::gen::inRange(0, 4));
      }
      program.add_column(std::move(column));
    }
    for (int i = 0; i < rows; ++i) {
      Row row{.name = "r" + std::to_string(i)};
      int activity = 0;
      for (int j = 0; j < columns; ++j) {
        const int coefficient = *rc::gen::inRange(-2, 6);
        if (coefficient != 0) {
          row.terms.push_back({j, static_cast<double>(coefficient)});
          activity += coefficient * point[static_cast<std::size_t>(j)];
        }
      }
      const int kind = *rc::gen::inRange(0, 3);
      if (kind != 1) {
        row.lower = static_cast<double>(activity - *rc::gen::inRange(0, 3));
      }
      if (kind != 0) {
        row.upper = static_cast<double>(activity + *rc::gen::inRange(0, 3));
      }
      program.add_row(std::move(row));
    }
    return program;
  });
}

/// Like feasible(), then one row is asked for more than the others let it have
/// as often as not.
inline rc::Gen<LinearProgram> any() {
  return rc::gen::exec([] {
    LinearProgram program = *feasible();
    const int row = *rc::gen::inRange(0, program.row_count());
    const double more = static_cast<double>(*rc::gen::inRange(0, 30));
    program.set_row_bounds(row, more, unlimited);
    return program;
  });
}

}  // namespace random_programs
}  // namespace haymow
