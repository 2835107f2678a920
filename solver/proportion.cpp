#include "solver/proportion.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace haymow {
namespace {

// Two ways to the same figure differ by some units of the last place.
constexpr double multiple_rounding = 1e-12;

bool same(double a, double b) {
  return a == b || std::abs(a - b) <= multiple_rounding * std::max(std::abs(a), std::abs(b));
}

/// Holds the factor as far as it is known.
class Factor {
 public:
  /// False when the two bounds contradict what was seen before.
  [[nodiscard]] bool takes(double base, double other) {
    if (std::isinf(base) || std::isinf(other) || base == 0.0 || other == 0.0) return base == other;
    const double ratio = other / base;
    if (ratio <= 0.0) return false;
    if (!value_) value_ = ratio;
    return same(*value_, ratio);
  }
  [[nodiscard]] double value() const { return value_.value_or(1.0); }

 private:
  std::optional<double> value_;
};

bool same_terms(const std::vector<Term>& a, const std::vector<Term>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const Term& x, const Term& y) {
    return x.column == y.column && same(x.coefficient, y.coefficient);
  });
}

}  // namespace

std::optional<double> proportion(const LinearProgram& base, const LinearProgram& other) {
  if (base.column_count() != other.column_count() || base.row_count() != other.row_count()) {
    return std::nullopt;
  }
  Factor factor;
  for (std::size_t j = 0; j < base.columns().size(); ++j) {
    const Column& a = base.columns()[j];
    const Column& b = other.columns()[j];
    if (a.whole || b.whole || !same(a.cost, b.cost) || !factor.takes(a.lower, b.lower) ||
        !factor.takes(a.upper, b.upper)) {
      return std::nullopt;
    }
  }
  for (std::size_t i = 0; i < base.rows().size(); ++i) {
    const Row& a = base.rows()[i];
    const Row& b = other.rows()[i];
    if (!same_terms(a.terms, b.terms) || !factor.takes(a.lower, b.lower) ||
        !factor.takes(a.upper, b.upper)) {
      return std::nullopt;
    }
  }
  return factor.value();
}

}  // namespace haymow
