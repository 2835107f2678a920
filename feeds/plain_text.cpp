#include "feeds/plain_text.h"

#include <algorithm>

#include "model/letter_case.h"

namespace haymow {
namespace {

constexpr std::string_view no_break_space = "\xc2\xa0";
constexpr std::string_view narrow_no_break_space = "\xe2\x80\xaf";

/// Bytes of a blank that `text` starts with; 0 when it starts with none.
std::size_t leading_blank(std::string_view text) {
  if (text.empty()) return 0;
  const char c = text.front();
  if (c == ' ' || c == '\t' || c == '\n' || c == '\r') return 1;
  for (const std::string_view blank : {no_break_space, narrow_no_break_space}) {
    if (text.substr(0, blank.size()) == blank) return blank.size();
  }
  return 0;
}

std::size_t trailing_blank(std::string_view text) {
  if (text.empty()) return 0;
  const char c = text.back();
  if (c == ' ' || c == '\t' || c == '\n' || c == '\r') return 1;
  for (const std::string_view blank : {no_break_space, narrow_no_break_space}) {
    if (text.size() >= blank.size() && text.substr(text.size() - blank.size()) == blank) {
      return blank.size();
    }
  }
  return 0;
}

std::string with_joint(const std::vector<std::string>& names, std::string_view last_joint) {
  std::string result;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0) result += i + 1 == names.size() ? last_joint : ", ";
    result += names[i];
  }
  return result;
}

}  // namespace

Character character_at(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned char first = byte(at);
  if (first < 0x80) return {first, 1};
  std::size_t length = 0;
  char32_t code = 0;
  char32_t least = 0;  // smallest code point this length may write
  if (first >= 0xC2 && first <= 0xDF) {
    length = 2;
    code = first & 0x1FU;
    least = 0x80;
  } else if (first >= 0xE0 && first <= 0xEF) {
    length = 3;
    code = first & 0x0FU;
    least = 0x800;
  } else if (first >= 0xF0 && first <= 0xF4) {
    length = 4;
    code = first & 0x07U;
    least = 0x10000;
  }
  if (length == 0 || at + length > text.size()) return {};
  for (std::size_t i = at + 1; i < at + length; ++i) {
    if ((byte(i) & 0xC0U) != 0x80U) return {};
    code = (code << 6U) | (byte(i) & 0x3FU);
  }
  const bool surrogate = code >= 0xD800 && code <= 0xDFFF;
  if (code < least || code > 0x10FFFF || surrogate) return {};
  return {code, length};
}

std::size_t character_count(std::string_view text) {
  std::size_t count = 0;
  for (std::size_t at = 0; at < text.size(); at += character_at(text, at).bytes) ++count;
  return count;
}

std::string_view trimmed(std::string_view text) {
  while (const std::size_t n = leading_blank(text)) text.remove_prefix(n);
  while (const std::size_t n = trailing_blank(text)) text.remove_suffix(n);
  return text;
}

std::string single_spaced(std::string_view text) {
  text = trimmed(text);
  std::string result;
  while (!text.empty()) {
    const std::size_t blank = leading_blank(text);
    if (blank == 0) {
      result += text.front();
      text.remove_prefix(1);
      continue;
    }
    if (result.back() != ' ') result += ' ';
    text.remove_prefix(blank);
  }
  return result;
}

std::string lower_case(std::string_view text) { return small_letters(text); }

bool same_text(std::string_view a, std::string_view b) { return same_letters(a, b); }

std::string listed(const std::vector<std::string>& names) { return with_joint(names, " and "); }

std::string either_of(const std::vector<std::string>& names) { return with_joint(names, " or "); }

std::string ticked(std::string_view name) { return "`" + std::string(name) + "`"; }

}  // namespace haymow
