// What a scenario says of the yard as a whole through a season: where feed is kept,
// what may be spent, how cold the months are.
#pragma once

#include <optional>
#include <vector>

#include "feeds/map_reader.h"
#include "model/season.h"
#include "scenarios/scenario_months.h"

namespace haymow {

/// The stores of a file, in its order.
[[nodiscard]] std::vector<Store> read_stores(const MapReader& file);
/// An offer kept in a place that is no store, or that it cannot be measured for, is
/// reported.
void check_stores(const std::vector<Store>& stores, const std::vector<Offer>& offers,
                  Findings& findings);

/// Money a month; a month without a figure has no limit.
[[nodiscard]] ByMonth<Money> read_budget(const MapReader& file);

/// Mean temperatures of day and night, degrees Celsius.
[[nodiscard]] ByMonth<double> read_climate(const MapReader& file);

}  // namespace haymow
