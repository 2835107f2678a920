// How much of each feed a nearly cheapest ration can hold: the least and the
// most of it among all rations that keep every limit and cost at most so much
// more than the cheapest. Not which rations those are: see alternatives.h. The
// idea, from memory: Brill, Chang and Hopkins 1982, modelling to generate
// alternatives.
#pragma once

#include <span>
#include <vector>

#include "model/formulate.h"
#include "solver/solution.h"

namespace haymow {

/// Kg as fed eaten a day.
struct AmountRange {
  KgAsFed least;
  KgAsFed most;
};

struct RangesWithin {
  double margin = 0.0;              // of the least cost, as a share
  std::vector<AmountRange> ranges;  // one an offer
  /// Of all the ends, checked from program and answer alone: the largest relative
  /// miss of a row, and the largest distance to a bound by weak duality [kg].
  double largest_violation = 0.0;
  double largest_gap_kg = 0.0;

  /// True when every end is proven, within the certificate's tolerance.
  [[nodiscard]] bool holds() const;
};

/// The margins that are told, of the least cost. Common practice, no source.
inline constexpr double told_margins[] = {0.01, 0.02, 0.05};

/// One entry a margin, in their order. Each end is a program of its own, solved
/// on from the one before. `solution` must be optimal for the formulation's
/// program. Throws std::invalid_argument on a negative margin or an answer that is
/// not optimal, std::runtime_error when the arithmetic fails.
[[nodiscard]] std::vector<RangesWithin> amount_ranges(const RationQuestion& question,
                                                      const Formulation& formulation,
                                                      const Solution& solution,
                                                      std::span<const double> margins);

/// The formulation's program with the row "cost within": at most (1 + margin) of
/// `least_cost` a day.
[[nodiscard]] LinearProgram within_cost(const LinearProgram& program, double least_cost,
                                        double margin);

/// What the range says of a feed.
enum class Standing {
  indispensable,    // no ration within the margin does without it
  interchangeable,  // some have it, some do not
  never,            // none has as much of it as is worth weighing out
};
[[nodiscard]] Standing standing_of(const AmountRange& range, const Offer& offer);

}  // namespace haymow
