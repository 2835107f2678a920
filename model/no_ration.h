// When there is no ration: which demands cannot be met together, how near one
// can come, and which single change would mend it. Every mend was solved with
// the change made; none loosens a law beyond what a vet may allow.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "model/derivation.h"
#include "model/mend.h"
#include "model/ration.h"

namespace haymow {

struct NoRation {
  std::vector<RowMeaning> conflict;  // cannot all hold
  /// How they clash, told in order; absent when no chain could be certified.
  std::optional<Derivation> derivation;
  bool conflict_is_minimal = false;
  double proof_strength = 0.0;  // of the Farkas proof, relative; see certify.h
  Ration nearest;
  std::vector<Broken> misses;  // what the nearest ration misses
  /// Single changes, cheapest first, additions last; when there is none, two changes
  /// together and feeds to add together.
  std::vector<Mend> mends;
};

/// `formulation` must have no answer. `known_feeds`: the table from which a
/// feed may be proposed.
[[nodiscard]] NoRation explain_no_ration(const RationQuestion& question,
                                         const Formulation& formulation,
                                         std::span<const Feed> known_feeds);

/// The conflict and its proof alone: no mends and nothing near, so many times quicker.
[[nodiscard]] NoRation clash_alone(const Formulation& formulation);

}  // namespace haymow
