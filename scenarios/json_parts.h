// Pieces of the JSON that several parts of an answer share, beside the rows of
// report_json_rows.h; made in report_json.cpp.
#pragma once

#include <vector>

#include "scenarios/report_json_rows.h"
#include "scenarios/run.h"

namespace haymow {

[[nodiscard]] Json feeds_of(const Ration& ration, const std::vector<Offer>& offers);
[[nodiscard]] Json certificate_of(const Certificate& certificate);

/// Adds `grazing`, for a horse at grass, and `months`, where they are fed unlike.
void add_grazing(Json& horse, const HorseAnswer& answer);

}  // namespace haymow
