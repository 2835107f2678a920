// Two values of one kind, as people write them: "16 to 20 kg", "4.20 to 5.50 per bale".
#pragma once

#include <string>
#include <string_view>

#include "feeds/quantity.h"

namespace haymow {

struct RangeText {
  std::string least;
  std::string most;
};

/// The two texts; one that is a number alone gets what stands behind the other: "16" of
/// "16 to 20 kg" is "16 kg". `example` is a range that would do.
[[nodiscard]] Reading<RangeText> read_range_text(std::string_view text, std::string_view example);

}  // namespace haymow
