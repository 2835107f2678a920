// JSON read as the scenario reader's own tree, every value with its place: what a
// program writes in JSON and a keeper in YAML is then read, and found wrong, alike.
// Numbers and true or false become the text they are written as; null has no value.
#pragma once

#include "feeds/findings.h"
#include "feeds/located_yaml.h"

namespace haymow {

/// The one JSON value of the text that `findings` holds. Reports what is wrong with
/// it there and returns what could be read, as kind `nothing` when that is not worth
/// looking at. Refuses what read_yaml refuses: a key twice, more than 20 levels inside
/// one another, more than 100,000 values.
[[nodiscard]] YamlNode read_json(Findings& findings);

}  // namespace haymow
