#include "solver/block_parts.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace haymow {
namespace {

constexpr int shared_column = -1;
constexpr int of_the_master = -1;

// Rows imply bounds of columns only where the columns have none of their own: those
// that have are as easily kept by the simplex method as by hand.
Box box_of(const LinearProgram& program) {
  Box box = implied_box(program, unlimited);
  for (std::size_t j = 0; j < box.lower.size(); ++j) {
    const Column& column = program.columns()[j];
    if (std::isfinite(column.lower)) box.lower[j] = column.lower;
    if (std::isfinite(column.upper)) box.upper[j] = column.upper;
  }
  return box;
}

/// The block that alone has terms in the row, or of_the_master.
int block_of_row(const Row& row, std::span<const int> block_of_column) {
  if (row.terms.empty()) return of_the_master;
  const int first = block_of_column[static_cast<std::size_t>(row.terms.front().column)];
  for (const Term& term : row.terms) {
    if (block_of_column[static_cast<std::size_t>(term.column)] != first) return of_the_master;
  }
  return first;
}

void place_columns(std::span<const int> block_of_column, BlockParts& parts) {
  for (std::size_t j = 0; j < block_of_column.size(); ++j) {
    const int block = block_of_column[j];
    if (block < shared_column) throw std::invalid_argument("a block is counted below 0");
    if (block != shared_column && static_cast<std::size_t>(block) >= parts.blocks.size()) {
      parts.blocks.resize(static_cast<std::size_t>(block) + 1);
    }
    std::vector<int>& columns = block == shared_column
                                    ? parts.shared
                                    : parts.blocks[static_cast<std::size_t>(block)].columns;
    parts.place.push_back(static_cast<int>(columns.size()));
    columns.push_back(static_cast<int>(j));
  }
  for (const BlockPart& part : parts.blocks) {
    if (part.columns.empty()) throw std::invalid_argument("a block has no column");
  }
}

// Twice over the rows: to count, then to fill in.
void take_terms(const LinearProgram& program, std::span<const int> block_of_column,
                BlockParts& parts) {
  for (BlockPart& part : parts.blocks) part.first.assign(part.columns.size() + 1, 0);
  const auto for_each_term = [&](auto use) {
    for (std::size_t i = 0; i < parts.master_rows.size(); ++i) {
      for (const Term& term :
           program.rows()[static_cast<std::size_t>(parts.master_rows[i])].terms) {
        const auto j = static_cast<std::size_t>(term.column);
        if (block_of_column[j] == shared_column) continue;
        use(parts.blocks[static_cast<std::size_t>(block_of_column[j])],
            static_cast<std::size_t>(parts.place[j]),
            RowTerm{static_cast<int>(i), term.coefficient});
      }
    }
  };
  for_each_term([](BlockPart& part, std::size_t j, RowTerm) { ++part.first[j + 1]; });
  for (BlockPart& part : parts.blocks) {
    for (std::size_t j = 1; j < part.first.size(); ++j) part.first[j] += part.first[j - 1];
    part.terms.resize(part.first.back());
  }
  std::vector<std::vector<std::size_t>> next;
  for (const BlockPart& part : parts.blocks) next.push_back(part.first);
  for_each_term([&](BlockPart& part, std::size_t j, RowTerm term) {
    const auto block = static_cast<std::size_t>(&part - parts.blocks.data());
    part.terms[next[block][j]++] = term;
  });
}

}  // namespace

BlockParts divide_blocks(const LinearProgram& program, std::span<const int> block_of_column) {
  if (block_of_column.size() != program.columns().size()) {
    throw std::invalid_argument("not one block a column");
  }
  BlockParts parts;
  place_columns(block_of_column, parts);
  for (std::size_t i = 0; i < program.rows().size(); ++i) {
    const int block = block_of_row(program.rows()[i], block_of_column);
    std::vector<int>& rows = block == of_the_master
                                 ? parts.master_rows
                                 : parts.blocks[static_cast<std::size_t>(block)].rows;
    rows.push_back(static_cast<int>(i));
  }
  take_terms(program, block_of_column, parts);
  parts.box = box_of(program);
  return parts;
}

bool are_bounded(const BlockParts& parts) {
  return std::all_of(parts.blocks.begin(), parts.blocks.end(), [&](const BlockPart& part) {
    return std::all_of(part.columns.begin(), part.columns.end(), [&](int column) {
      const auto j = static_cast<std::size_t>(column);
      return std::isfinite(parts.box.lower[j]) && std::isfinite(parts.box.upper[j]) &&
             parts.box.lower[j] <= parts.box.upper[j];
    });
  });
}

}  // namespace haymow
