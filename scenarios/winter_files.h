// The files that `haymow winter` writes beside its report, and how it plans.
#pragma once

#include "scenarios/command_line.h"
#include "scenarios/winter.h"

namespace haymow {

[[nodiscard]] Planners season_planners(const Watch& watch = {});

/// Throws UsageError where two files that are asked for have one name, or a program's
/// name has no known ending; UnwritableFile where one exists and must not be replaced:
/// before anything is worked out.
void check_winter_files(const Command& command);

/// Each whole or not at all; orders, bills and calendar only of a plan that was found.
void write_winter_files(const Command& command, const Scenario& scenario,
                        const WinterAnswer& answer);

}  // namespace haymow
