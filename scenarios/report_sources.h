// Where the figures come from, as a list of what was read.
#pragma once

#include <string>
#include <vector>

#include "feeds/feed_table.h"
#include "scenarios/report.h"

namespace haymow {

/// "title, year, address", as far as they are known.
[[nodiscard]] std::string source_in_words(const Source& source);

/// The standard of the needs, and what the figures of the feeds that are fed were read
/// in, by the order of the table. Empty when nothing is fed.
[[nodiscard]] Section sources_of_rations(const std::vector<HorseAnswer>& answers);

}  // namespace haymow
