#include "scenarios/control_characters.h"

#include <fmt/format.h>

namespace haymow {

std::string with_control_characters_told(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte < 0x20 || byte == 0x7f) {
      out += fmt::format("\\x{:02x}", byte);
    } else {
      out += c;
    }
  }
  return out;
}

}  // namespace haymow
