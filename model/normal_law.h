// The normal distribution, as far as the variation of feeds needs it.
#pragma once

namespace haymow {

/// Probability that a standard normal variable is at most `z`.
[[nodiscard]] double normal_probability(double z);
/// The z that a standard normal variable stays below with probability `p`,
/// 0 < p < 1. Throws std::invalid_argument outside.
[[nodiscard]] double normal_quantile(double p);

}  // namespace haymow
