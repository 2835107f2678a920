#include "model/chance.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <stdexcept>

namespace haymow {
namespace {

// Either side may miss in so many of a hundred rows of draws.
constexpr double miss_a_side = 0.025;

/// One for each k from 0 to `n`: probability that of `n` draws at most k lie at or below
/// the quantile of `p`.
std::vector<double> binomial_sums(std::size_t n, double p) {
  std::vector<double> sums;
  double sum = 0.0;
  const auto count = static_cast<double>(n);
  for (std::size_t k = 0; k <= n; ++k) {
    const auto hits = static_cast<double>(k);
    sum += std::exp(std::lgamma(count + 1.0) - std::lgamma(hits + 1.0) -
                    std::lgamma(count - hits + 1.0) + hits * std::log(p) +
                    (count - hits) * std::log1p(-p));
    sums.push_back(std::min(1.0, sum));
  }
  return sums;
}

std::optional<double> reached(double value) {
  return std::isfinite(value) ? std::optional(value) : std::nullopt;
}

}  // namespace

double next_share(std::mt19937_64& generator) {
  constexpr double step = 0x1.0p-53;
  return static_cast<double>(generator() >> 11U) * step;
}

double triangular_quantile(const Triangle& range, double p) {
  if (!(range.least <= range.likeliest && range.likeliest <= range.most)) {
    throw std::invalid_argument("least, likeliest and most are not in order");
  }
  if (!(p >= 0.0 && p <= 1.0)) throw std::invalid_argument("not a probability");
  const double width = range.most - range.least;
  const double rise = range.likeliest - range.least;
  if (width <= 0.0) return range.likeliest;
  if (p * width <= rise) return range.least + std::sqrt(p * width * rise);
  return range.most - std::sqrt((1.0 - p) * width * (width - rise));
}

QuantileTold quantile_told(std::vector<double> draws, double p) {
  if (!(p > 0.0 && p < 1.0)) throw std::invalid_argument("not a share between 0 and 1");
  QuantileTold told;
  const std::size_t n = draws.size();
  if (n == 0) return told;
  std::sort(draws.begin(), draws.end());
  constexpr double rounding = 1e-9;  // 0.1 * 30 is not 3
  const double place = std::ceil(p * static_cast<double>(n) - rounding);
  told.value = reached(draws[static_cast<std::size_t>(std::max(1.0, place)) - 1]);
  // The k-th smallest lies above the quantile when fewer than k draws lie at or below it.
  const std::vector<double> sums = binomial_sums(n, p);
  for (std::size_t k = 1; k <= n && sums[k - 1] <= miss_a_side; ++k) {
    told.low = reached(draws[k - 1]);
  }
  for (std::size_t k = n; k >= 1 && 1.0 - sums[k - 1] <= miss_a_side; --k) {
    told.high = reached(draws[k - 1]);
  }
  return told;
}

}  // namespace haymow
