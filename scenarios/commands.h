// What each command does once the command line is understood.
#pragma once

#include <string>

#include "scenarios/command_line.h"
#include "scenarios/exit_status.h"

namespace haymow {

/// Reads, answers and writes. Throws InputError, UnreadableFile, UnwritableFile.
[[nodiscard]] ExitStatus execute(const Command& command);

/// The file that `haymow new` writes.
[[nodiscard]] std::string starter_scenario();

}  // namespace haymow
