#include "solver/implied_box.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace haymow {
namespace {

class ImpliedBounds {
 public:
  explicit ImpliedBounds(const LinearProgram& program) : program_(program) {}

  [[nodiscard]] Box box(double cost) const {
    Box result;
    for (const Column& column : program_.columns()) {
      result.lower.push_back(column.lower);
      result.upper.push_back(column.upper);
    }
    for (const Row& row : program_.rows()) {
      narrow(row, result);
    }
    if (std::isfinite(cost)) {
      Row cheaper;
      cheaper.upper = cost;
      for (std::size_t j = 0; j < program_.columns().size(); ++j) {
        if (program_.columns()[j].cost != 0.0) {
          cheaper.terms.push_back({static_cast<int>(j), program_.columns()[j].cost});
        }
      }
      narrow(cheaper, result);
    }
    return result;
  }

 private:
  void narrow(const Row& row, Box& box) const {
    if (std::isfinite(row.upper)) {
      narrow_by(row.terms, 1.0, row.upper, box);
    }
    if (std::isfinite(row.lower)) {
      narrow_by(row.terms, -1.0, -row.lower, box);
    }
  }

  /// Least value of `coefficient` * column, from the bounds given.
  [[nodiscard]] double least(int column, double coefficient) const {
    const Column& bounds = program_.columns()[static_cast<std::size_t>(column)];
    return coefficient == 0.0 ? 0.0
                              : coefficient * (coefficient > 0.0 ? bounds.lower : bounds.upper);
  }

  void narrow_by(const std::vector<Term>& terms, double sign, double limit, Box& box) const {
    double sum = 0.0;
    int endless = 0;
    for (const Term& term : terms) {
      const double part = least(term.column, sign * term.coefficient);
      if (std::isfinite(part)) {
        sum += part;
      } else {
        ++endless;
      }
    }
    if (endless > 1) {
      return;
    }
    for (const Term& term : terms) {
      const double coefficient = sign * term.coefficient;
      const double part = least(term.column, coefficient);
      const bool is_endless = !std::isfinite(part);
      if (coefficient == 0.0 || (endless == 1 && !is_endless)) {
        continue;
      }
      const double bound = (limit - sum + (is_endless ? 0.0 : part)) / coefficient;
      const auto j = static_cast<std::size_t>(term.column);
      if (coefficient > 0.0) {
        box.upper[j] = std::min(box.upper[j], bound);
      } else {
        box.lower[j] = std::max(box.lower[j], bound);
      }
    }
  }

  const LinearProgram& program_;
};

}  // namespace

Box implied_box(const LinearProgram& program, double cost) {
  return ImpliedBounds(program).box(cost);
}

}  // namespace haymow
