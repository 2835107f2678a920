// One horse of a scenario file.
#pragma once

#include <optional>

#include "feeds/findings.h"
#include "feeds/located_yaml.h"
#include "model/stable.h"
#include "scenarios/scenario.h"
#include "scenarios/scenario_feed_names.h"

namespace haymow {

/// What the days until a date are counted from.
struct SeasonStart {
  std::optional<Date> from;
  std::optional<Date> until;
  bool given = false;  // the file has a season, read or not
  /// Of the month of the first day, by the yard's `climate`.
  std::optional<double> first_temperature_c = {};
};

/// Whatever could be read is returned, the rest is reported. A condition aim
/// with a date needs a season.
[[nodiscard]] Horse read_horse(const YamlNode& node, const SeasonStart& season,
                               const FeedNames& names, Findings& findings);

}  // namespace haymow
