// What changes where a price or a limit passes a break point, in words.
#pragma once

#include <string>
#include <vector>

#include "scenarios/curves.h"
#include "scenarios/wording.h"

namespace haymow {

/// "0.9 kg barley": what there is more and less of, put out, most first.
struct AmountsMoved {
  std::vector<std::string> more;
  std::vector<std::string> less;
};
[[nodiscard]] AmountsMoved amounts_moved(const std::vector<Offer>& offers,
                                         const std::vector<double>& before,
                                         const std::vector<double>& after, std::size_t besides,
                                         const Wording& words);

/// What is another beyond corner `k` of the frontier: feeds that come in and go out, and
/// the limits that hold the ration from there on. Empty at an end, and where neither is.
[[nodiscard]] std::string corner_change(const LimitPath& path, std::size_t k);

}  // namespace haymow
