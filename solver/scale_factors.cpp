#include "solver/scale_factors.h"

#include <bit>
#include <cmath>
#include <cstddef>
#include <cstdint>

namespace haymow {
namespace {

// A second sweep changed the pivots of none of fifteen ration programs (tests/bench)
// and takes 5 us of a solve's 120.
constexpr int sweeps = 1;

/// The binary exponent of a finite `value`, straight from its bits: std::ilogb
/// is a library call, and this runs once for every coefficient. A subnormal
/// reads as -1023, near enough for a scale.
int exponent_of(double value) {
  const auto bits = std::bit_cast<std::uint64_t>(value);
  return static_cast<int>((bits >> 52U) & 0x7FFU) - 1023;
}

struct Line {
  float sum = 0.0F;
  int count = 0;
  float shift = 0.0F;
};

/// Sets the shift of each line to minus the mean of the exponents along it,
/// as the lines across have shifted them.
void centre(std::vector<Line>& lines, std::span<const int> line_of, const std::vector<Line>& across,
            std::span<const int> across_of, std::span<const float> exponents,
            std::span<const double> values) {
  for (Line& line : lines) {
    line.sum = 0.0F;
    line.count = 0;
  }
  for (std::size_t k = 0; k < exponents.size(); ++k) {
    if (values[k] == 0.0) {
      continue;
    }
    Line& line = lines[static_cast<std::size_t>(line_of[k])];
    line.sum += exponents[k] + across[static_cast<std::size_t>(across_of[k])].shift;
    ++line.count;
  }
  for (Line& line : lines) {
    if (line.count > 0) {
      line.shift = -line.sum / static_cast<float>(line.count);
    }
  }
}

std::vector<double> powers(const std::vector<Line>& lines) {
  std::vector<double> factors;
  factors.reserve(lines.size());
  for (const Line& line : lines) {
    factors.push_back(std::ldexp(1.0, static_cast<int>(std::lround(line.shift))));
  }
  return factors;
}

}  // namespace

ScaleFactors scale_factors(int row_count, int column_count, std::span<const int> row_of,
                           std::span<const int> column_of, std::span<const double> values) {
  std::vector<Line> rows(static_cast<std::size_t>(row_count));
  std::vector<Line> columns(static_cast<std::size_t>(column_count));
  std::vector<float> exponents;
  exponents.reserve(values.size());
  for (const double value : values) {
    exponents.push_back(static_cast<float>(exponent_of(value)));
  }
  for (int sweep = 0; sweep < sweeps; ++sweep) {
    centre(rows, row_of, columns, column_of, exponents, values);
    centre(columns, column_of, rows, row_of, exponents, values);
  }
  return {powers(rows), powers(columns)};
}

}  // namespace haymow
