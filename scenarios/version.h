// The version, from the one place that states it: the top CMakeLists.txt.
#pragma once

#include <string_view>

namespace haymow {

inline constexpr std::string_view version = HAYMOW_VERSION;

}  // namespace haymow
