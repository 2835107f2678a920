// The YAML parser's own messages in words for a keeper.
#pragma once

#include <string>

#include "feeds/findings.h"

namespace haymow {

[[nodiscard]] Complaint aliases_are_not_read();
[[nodiscard]] Complaint tags_are_not_read();

/// Reports a syntax error of the parser: its message, and its mark from 0.
void report_syntax(const std::string& parser_message, int line, int column, Findings& findings);

}  // namespace haymow
