#include "solver/linear_program.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <stdexcept>
#include <utility>

namespace haymow {
namespace {

[[noreturn]] void refuse(const char* kind, const std::string& name, const std::string& why) {
  throw std::invalid_argument(std::string(kind) + " `" + name + "`: " + why);
}

void check_bounds(const char* kind, const std::string& name, double lower, double upper) {
  if (std::isnan(lower) || std::isnan(upper)) {
    refuse(kind, name, "a bound is not a number");
  }
  if (lower == unlimited || upper == -unlimited) {
    refuse(kind, name, "a bound that nothing can meet");
  }
  if (lower > upper) {
    refuse(
        kind, name,
        "lower bound " + std::to_string(lower) + " is above upper bound " + std::to_string(upper));
  }
}

void check_cost(const std::string& name, double cost) {
  if (!std::isfinite(cost)) {
    refuse("column", name, "the cost is not a finite number");
  }
}

/// The hash of a name that none of `all` has; `hashes` are theirs.
template <typename Named>
std::size_t hash_of_new(const char* kind, const std::string& name,
                        const std::unordered_set<std::size_t>& hashes,
                        const std::vector<Named>& all) {
  if (name.empty()) {
    refuse(kind, name, "the name is empty");
  }
  const std::size_t hash = std::hash<std::string>{}(name);
  const auto has_it = [&name](const Named& one) { return one.name == name; };
  if (hashes.contains(hash) && std::any_of(all.begin(), all.end(), has_it)) {
    refuse(kind, name, "the name is already taken");
  }
  return hash;
}

std::size_t index_in(const char* kind, int index, std::size_t count) {
  if (index < 0 || static_cast<std::size_t>(index) >= count) {
    throw std::invalid_argument(std::string(kind) + " " + std::to_string(index) +
                                " does not exist: there are " + std::to_string(count));
  }
  return static_cast<std::size_t>(index);
}

}  // namespace

int LinearProgram::add_column(Column column) {
  const std::size_t hash = hash_of_new("column", column.name, column_names_, columns_);
  check_bounds("column", column.name, column.lower, column.upper);
  check_cost(column.name, column.cost);
  column_names_.insert(hash);
  columns_.push_back(std::move(column));
  last_naming_.push_back(0);
  return column_count() - 1;
}

int LinearProgram::add_row(Row row) {
  const std::size_t hash = hash_of_new("row", row.name, row_names_, rows_);
  check_bounds("row", row.name, row.lower, row.upper);
  ++naming_;
  for (const Term& term : row.terms) {
    if (term.column < 0 || term.column >= column_count()) {
      refuse("row", row.name, "column " + std::to_string(term.column) + " does not exist");
    }
    const auto column = static_cast<std::size_t>(term.column);
    if (!std::isfinite(term.coefficient)) {
      refuse("row", row.name,
             "the coefficient of `" + columns_[column].name + "` is not a finite number");
    }
    if (std::exchange(last_naming_[column], naming_) == naming_) {
      refuse("row", row.name, "column `" + columns_[column].name + "` is named twice");
    }
  }
  row_names_.insert(hash);
  row.terms.shrink_to_fit();  // large programs are mostly terms
  rows_.push_back(std::move(row));
  return row_count() - 1;
}

bool LinearProgram::has_whole_columns() const {
  return std::any_of(columns_.begin(), columns_.end(),
                     [](const Column& column) { return column.whole; });
}

void LinearProgram::set_cost(int column, double cost) {
  Column& changed = columns_[index_in("column", column, columns_.size())];
  check_cost(changed.name, cost);
  changed.cost = cost;
}

void LinearProgram::set_column_bounds(int column, double lower, double upper) {
  Column& changed = columns_[index_in("column", column, columns_.size())];
  check_bounds("column", changed.name, lower, upper);
  changed.lower = lower;
  changed.upper = upper;
}

void LinearProgram::set_row_bounds(int row, double lower, double upper) {
  Row& changed = rows_[index_in("row", row, rows_.size())];
  check_bounds("row", changed.name, lower, upper);
  changed.lower = lower;
  changed.upper = upper;
}

}  // namespace haymow
