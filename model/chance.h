// Drawing what a keeper only knows as a range, and reading quantiles off the draws with
// how sure they are. The same seed gives the same bits on every machine: the standard
// library's distributions do not promise that, so the inverse is written out here.
#pragma once

#include <limits>
#include <optional>
#include <random>
#include <vector>

#include "model/feed_ranges.h"

namespace haymow {

/// At least 0 and below 1: the upper 53 bits. The numbers of std::mt19937_64 are laid
/// down by the C++ standard.
[[nodiscard]] double next_share(std::mt19937_64& generator);

/// What a draw stays at or below with probability `p`, 0 to 1. Throws
/// std::invalid_argument where the three are not in order or `p` is not a probability.
[[nodiscard]] double triangular_quantile(const Triangle& range, double p);

/// A draw that came to nothing, such as a season without a plan: above all others.
inline constexpr double beyond_all = std::numeric_limits<double>::infinity();

/// With `low` and `high` so far apart that the true quantile lies between them in at
/// least 95 % of such rows of draws, whatever they are drawn from. Absent: no draw
/// reaches so far, or it is one that came to nothing.
struct QuantileTold {
  std::optional<double> value;
  std::optional<double> low;
  std::optional<double> high;
};
/// The order statistic ceil(p n) of the draws, in any order, with the order statistics
/// around it by the binomial distribution: W. J. Conover, "Practical Nonparametric
/// Statistics", 3rd edition 1999, section 3.2 (confidence interval for a quantile); from
/// memory. Throws std::invalid_argument unless 0 < p < 1; nothing is told of no draws.
[[nodiscard]] QuantileTold quantile_told(std::vector<double> draws, double p);

}  // namespace haymow
