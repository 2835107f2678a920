// Mending a clash by moving the demands themselves, one or two of them, as far
// as their strength allows: a need never, a maker's amount never, a law no
// further than its absolute figure.
#pragma once

#include <optional>
#include <span>

#include "model/mend.h"

namespace haymow {

/// The least move of the row alone after which there is a ration, rounded as a
/// person would write it, with the certified cost; nothing when it may not move
/// or does not help.
[[nodiscard]] std::optional<Mend> loosened(const RationQuestion& question,
                                           const Formulation& formulation, std::size_t row);

/// Two moves that mend it together, where neither may be moved far enough alone: one
/// of `conflict` and one of what still clashes without it. Each pair is moved as
/// little as possible, in shares of the bounds, then solved and certified; the
/// pair of the cheapest ration is returned, nothing when no pair helps.
[[nodiscard]] std::optional<Mend> loosened_together(const RationQuestion& question,
                                                    const Formulation& formulation,
                                                    std::span<const std::size_t> conflict);

/// `question` with the bound of `row` moved to `bound`, in the row's unit.
[[nodiscard]] RationQuestion with_bound(RationQuestion question, const RowMeaning& row,
                                        double bound);

/// How much the row's bound moves for one unit of its rule's number; 1 without a rule.
[[nodiscard]] double per_number(const RowMeaning& row);

/// The number a person would write for a bound that has to reach `edge`: outward by a
/// hundredth and to two or three figures.
[[nodiscard]] double rounded_outward(double edge, Side side);

/// What a miss is measured against: the size of the row's bound; for a share, of
/// that share of an ordinary day's dry matter. Never 0.
[[nodiscard]] double usual_size(const RationQuestion& question, const RowMeaning& row);

}  // namespace haymow
