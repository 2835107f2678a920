// What a report begins with when the work was stopped before its end.
#pragma once

#include "scenarios/report.h"
#include "scenarios/stretch.h"
#include "scenarios/winter.h"

namespace haymow {

/// Put before the other parts; nothing unless it was stopped.
void tell_stopped(const WinterAnswer& answer, Report& report);
void tell_stopped(const StretchAnswer& answer, Report& report);

}  // namespace haymow
