// What a keeper's word for a feed refers to: "alfalfa", "oats", "cereal".
#pragma once

#include <string_view>

#include "model/stable.h"

namespace haymow {

/// True when `what` is the feed's name or another name of it, its group, one of
/// its traits, or a whole word (or words) of its name. Letter case is ignored.
[[nodiscard]] bool refers_to(std::string_view what, const Feed& feed);
/// The same, or the offer's own name.
[[nodiscard]] bool refers_to(std::string_view what, const Offer& offer);

}  // namespace haymow
