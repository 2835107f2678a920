#include "solver/bound_moves.h"

#include <algorithm>
#include <span>
#include <stdexcept>
#include <string>

namespace haymow {
namespace {

void check(const LinearProgram& program, Bound bound) {
  const bool is_row = bound.of == Bound::Of::row;
  const int count = is_row ? program.row_count() : program.column_count();
  if (bound.index < 0 || bound.index >= count) {
    throw std::invalid_argument(std::string("a bound of ") + (is_row ? "row " : "column ") +
                                std::to_string(bound.index) + " does not exist");
  }
}

struct Ends {
  double lower;
  double upper;
};

Ends ends_of(const LinearProgram& program, Bound bound) {
  check(program, bound);
  const auto index = static_cast<std::size_t>(bound.index);
  if (bound.of == Bound::Of::row) {
    return {program.rows()[index].lower, program.rows()[index].upper};
  }
  return {program.columns()[index].lower, program.columns()[index].upper};
}

template <typename Target>
void move(Target& target, const LinearProgram& program, Bound bound, double value) {
  Ends ends = ends_of(program, bound);
  (bound.side == Side::lower ? ends.lower : ends.upper) = value;
  if (bound.of == Bound::Of::row) {
    target.set_row_bounds(bound.index, ends.lower, ends.upper);
  } else {
    target.set_column_bounds(bound.index, ends.lower, ends.upper);
  }
}

template <typename Named>
std::string unused_name(std::span<const Named> named, const std::string& stem) {
  std::string name = stem;
  for (int number = 2;
       std::any_of(named.begin(), named.end(), [&](const Named& one) { return one.name == name; });
       ++number) {
    name = stem + ' ' + std::to_string(number);
  }
  return name;
}

}  // namespace

double value_of(const LinearProgram& program, Bound bound) {
  const Ends ends = ends_of(program, bound);
  return bound.side == Side::lower ? ends.lower : ends.upper;
}

void move_bound(LinearProgram& program, Bound bound, double value) {
  move(program, program, bound, value);
}

void move_bound(WarmSolver& solver, Bound bound, double value) {
  move(solver, solver.program(), bound, value);
}

double value_when_left_out(const LinearProgram& program, Bound bound) {
  if (bound.side == Side::upper) {
    return unlimited;
  }
  const bool is_at_least_zero = bound.of == Bound::Of::column && value_of(program, bound) >= 0.0;
  return is_at_least_zero ? 0.0 : -unlimited;
}

std::vector<Term> terms_of(const LinearProgram& program, Bound bound) {
  check(program, bound);
  if (bound.of == Bound::Of::row) {
    return program.rows()[static_cast<std::size_t>(bound.index)].terms;
  }
  return {{bound.index, 1.0}};
}

std::string unused_column_name(const LinearProgram& program, const std::string& stem) {
  return unused_name(program.columns(), stem);
}

std::string unused_row_name(const LinearProgram& program, const std::string& stem) {
  return unused_name(program.rows(), stem);
}

}  // namespace haymow
