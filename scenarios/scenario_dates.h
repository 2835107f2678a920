// Days of the calendar in a scenario: reading "2026-11-01", counting between two.
#pragma once

#include <string>
#include <string_view>

#include "feeds/quantity.h"
#include "model/units.h"
#include "scenarios/scenario.h"

namespace haymow {

/// A day of the Gregorian calendar written year-month-day (ISO 8601).
[[nodiscard]] Reading<Date> read_date(std::string_view text);

/// From one day to another; negative when `last` is the earlier.
[[nodiscard]] Days days_between(const Date& first, const Date& last);

/// The day so many days later.
[[nodiscard]] Date days_after(const Date& first, int days);
/// The last day that the season may last to; needs one.
[[nodiscard]] Date latest_end(const Scenario& scenario);
/// "2026-11-01".
[[nodiscard]] std::string iso_text(const Date& date);
/// "1 Nov", for a heading where the year is plain.
[[nodiscard]] std::string short_text(const Date& date);

}  // namespace haymow
