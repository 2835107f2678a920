// From a scenario to what a season asks (model/season.h): its weeks, what each feed
// costs and where it is kept, and what every horse needs week by week. Pure.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "model/season.h"
#include "scenarios/scenario.h"

namespace haymow {

/// Weeks of seven days from the first day of the season, the last one shorter. A week
/// belongs to the month of its first day, on which orders come. Throws
/// std::invalid_argument without a season.
[[nodiscard]] std::vector<SeasonWeek> weeks_of(const Date& from, const Date& until);

/// The days of a week that fall into each month of the season, one a month.
[[nodiscard]] std::vector<int> days_by_month(const Date& from, const SeasonWeek& week,
                                             std::size_t months);

/// Every week is planned by what its middle day asks for; a growing horse by the middle
/// of four weeks, so that its ration does not change every week. The number of bucket
/// meals is the keeper's, or the fewest that work. Horses whose feeding is a vet's
/// business are left out: refused_horses() tells them. Throws std::invalid_argument
/// without a season.
[[nodiscard]] SeasonQuestion season_question(const Scenario& scenario);

/// The horses that season_question() leaves out, of Stable::horses.
[[nodiscard]] std::vector<std::size_t> refused_horses(const Scenario& scenario);

/// What had to be taken for granted, in sentences: when a mare is expected to foal and
/// when her foal leaves her.
[[nodiscard]] std::vector<std::string> season_assumptions(const Scenario& scenario);

}  // namespace haymow
