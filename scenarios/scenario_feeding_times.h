// When the buckets are fed: `feeding times`, of the whole file or of one horse.
#pragma once

#include <vector>

#include "feeds/map_reader.h"
#include "model/stable.h"

namespace haymow {

/// A time of the 24-hour clock: "07:00", "7:00".
[[nodiscard]] Reading<TimeOfDay> read_time_of_day(std::string_view text);

/// The times under `feeding times` of `map`, earliest first; empty when the key is
/// not there, or reported.
[[nodiscard]] std::vector<TimeOfDay> read_feeding_times(const MapReader& map, Findings& findings);

/// Reads a horse's own times: it then has as many meals, and `meals` that says
/// otherwise is a mistake.
void read_horse_feeding_times(const MapReader& map, Horse& horse, Findings& findings);

/// Gives `horse` the times of the yard where it has none of its own, and as many
/// meals; one whose meals do not fit them keeps its meals, has no times, and is
/// remarked. One that cannot chew is left at least four meals.
void take_yard_feeding_times(const std::vector<TimeOfDay>& yard, const YamlNode& node, Horse& horse,
                             Findings& findings);

}  // namespace haymow
