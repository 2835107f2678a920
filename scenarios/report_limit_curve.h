// What a limit costs as it moves: its table of corners, where it stands, and the
// caution that goes with it.
#pragma once

#include "scenarios/curves.h"
#include "scenarios/report.h"
#include "scenarios/wording.h"

namespace haymow {

[[nodiscard]] Section limit_curve_section(const LimitPath& path, const Wording& words);

}  // namespace haymow
