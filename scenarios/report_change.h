// The change from what is fed now to the new ration, as a table of feeds and steps
// and as JSON.
#pragma once

#include <nlohmann/json.hpp>

#include "scenarios/change_over.h"
#include "scenarios/report.h"
#include "scenarios/wording.h"

namespace haymow {

/// Adds "Changing over" to a horse's part of the report; nothing where the file does
/// not say what is fed now. `all`: every step, also where there are many.
void add_change_sections(Report::Part& part, const HorseAnswer& answer, const Wording& words,
                         bool all);

/// The `change_plan` of docs/reference/json-report.md.
[[nodiscard]] nlohmann::ordered_json change_json(const ChangeOver& change);

}  // namespace haymow
