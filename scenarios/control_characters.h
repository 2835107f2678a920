// Control characters of names from a file must steer neither a terminal nor a page.
#pragma once

#include <string>
#include <string_view>

namespace haymow {

/// The text with every control character told as \x1b.
[[nodiscard]] std::string with_control_characters_told(std::string_view text);

}  // namespace haymow
