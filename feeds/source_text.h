// Is this text at all? Looked at before any YAML is read, because a YAML reader
// makes odd guesses about bytes that are not text.
#pragma once

#include <string_view>

#include "feeds/findings.h"

namespace haymow {

/// Largest file and longest line that are read. Two hundred horses take about
/// 60 kB; the limits keep the time short (common practice, no source).
inline constexpr std::size_t most_file_bytes = 1'000'000;
inline constexpr std::size_t most_line_bytes = 4'000;

/// `text` without a UTF-8 byte order mark at its start.
[[nodiscard]] std::string_view without_byte_order_mark(std::string_view text);

/// Reports a file that is empty, too large, not UTF-8, or that holds bytes or
/// tabs which YAML cannot read. True when it can go on to be read as YAML.
[[nodiscard]] bool is_readable_text(Findings& findings);

}  // namespace haymow
