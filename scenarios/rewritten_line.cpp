#include "scenarios/rewritten_line.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>

namespace haymow {

// Blanks instead of a terminal's own command: a dumb one knows only the way back.
void RewrittenLine::write(std::string text) {
  if (!shown_ || (text.empty() && written_ == 0)) return;
  text.resize(std::min(text.size(), static_cast<std::size_t>(std::max(1, width_ - 1))));
  const std::size_t blanks = written_ > text.size() ? written_ - text.size() : 0;
  fmt::print(stderr, "\r{}{}{}{}", text, std::string(blanks, ' '), std::string(blanks, '\b'),
             text.empty() ? "\r" : "");
  std::fflush(stderr);
  written_ = text.size();
}

}  // namespace haymow
