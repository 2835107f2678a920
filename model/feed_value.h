// What one feed is worth to one horse: the price at which it enters the cheapest
// ration, what it then takes the place of, what it is paid for, and what it is
// charged for. Of a feed on offer, or of one that somebody thinks of buying.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "model/explanation.h"
#include "model/formulate.h"
#include "model/swaps.h"

namespace haymow {

enum class FeedUse {
  up_to_a_price,  // fed below `fed_below`, not above
  at_any_price,   // no ration does without it
  at_no_price,    // not even as a gift
};

struct FeedValue {
  std::size_t offer = 0;
  FeedUse use = FeedUse::up_to_a_price;
  Money fed_below;  // a kilogram as bought; up_to_a_price only
  /// A hair below that price: what a kilogram of it, eaten, comes in for, most first;
  /// kilograms eaten of the others, below 0 where there is less of them.
  std::vector<AmountChange> makes_way;
  /// A hair below that price, money a kilogram eaten, largest first: they add up to
  /// what it costs there. At no price: as a gift, and they add up to less than the
  /// delivery and what is lost of it. Empty at any price.
  std::vector<Payment> payments;
};

/// `formulation` must be that of `question`. Nothing when there is no ration even
/// with the feed. Throws std::invalid_argument for an offer that does not exist,
/// std::runtime_error when the arithmetic fails.
[[nodiscard]] std::optional<FeedValue> feed_value(const RationQuestion& question,
                                                  const Formulation& formulation,
                                                  std::size_t offer);

/// The question with `feed` on offer, too, at no price yet: the last of the offers.
[[nodiscard]] RationQuestion with_supposed(RationQuestion question, const Feed& feed);

}  // namespace haymow
