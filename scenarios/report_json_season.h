// Pieces that the JSON of `haymow winter` and of `haymow stretch` share.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "model/season_plan.h"
#include "scenarios/report_json_parts.h"
#include "scenarios/scenario.h"
#include "scenarios/season_spells.h"

namespace haymow {

/// The `status` of a document; `complete`: a plan was found, for every horse.
[[nodiscard]] std::string_view season_status(SeasonStatus status, bool complete);

[[nodiscard]] Json number(const std::optional<Money>& money);

/// {"from", "until"} of the season.
[[nodiscard]] Json season_of(const Scenario& scenario);
/// The first and the last day of a week, ISO 8601.
[[nodiscard]] std::string first_day_of(const Scenario& scenario, const SeasonWeek& week);
[[nodiscard]] std::string last_day_of(const Scenario& scenario, const SeasonWeek& week);

/// What an order is of and when it comes, without money.
[[nodiscard]] Json order_of(const Scenario& scenario, const SeasonQuestion& question,
                            const OrderLine& order);

/// {"from", "until", "feeds"} of a spell. As planned, not in steps: a spell may hold weeks
/// that differ by less than a scale shows, and then the first of them is told.
[[nodiscard]] Json spell_of(const Scenario& scenario, const SeasonQuestion& question,
                            const SeasonPlan& plan, std::size_t horse, const FeedingSpell& spell);

}  // namespace haymow
