// A mean temperature of day and night in a scenario file.
#pragma once

#include <optional>
#include <string_view>

#include "feeds/findings.h"
#include "feeds/located_yaml.h"

namespace haymow {

/// Degrees Celsius of `what`; one that no stable has is reported.
[[nodiscard]] std::optional<double> temperature_in(const YamlNode& node, std::string_view what,
                                                   Findings& findings);

}  // namespace haymow
