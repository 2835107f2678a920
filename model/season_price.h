// How much of a feed a season's plan buys as its price moves, all season alike: the
// price above which something else takes its place.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "model/season_plan.h"

namespace haymow {

/// From one price to the next the plan buys so much, amounts of any size.
struct BoughtStep {
  double dearer_from = 0.0;  // money a kilogram above the prices of the question
  double dearer_to = 0.0;
  double bought_kg = 0.0;  // through the gate, in the season
};

/// Where the plan begins to buy less.
struct BreakEven {
  std::size_t offer = 0;
  double bought_kg = 0.0;         // at the prices of the question
  std::vector<BoughtStep> steps;  // from the prices of the question to twice the first
  std::optional<double> dearer;   // money a kilogram: the price it has to rise by; absent: further
  double below_kg = 0.0;          // bought just below that price, and just above it:
  double above_kg = 0.0;          // both solved anew and certified
  Certificate below;
  Certificate above;
};

/// Two steps are one where they differ by less than a twentieth of what is bought or a
/// kilogram. Nothing when the feed is not bought, the season has no plan, or an answer
/// does not certify.
[[nodiscard]] std::optional<BreakEven> break_even(const SeasonQuestion& question, std::size_t offer,
                                                  const SeasonOptions& options = {});

}  // namespace haymow
