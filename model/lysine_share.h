// Lysine of a feed for which nobody has analysed it: its published share of the
// crude protein of feeds of that kind. Of amino acids lysine alone has a need.
#pragma once

#include <optional>

#include "model/feed.h"

namespace haymow {

/// Lysine [g per kg of dry matter], marked estimated, from the feed's crude protein.
/// By the share of `base`, the feed of the table that it is based on, where that has
/// both figures; else by that of its group or trait. Absent where no share was
/// published: compounds, balancers, straw, protein feeds of no known kind and others.
[[nodiscard]] std::optional<Figure> estimated_lysine(const Feed& feed, const Feed* base);

}  // namespace haymow
