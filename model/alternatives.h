// Other rations that would do: nearly as cheap, of other feeds. Each step asks
// for a ration within the margin that uses least of the feeds used so far, the
// weights adding up, and then for the cheapest whole-step ration of the feeds it
// found. From memory: Brill, Chang and Hopkins 1982 (hop, skip and jump);
// Lombardi et al. 2020 (weights that accumulate). It spreads out over what is
// possible; it does not list everything that is.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "model/practical.h"

namespace haymow {

/// A welfare limit and how far a ration stays from it.
struct NearestLimit {
  RowMeaning row;
  double value = 0.0;     // what the ration gives, in the row's unit
  double distance = 0.0;  // of the bound, as a share: 0.12 is 12 % away
};

/// A ration in whole steps. Offers are counted as in the question it answers.
struct Alternative {
  std::vector<std::size_t> feeds;  // the offers in it, in ascending order
  PracticalRation practical;
  double dearer = 0.0;  // than the ration compared with, as a share; may be below 0
  /// Of the cheapest ration, to the gram, of what the search could choose from.
  Certificate certificate;
  std::optional<NearestLimit> nearest;
};

struct AlternativesAsked {
  std::size_t count = 4;
  double margin = 0.05;  // of the cost of the ration compared with
};

/// Two rations really differ when one has a feed the other has none of, and that feed
/// is at least this share of its dry matter. Common practice, no source.
inline constexpr double least_difference = 0.02;
[[nodiscard]] bool really_differ(const Ration& one, const Ration& other);

/// The rows of strength law and vet, and the makers' amounts, are looked through
/// for the one whose bound, not 0, is relatively nearest.
[[nodiscard]] std::optional<NearestLimit> nearest_limit(const Formulation& formulation,
                                                        const std::vector<double>& amounts);

/// Up to `count` rations that cost at most (1 + margin) of `fed`, the whole-step
/// ration of the same question, cheapest first. Any two of them and `fed` really
/// differ. `solution` must be optimal for the formulation's program. An alternative
/// that does not certify is left out.
[[nodiscard]] std::vector<Alternative> alternatives(const RationQuestion& question,
                                                    const Formulation& formulation,
                                                    const Solution& solution,
                                                    const PracticalRation& fed,
                                                    const AlternativesAsked& asked = {});

}  // namespace haymow
