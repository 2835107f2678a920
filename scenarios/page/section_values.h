// The sections of a report as the values that section.html wants.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "scenarios/report.h"

namespace haymow {

/// An array, one a section that has anything to show. `label` names what has no title,
/// for those who hear the page.
[[nodiscard]] nlohmann::ordered_json sections_values(const std::vector<Section>& sections,
                                                     const std::string& label);

}  // namespace haymow
