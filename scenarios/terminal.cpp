#include "scenarios/terminal.h"

#include <unistd.h>

#include <charconv>
#include <cstdlib>
#include <string_view>

namespace haymow {
namespace {

constexpr int usual_width = 80;

}  // namespace

int terminal_width() {
  const char* columns = std::getenv("COLUMNS");
  int width = usual_width;
  if (columns != nullptr) {
    const std::string_view text(columns);
    std::from_chars(text.data(), text.data() + text.size(), width);
  }
  return width;
}

bool is_watched(bool quiet) { return !quiet && ::isatty(STDERR_FILENO) == 1; }

}  // namespace haymow
