// What a keeper knows only as a range: the end of the season (`may end`), and of a feed
// its price, what a bale weighs and what is in it (`may be`). What stands in the file
// beside it is the likeliest.
#pragma once

#include "feeds/map_reader.h"
#include "scenarios/scenario.h"

namespace haymow {

/// Reads `may end` of the group `season`, of which both days have been read.
void read_may_end(const MapReader& season, Scenario& scenario);

/// Reads `may be` of the entries of a `forage` or `market` list into the doubts of
/// `scenario`, which has everything else of them; an offer that is not there, because it
/// could not be read, is passed over.
void read_ranges(const YamlNode& list, Scenario& scenario, Findings& findings);

/// The file without its ranges, as a question is put to it: what if hay is dearer than it
/// may be?
[[nodiscard]] YamlNode without_ranges(YamlNode root);

}  // namespace haymow
