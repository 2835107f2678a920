// What takes the place of a feed: the ration is solved again with a kilogram of
// it less, every limit kept, and again for each single feed that can fill the
// gap by itself. Not a table of feed values: it holds for this horse and ration.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "model/formulate.h"
#include "solver/certify.h"

namespace haymow {

/// More (or, below 0, less) of an offer, kg as fed eaten a day.
struct AmountChange {
  std::size_t offer = 0;
  KgAsFed by;
};

/// The ration after a swap, beside the one before.
struct Swap {
  std::vector<AmountChange> changes;  // the feed taken out among them; most first
  Money dearer;                       // a day
  std::vector<double> amounts;        // kg as fed eaten, one an offer
  Certificate certificate;            // cheapest under the terms of the swap
};

/// `by` alone is fed more; of the others none is, but minerals and supplements,
/// which are given by the gram to set the balance right.
struct SingleSwap {
  std::size_t by = 0;
  Swap swap;
};

struct SwapsOf {
  std::size_t offer = 0;
  KgAsFed taken_out;               // eaten; a kilogram put out, or all there is if less
  std::optional<Swap> cheapest;    // by whatever mix; absent: it cannot be spared
  std::vector<SingleSwap> single;  // cheapest first
};

/// What is taken out at a time, as put out. Common practice, no source.
inline constexpr KgAsFed swapped{1.0};

/// For every offer of which the cheapest ration has at least what is worth weighing
/// out, most first. `solution` must be optimal for the formulation's program.
/// Answers that do not certify are left out.
[[nodiscard]] std::vector<SwapsOf> swaps(const RationQuestion& question,
                                         const Formulation& formulation, const Solution& solution);

}  // namespace haymow
