// `--as-if`: which question of a file is to be answered in full.
#pragma once

#include <string>

#include "scenarios/scenario.h"

namespace haymow {

/// The question called `word`, or the one of that number, from 1. Throws UsageError.
[[nodiscard]] const AskedQuestion& question_named(const std::string& word,
                                                  const Scenario& scenario);

}  // namespace haymow
