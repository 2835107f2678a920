#include "model/normal_law.h"

#include <cmath>
#include <numbers>
#include <stdexcept>

namespace haymow {

double normal_probability(double z) { return 0.5 * std::erfc(-z / std::numbers::sqrt2); }

double normal_quantile(double p) {
  if (!(p > 0.0 && p < 1.0)) throw std::invalid_argument("a probability between 0 and 1 is needed");
  // Beyond 40 the tail is below the smallest double. Halving the bracket until it
  // has no inside is slower than a fitted formula and right to the last digit.
  double low = -40.0;
  double high = 40.0;
  while (true) {
    const double middle = 0.5 * (low + high);
    if (middle <= low || middle >= high) return middle;
    (normal_probability(middle) < p ? low : high) = middle;
  }
}

}  // namespace haymow
