// docs/reference/messages.md as data: the messages it explains.
#pragma once

#include <algorithm>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

#include "tests/scenarios/files.h"

namespace haymow::message_page {

inline std::string without_ticks(std::string_view text) {
  std::string plain(text);
  plain.erase(std::remove(plain.begin(), plain.end(), '`'), plain.end());
  return plain;
}

/// The first cell of each row of a table, where `...` stands for anything.
inline std::vector<std::string> patterns() {
  std::vector<std::string> found;
  std::istringstream page(
      test_files::text_at(std::string(HAYMOW_SOURCE_DIR) + "/docs/reference/messages.md"));
  for (std::string line; std::getline(page, line);) {
    if (!line.starts_with("| `")) continue;
    found.push_back(without_ticks(line.substr(2, line.find(" | ") - 2)));
  }
  return found;
}

/// True when `text` is `pattern` with something in place of each `...`; nothing, where
/// that something was a tick.
inline bool fits(std::string_view text, std::string_view pattern) {
  constexpr std::string_view gap = "...";
  const std::size_t at = pattern.find(gap);
  if (at == std::string_view::npos) return text == pattern;
  if (text.substr(0, at) != pattern.substr(0, at)) return false;
  for (std::size_t from = at; from <= text.size(); ++from) {
    if (fits(text.substr(from), pattern.substr(at + gap.size()))) return true;
  }
  return false;
}

inline bool explains(const std::string& message) {
  static const std::vector<std::string> known = patterns();
  const std::string plain = without_ticks(message);
  return std::any_of(known.begin(), known.end(),
                     [&](const std::string& pattern) { return fits(plain, pattern); });
}

}  // namespace haymow::message_page
