// The day of a laboratory's analysis, and so its age when the season begins.
#pragma once

#include "feeds/map_reader.h"
#include "model/stable.h"
#include "scenarios/scenario_horse.h"

namespace haymow {

/// Reads `analysed: 2026-09-15` of an offer into its analysis_age. Reported: a date
/// without an `analysis`, without a season to count from, or that is no date.
void read_analysed(const MapReader& map, const SeasonStart& season, Offer& offer,
                   Findings& findings);

}  // namespace haymow
