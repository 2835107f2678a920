#include "model/hay_soaking.h"

#include <algorithm>

namespace haymow {
namespace {

// Derived, from memory: losses were alike from 15 to 60 minutes and highest over 12
// hours (Martinson et al. 2012); the planning factors themselves are ours.
constexpr double short_soak_minutes = 60.0;
constexpr double short_soak_loss = 0.05;
constexpr double night_minutes = 12.0 * 60.0;
constexpr double night_loss = 0.20;
constexpr double longest_trial_minutes = 16.0 * 60.0;

}  // namespace

double dry_matter_lost_by_soaking(double minutes) {
  const double along =
      std::clamp((minutes - short_soak_minutes) / (night_minutes - short_soak_minutes), 0.0, 1.0);
  return short_soak_loss + along * (night_loss - short_soak_loss);
}

SugarLoss sugar_lost_by_soaking(double minutes) {
  if (minutes <= short_soak_minutes) {
    return {2.0, 50.0,
            "2 to 9 % in 20 minutes, nine British meadow hays (Longland et al. 2009, via trade "
            "advice, source not named); about 50 % in an hour (a consultant's page), which "
            "disagrees"};
  }
  if (minutes < longest_trial_minutes) {
    return {2.0, 54.0,
            "between 2 to 9 % in 20 minutes and 9 to 54 % in 16 hours (Longland et al. 2009, via "
            "trade advice, source not named)"};
  }
  return {9.0, 54.0,
          "9 to 54 % in 16 hours (Longland et al. 2009, via trade advice, source not named)"};
}

}  // namespace haymow
