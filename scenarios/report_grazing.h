// Grass in the report of a ration: how much a horse is taken to eat and what
// follows if it eats less or more; the rations of the other months; and a stock that
// is fed from unevenly over the season.
#pragma once

#include <string>
#include <vector>

#include "scenarios/report.h"
#include "scenarios/wording.h"

namespace haymow {

/// " in March", for a sentence about an answer that is not for all of the season;
/// empty for one that is.
[[nodiscard]] std::string in_its_month(const HorseAnswer& answer);

/// " in March", the first month of the season.
[[nodiscard]] std::string in_first_month(const Scenario& scenario);

/// How much grass, and what its range does to the ration; empty without grazing.
[[nodiscard]] Section grazing_section(const HorseAnswer& answer, const Wording& words);

/// A row for each month of the season; empty where all of them are fed the same.
[[nodiscard]] Section months_section(const HorseAnswer& answer, const Wording& words);

/// What less grass would take, in hours and by a muzzle; empty where less grass
/// mends nothing. For an answer without a ration.
[[nodiscard]] std::string turnout_that_mends(const HorseAnswer& answer, const Wording& words);

/// True when what is fed changes over the season.
[[nodiscard]] bool fed_by_month(const std::vector<HorseAnswer>& answers);

/// What the season takes of each stock, month by month added up, and the day on which
/// one runs out.
[[nodiscard]] Section season_stock_section(const Scenario& scenario,
                                           const std::vector<HorseAnswer>& answers,
                                           const Wording& words);

}  // namespace haymow
