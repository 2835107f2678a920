// What `haymow stretch` prints: how long the hay lasts, what to do about it and by when,
// as text and as JSON.
#pragma once

#include <string>

#include "scenarios/report.h"
#include "scenarios/stretch.h"

namespace haymow {

[[nodiscard]] Report stretch_report(const Scenario& scenario, const StretchAnswer& answer,
                                    const ReportOptions& options);
[[nodiscard]] std::string stretch_json(const Scenario& scenario, const StretchAnswer& answer);

}  // namespace haymow
