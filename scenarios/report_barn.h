// What whole steps take from a barn that has to last, in a sentence.
#pragma once

#include <string>
#include <vector>

#include "scenarios/report.h"
#include "scenarios/wording.h"

namespace haymow {

/// By how much a stock falls short of the season because amounts are in whole
/// steps; empty where it lasts.
[[nodiscard]] std::string barn_sentence(const Scenario& scenario,
                                        const std::vector<HorseAnswer>& answers, std::size_t offer,
                                        const Wording& words);

}  // namespace haymow
