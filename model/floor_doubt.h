// How likely each floor of a ration is missed, when the batch that comes differs
// from what the figures say. Every figure of every feed varies by itself: normal,
// or log-normal where it varies too much for that (variation.h).
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "model/formulate.h"

namespace haymow {

struct FloorDoubt {
  Nutrient nutrient = Nutrient::energy;
  double floor = 0.0;     // in the nutrient's unit a day
  double expected = 0.0;  // what the figures say the ration supplies
  double kept = 1.0;      // probability that a batch keeps the floor, 0 to 1
  /// What nine batches in ten supply at least.
  double nine_in_ten = 0.0;
  std::size_t mostly = 0;  // the offer that varies most in it
};

/// One for each forced floor that varies, the likeliest missed first. `amounts`:
/// kg as fed eaten a day of each offer. Exact where all that varies is normal; one
/// log-normal part is cut into slices (within 0.002), several are drawn with a
/// fixed seed (within 0.03).
[[nodiscard]] std::vector<FloorDoubt> floor_doubts(const RationQuestion& question,
                                                   const std::vector<double>& amounts);

struct SimulatedFloor {
  Nutrient nutrient = Nutrient::energy;
  double kept = 1.0;  // share of the draws
};
/// The same probabilities by drawing `draws` batches, in the order of the needs.
/// Same seed, same answer.
[[nodiscard]] std::vector<SimulatedFloor> simulate(const RationQuestion& question,
                                                   const std::vector<double>& amounts, int draws,
                                                   std::uint64_t seed);

}  // namespace haymow
