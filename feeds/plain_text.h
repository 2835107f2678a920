// Small questions about text from a file: its characters, its case, its words.
// Text is UTF-8; letter case is told apart and joined for A to Z only.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace haymow {

/// One character of UTF-8 text: its code point and how many bytes it takes.
/// An undecodable byte gives no code point and counts as one byte.
struct Character {
  std::optional<char32_t> code;
  std::size_t bytes = 1;
};
/// The character at byte `at`, which must lie within `text`. Overlong forms,
/// surrogates and code points above U+10FFFF are undecodable (RFC 3629).
[[nodiscard]] Character character_at(std::string_view text, std::size_t at);

/// Characters in UTF-8 text; an undecodable byte counts as one.
[[nodiscard]] std::size_t character_count(std::string_view text);

/// Without blanks at both ends; a no-break space is a blank.
[[nodiscard]] std::string_view trimmed(std::string_view text);

/// With each run of blanks made one space, and blanks at both ends dropped.
[[nodiscard]] std::string single_spaced(std::string_view text);

[[nodiscard]] std::string lower_case(std::string_view text);
/// Equal, letter case ignored.
[[nodiscard]] bool same_text(std::string_view a, std::string_view b);

/// "a", "a and b", "a, b and c".
[[nodiscard]] std::string listed(const std::vector<std::string>& names);
/// "a", "a or b", "a, b or c".
[[nodiscard]] std::string either_of(const std::vector<std::string>& names);

/// Name in `backticks`, as messages show it.
[[nodiscard]] std::string ticked(std::string_view name);

}  // namespace haymow
