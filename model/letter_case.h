// Letter case of ASCII, which no locale may change: words of a file are the same
// however they are written.
#pragma once

#include <algorithm>
#include <string>
#include <string_view>

namespace haymow {

[[nodiscard]] constexpr char small_letter(char c) {
  return (c >= 'A' && c <= 'Z') ? static_cast<char>(c - 'A' + 'a') : c;
}

[[nodiscard]] inline std::string small_letters(std::string_view text) {
  std::string out(text);
  std::transform(out.begin(), out.end(), out.begin(), small_letter);
  return out;
}

/// True when the two differ in letter case only.
[[nodiscard]] constexpr bool same_letters(std::string_view a, std::string_view b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](char x, char y) { return small_letter(x) == small_letter(y); });
}

}  // namespace haymow
