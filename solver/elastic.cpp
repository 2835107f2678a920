#include "solver/elastic.h"

#include <cmath>
#include <string>
#include <unordered_set>
#include <utility>

namespace haymow {
namespace {

/// Adds columns under names that no column of the program has.
class GiveNames {
 public:
  explicit GiveNames(const LinearProgram& program) {
    for (const Column& column : program.columns()) {
      taken_.insert(column.name);
    }
  }
  std::string next() {
    std::string name;
    do {
      name = "give " + std::to_string(++count_);
    } while (taken_.contains(name));
    return name;
  }

 private:
  std::unordered_set<std::string> taken_;
  int count_ = 0;
};

}  // namespace

Elastic elastic_of(const LinearProgram& program, std::span<const double> row_weights) {
  Elastic elastic;
  for (Column column : program.columns()) {
    column.cost = 0.0;
    elastic.program.add_column(std::move(column));
  }
  GiveNames names(program);
  for (int i = 0; i < program.row_count(); ++i) {
    Row row = program.rows()[static_cast<std::size_t>(i)];
    const double weight = row_weights[static_cast<std::size_t>(i)];
    const auto give = [&](Side side, double bound, double sign) {
      if (std::isinf(bound) || std::isinf(weight)) {
        return;
      }
      const int column = elastic.program.add_column({.name = names.next(), .cost = weight});
      row.terms.push_back({column, sign});
      elastic.gives.push_back({{Bound::Of::row, i, side}, column});
    };
    give(Side::lower, row.lower, 1.0);
    give(Side::upper, row.upper, -1.0);
    elastic.program.add_row(std::move(row));
  }
  return elastic;
}

}  // namespace haymow
