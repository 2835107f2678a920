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

/// "600 g", "600 g (1 scoop)" where the keeper has weighed one.
[[nodiscard]] std::string weighed_out(const HorseAnswer& answer, const Wording& words,
                                      std::size_t offer, KgAsFed put_out);

/// The buckets of the day, in its order. For an answer that was found.
[[nodiscard]] std::vector<Meal> meals_to_feed(const HorseAnswer& answer);

/// The lots in which a forage is put out over the day, in words.
[[nodiscard]] std::vector<std::string> forage_lots_told(const HorseAnswer& answer,
                                                        const Portion& portion,
                                                        const Wording& words);

/// A day's forage as so many lots in whole steps that add up to `steps`, the
/// larger ones later: the night is the longest.
[[nodiscard]] std::vector<int> forage_lots(int steps, int meals);

}  // namespace haymow
