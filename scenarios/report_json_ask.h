// The answers to the questions of a file, in JSON.
#pragma once

#include <vector>

#include "scenarios/ask.h"
#include "scenarios/report_json_parts.h"

namespace haymow {

/// `in_full` gives a horse's whole answer, as under `horses` of the document.
[[nodiscard]] Json questions_json(const std::vector<AskedAnswer>& questions,
                                  Json (*in_full)(const HorseAnswer&));

}  // namespace haymow
