// What is known of the terminal, if there is one.
#pragma once

namespace haymow {

/// Columns, as COLUMNS in the environment has it; 80 where it does not say.
[[nodiscard]] int terminal_width();

/// Whether a person looks on at standard error, and has not asked for quiet.
[[nodiscard]] bool is_watched(bool quiet);

}  // namespace haymow
