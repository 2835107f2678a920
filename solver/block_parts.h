// Private to solver/. A program whose columns are told to be of one block or another,
// or shared, divided: rows that touch one block alone are that block's, all others are
// the master's.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "solver/glpk_problem.h"
#include "solver/implied_box.h"
#include "solver/linear_program.h"

namespace haymow {

struct BlockPart {
  std::vector<int> columns;  // of the program
  std::vector<int> rows;     // of the program
  /// What column j of the block has in the master's rows: from first[j] to first[j + 1].
  std::vector<std::size_t> first;
  std::vector<RowTerm> terms;  // rows counted among the master's

  [[nodiscard]] std::span<const RowTerm> in_master(std::size_t column) const {
    return std::span(terms).subspan(first[column], first[column + 1] - first[column]);
  }
};

struct BlockParts {
  std::vector<BlockPart> blocks;
  std::vector<int> shared;       // columns of the program
  std::vector<int> master_rows;  // of the program
  std::vector<int> place;        // of each column, in its block or among the shared
  Box box;                       // of all columns: their own bounds where those are finite
};

/// Throws std::invalid_argument when `block_of_column` has not one entry a column, each
/// -1 for shared or a block counted from 0, or when a block has no column.
[[nodiscard]] BlockParts divide_blocks(const LinearProgram& program,
                                       std::span<const int> block_of_column);

/// Whether every column of every block has two finite bounds in the box, not crossed.
[[nodiscard]] bool are_bounded(const BlockParts& parts);

}  // namespace haymow
