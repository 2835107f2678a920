// `haymow feeds --explain NAME`: one feed in full, as text and as JSON.
#pragma once

#include <string>

#include "scenarios/explained_feed.h"
#include "scenarios/report.h"

namespace haymow {

[[nodiscard]] Report explain_report(const ExplainedFeed& explained);
[[nodiscard]] std::string explain_json(const ExplainedFeed& explained);

}  // namespace haymow
