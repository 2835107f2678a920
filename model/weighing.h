// How an amount of feed is weighed out: the step of the scale, and the least
// amount that is worth opening a bag for. Both count what is put out.
#pragma once

#include <string_view>

#include "model/formulate.h"

namespace haymow {

/// Common practice, no source: what a kitchen or spring scale shows, and what is
/// worth opening a bag for.
struct Weighing {
  KgAsFed step;
  KgAsFed least;
};

/// How fine the steps of the scale are. Each is tried only when the one before
/// leaves no ration, and the report says so.
enum class Fineness {
  usual,  // 100 g, balancers 50 g, minerals and oil 5 g
  half,   // half of that; minerals and oil 1 g
  fine,   // 10 g, minerals and oil 1 g
};
[[nodiscard]] std::string_view name_of(Fineness fineness);

/// What becomes of the scoops, slices and bales that the keeper has weighed. Tried
/// in this order, before the steps of the scale are made finer.
enum class PortionUse { whole, half, by_weight };
[[nodiscard]] std::string_view name_of(PortionUse use);

[[nodiscard]] Weighing weighing_of(FeedGroup group, Fineness fineness = Fineness::usual);

/// The weighing of one offer of a question: by whole portions where the keeper
/// has weighed one, and fine enough for an amount the keeper wants exactly.
[[nodiscard]] Weighing weighing_of(const RationQuestion& question, std::size_t offer,
                                   Fineness fineness, PortionUse portions);

}  // namespace haymow
