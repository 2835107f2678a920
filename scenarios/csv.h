// Writing comma-separated values as spreadsheets read them (RFC 4180).
#pragma once

#include <string>
#include <string_view>

namespace haymow {

inline constexpr std::string_view csv_line_end = "\r\n";

/// `text` as one field: in quotes where it must be, a quote inside doubled.
[[nodiscard]] std::string csv_field(const std::string& text);

}  // namespace haymow
