// A linear program as a plain value: minimise cost over columns, under rows.
// It knows nothing of horses and nothing of the solver that will read it.
// What a solver would silently accept (NaN, crossed bounds, two rows of one
// name) is refused here, where the caller can still be named.
#pragma once

#include <cstddef>
#include <limits>
#include <span>
#include <string>
#include <unordered_set>
#include <vector>

namespace haymow {

/// A bound that does not bind.
inline constexpr double unlimited = std::numeric_limits<double>::infinity();

/// One coefficient of a row: `column` counts from 0 in order of adding.
struct Term {
  int column = 0;
  double coefficient = 0.0;
};

/// A quantity to choose. `whole` makes it take whole numbers only.
struct Column {
  std::string name;
  double lower = 0.0;
  double upper = unlimited;
  double cost = 0.0;
  bool whole = false;
};

/// lower <= sum of coefficient * column <= upper.
struct Row {
  std::string name;
  double lower = -unlimited;
  double upper = unlimited;
  std::vector<Term> terms = {};  // so that it may be left out of {.name = ...}
};

/// Minimise the sum of cost * column under the rows and the columns' bounds.
class LinearProgram {
 public:
  /// Adds a column and returns its index, counted from 0.
  /// Throws std::invalid_argument, naming the column, on an empty or repeated
  /// name, a NaN, an infinite cost, or a lower bound above the upper.
  int add_column(Column column);

  /// Adds a row and returns its index, counted from 0.
  /// Throws std::invalid_argument, naming the row, on an empty or repeated
  /// name, a NaN or infinite coefficient, crossed bounds, a column that does
  /// not exist, or a column named twice.
  int add_row(Row row);

  [[nodiscard]] std::span<const Column> columns() const { return columns_; }
  [[nodiscard]] std::span<const Row> rows() const { return rows_; }
  [[nodiscard]] int column_count() const { return static_cast<int>(columns_.size()); }
  [[nodiscard]] int row_count() const { return static_cast<int>(rows_.size()); }
  [[nodiscard]] bool has_whole_columns() const;

  /// The same refusals as add_column and add_row.
  void set_cost(int column, double cost);
  void set_column_bounds(int column, double lower, double upper);
  void set_row_bounds(int row, double lower, double upper);

 private:
  std::vector<Column> columns_;
  std::vector<Row> rows_;
  // Hashes of the names: the names a second time are a large part of a large program.
  std::unordered_set<std::size_t> column_names_;
  std::unordered_set<std::size_t> row_names_;
  // The last call of add_row that named each column: finds a column named twice
  // in one row without a search.
  std::vector<int> last_naming_;
  int naming_ = 0;
};

enum class Side { lower, upper };

/// One side of one row or column: the unit in which limits hold, cost and clash.
struct Bound {
  enum class Of { row, column };
  Of of = Of::row;
  int index = 0;
  Side side = Side::lower;
  friend bool operator==(const Bound&, const Bound&) = default;
};

}  // namespace haymow
