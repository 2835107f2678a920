#include "solver/scale_factors.h"

#include <bit>
#include <cmath>
#include <cstddef>
#include <cstdint>

namespace haymow {
namespace {

/// The binary exponent of a finite `value`, straight from its bits: std::ilogb
/// is a library call, and this runs twice for every coefficient. A subnormal
/// reads as -1023, near enough for a scale.
int exponent_of(double value) {
  const auto bits = std::bit_cast<std::uint64_t>(value);
  return static_cast<int>((bits >> 52U) & 0x7FFU) - 1023;
}

/// The exponents along one row or column.
struct Line {
  int sum = 0;
  int count = 0;
  void add(int exponent) {
    sum += exponent;
    ++count;
  }
  /// Minus their mean, rounded.
  [[nodiscard]] int shift() const {
    if (count == 0) {
      return 0;
    }
    const int half = sum >= 0 ? count / 2 : -count / 2;
    return -((sum + half) / count);
  }
};

}  // namespace

// Rows, then columns as the rows have shifted them. A second sweep changed the
// pivots of none of fifteen ration programs (tests/bench).
ScaleFactors scale_factors(const LinearProgram& program) {
  ScaleFactors factors;
  factors.rows.reserve(program.rows().size());
  factors.columns.reserve(program.columns().size());
  std::vector<Line> columns(program.columns().size());
  for (const Row& row : program.rows()) {
    Line line;
    for (const Term& term : row.terms) {
      if (term.coefficient != 0.0) {
        line.add(exponent_of(term.coefficient));
      }
    }
    const int shift = line.shift();
    factors.rows.push_back(std::ldexp(1.0, shift));
    for (const Term& term : row.terms) {
      if (term.coefficient != 0.0) {
        columns[static_cast<std::size_t>(term.column)].add(exponent_of(term.coefficient) + shift);
      }
    }
  }
  for (const Line& line : columns) {
    factors.columns.push_back(std::ldexp(1.0, line.shift()));
  }
  return factors;
}

}  // namespace haymow
