// What to feed, as sections of the ration report: how much of each feed a day and
// what it costs, what weighing in whole steps adds to that, and what goes into
// each bucket.
#pragma once

#include <vector>

#include "scenarios/report.h"
#include "scenarios/wording.h"

namespace haymow {

/// The mean month of the calendar.
inline constexpr double days_in_month = 365.25 / 12.0;

/// For an answer that was found.
[[nodiscard]] Section amounts_section(const HorseAnswer& answer, const Wording& words);

/// Every meal with what is tipped into it, in steps that add up to the day, and
/// the forage of the day in lots. For an answer that was found.
[[nodiscard]] Section meals_section(const HorseAnswer& answer, const Wording& words);

/// A day's forage as so many lots in whole steps that add up to `steps`, the
/// larger ones later: the night is the longest.
[[nodiscard]] std::vector<int> forage_lots(int steps, int meals);

}  // namespace haymow
