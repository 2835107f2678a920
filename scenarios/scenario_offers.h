// The feeds of a scenario: the keeper's own forage and what the market sells.
#pragma once

#include <vector>

#include "feeds/findings.h"
#include "feeds/located_yaml.h"
#include "model/stable.h"
#include "scenarios/scenario_energy.h"
#include "scenarios/scenario_horse.h"

namespace haymow {

/// Adds the entries of a `forage` (own) or `market` list to `offers`. A name
/// that is there already is reported with both lines. Feeds whose analysis or label
/// gives no energy are added to `gaps`, for fill_energy().
void read_offers(const YamlNode& list, bool own, const SeasonStart& season,
                 std::vector<Offer>& offers, std::vector<EnergyGap>& gaps, Findings& findings);

}  // namespace haymow
