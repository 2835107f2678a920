// Days of the calendar in a scenario: reading "2026-11-01", counting between two.
#pragma once

#include <string_view>

#include "feeds/quantity.h"
#include "model/units.h"
#include "scenarios/scenario.h"

namespace haymow {

/// A day of the Gregorian calendar written year-month-day (ISO 8601).
[[nodiscard]] Reading<Date> read_date(std::string_view text);

/// From one day to another; negative when `last` is the earlier.
[[nodiscard]] Days days_between(const Date& first, const Date& last);

}  // namespace haymow
