// A winter's plan for other programs: orders and bills as CSV (RFC 4180), and what to
// do on which day as iCalendar.
#pragma once

#include <string>

#include "scenarios/scenario.h"
#include "scenarios/winter.h"

namespace haymow {

/// One line an order: date, feed, packs, kilograms, money. For an answer that was found.
[[nodiscard]] std::string orders_csv(const Scenario& scenario, const WinterAnswer& answer);

/// One line a horse, month and feed; the money adds up to the cost to the hundredth. For
/// an answer that was found.
[[nodiscard]] std::string bills_csv(const Scenario& scenario, const WinterAnswer& answer);

/// Order days, days on which a ration changes, condition checks every two weeks. For an
/// answer that was found.
[[nodiscard]] std::string season_calendar(const Scenario& scenario, const WinterAnswer& answer);

}  // namespace haymow
