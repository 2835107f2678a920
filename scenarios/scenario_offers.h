// The feeds of a scenario: the keeper's own forage and what the market sells.
#pragma once

#include <vector>

#include "feeds/findings.h"
#include "feeds/located_yaml.h"
#include "model/stable.h"

namespace haymow {

/// Adds the entries of a `forage` (own) or `market` list to `offers`. A name
/// that is there already is reported with both lines.
void read_offers(const YamlNode& list, bool own, std::vector<Offer>& offers, Findings& findings);

}  // namespace haymow
