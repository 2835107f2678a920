// Private to solver/. The elastic program: each row may be missed at a price,
//   lower <= a x + short - over <= upper,  short, over >= 0,
// so that it always has an answer unless the rows that may not be missed clash.
// Chinneck & Dravnieks 1991 (from memory).
#pragma once

#include <span>
#include <vector>

#include "solver/linear_program.h"

namespace haymow {

struct Give {
  Bound bound;
  int column = 0;  // of the elastic program: by how much the bound is missed
};

struct Elastic {
  /// The columns and rows given come first, under their own names.
  LinearProgram program;
  std::vector<Give> gives;
};

/// The elastic form of `program`, whose own costs are dropped: it minimises
/// the sum of weight * miss. A row of unlimited weight may not be missed.
[[nodiscard]] Elastic elastic_of(const LinearProgram& program, std::span<const double> row_weights);

}  // namespace haymow
