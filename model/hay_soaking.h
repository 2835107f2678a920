// Hay soaked before it is fed: what it is planned to lose, and what was published
// about its sugar. The sugar lost cannot be predicted for any one hay, so no cut is
// ever reckoned with: the composition stays as it was.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace haymow {

/// Sugar lost in published trials, per cent of the water-soluble carbohydrate.
struct SugarLoss {
  double least_percent = 0.0;
  double most_percent = 0.0;
  std::string_view source;
};

/// Longer than any trial, and long enough for hay to spoil in the water.
inline constexpr double longest_hay_soak_minutes = 24.0 * 60.0;

/// The share of the dry matter planned to be lost after `minutes` in cold water, 0
/// to 1: 5 % up to an hour, 20 % from twelve hours on, on a straight line between
/// (both figures derived, from memory; the line is ours). A trade page lost 29 %.
[[nodiscard]] double dry_matter_lost_by_soaking(double minutes);

/// What was published about the sugar lost in about that time.
[[nodiscard]] SugarLoss sugar_lost_by_soaking(double minutes);

}  // namespace haymow
