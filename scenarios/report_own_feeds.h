// Which figures of the keeper's own feeds are really theirs: a certificate of ten
// figures leaves twenty to the feed table, and a reader should see that.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "scenarios/report.h"

namespace haymow {

/// A sentence for each feed with an analysis or label: how many figures are its own,
/// which were worked out, how many are taken over and from which feed.
[[nodiscard]] Section own_feeds(const Scenario& scenario);

/// The same for programs: `own_feeds` of docs/reference/json-report.md.
[[nodiscard]] nlohmann::ordered_json own_feeds_json(const Scenario& scenario);

}  // namespace haymow
