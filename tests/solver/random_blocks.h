// Random little programs that fall apart into blocks, for property tests.
#pragma once

#include <rapidcheck.h>

#include <ostream>
#include <string>
#include <utility>
#include <vector>

#include "solver/linear_program.h"
#include "solver/write_program.h"

namespace haymow {

struct BlockCase {
  LinearProgram program;
  std::vector<int> block_of_column;
};

// Found by RapidCheck through the argument's namespace: prints a failing case.
inline void showValue(const BlockCase& given, std::ostream& out) {
  for (const int block : given.block_of_column) out << block << ' ';
  out << '\n' << to_cplex_lp(given.program);
}

namespace random_programs {

/// A row over some of the columns `from` to `to`, drawn around `point`.
inline Row row_around(const std::string& name, const std::vector<int>& point, int from, int to) {
  Row row{.name = name};
  int activity = 0;
  for (int j = from; j < to; ++j) {
    const int coefficient = *rc::gen::inRange(-2, 5);
    if (coefficient == 0) continue;
    row.terms.push_back({j, static_cast<double>(coefficient)});
    activity += coefficient * point[static_cast<std::size_t>(j)];
  }
  const int kind = *rc::gen::inRange(0, 4);
  const int slack = *rc::gen::inRange(0, 3);
  if (kind != 1) row.lower = static_cast<double>(activity - (kind == 3 ? 0 : slack));
  if (kind != 0) row.upper = static_cast<double>(activity + (kind == 3 ? 0 : slack));
  return row;
}

/// Feasible and, as every column has both bounds, bounded.
inline rc::Gen<BlockCase> blocks() {
  return rc::gen::exec([] {
    BlockCase given;
    std::vector<int> point;
    const int blocks = *rc::gen::inRange(1, 5);
    std::vector<int> first{0};
    for (int b = -1; b < blocks; ++b) {
      const int columns = *rc::gen::inRange(b < 0 ? 0 : 1, 5);
      for (int j = 0; j < columns; ++j) {
        point.push_back(*rc::gen::inRange(0, 5));
        const double upper = static_cast<double>(point.back() + *rc::gen::inRange(0, 4));
        const double cost = static_cast<double>(*rc::gen::inRange(-4, 10));
        given.program.add_column({"x" + std::to_string(point.size()), 0.0, upper, cost});
        given.block_of_column.push_back(b);
      }
      first.push_back(given.program.column_count());
    }
    int named = 0;
    for (int b = 0; b < blocks; ++b) {
      for (int i = *rc::gen::inRange(0, 4); i > 0; --i) {
        given.program.add_row(row_around("own" + std::to_string(++named), point,
                                         first[static_cast<std::size_t>(b) + 1],
                                         first[static_cast<std::size_t>(b) + 2]));
      }
    }
    for (int i = *rc::gen::inRange(0, 5); i > 0; --i) {
      given.program.add_row(
          row_around("of all" + std::to_string(++named), point, 0, given.program.column_count()));
    }
    return given;
  });
}

/// Then one row is asked for more than the others let it have, as often as not.
inline rc::Gen<BlockCase> any_blocks() {
  return rc::gen::exec([] {
    BlockCase given = *blocks();
    if (given.program.row_count() == 0) return given;
    const int row = *rc::gen::inRange(0, given.program.row_count());
    given.program.set_row_bounds(row, static_cast<double>(*rc::gen::inRange(0, 60)), unlimited);
    return given;
  });
}

}  // namespace random_programs
}  // namespace haymow
