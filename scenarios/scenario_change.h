// When a scenario's horses change over from what is fed now, and in how long.
#pragma once

#include "feeds/map_reader.h"
#include "scenarios/scenario.h"

namespace haymow {

/// The `change` of a file. What is wrong with it is reported; a change in fewer
/// days than is safe is refused, not lengthened in silence.
[[nodiscard]] ChangeAsked read_change(const MapReader& file);

}  // namespace haymow
