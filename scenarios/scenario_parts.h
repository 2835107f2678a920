// A scenario file in its parts, for whoever has it as a tree already or reads many
// that share all but their horses.
#pragma once

#include "feeds/findings.h"
#include "feeds/located_yaml.h"
#include "feeds/map_reader.h"
#include "scenarios/scenario.h"

namespace haymow {

struct YardRead {
  Scenario scenario;     // without horses
  bool complete = true;  // false: an entry on offer could not be read
};

/// Everything of a file but its horses and what it asks. Reports to the findings of `keys`.
[[nodiscard]] YardRead read_yard(const MapReader& keys);

/// Adds the horses of `file` to `scenario`, which has the rest of it. Of `file` only
/// `horses`, `season` and `feeding times` are looked at. `complete`: as YardRead has it.
void read_horses(const MapReader& file, bool complete, Scenario& scenario);

/// A whole file; what it asks is left to scenario_ask.h.
[[nodiscard]] Scenario scenario_in(const YamlNode& root, Findings& findings);

}  // namespace haymow
