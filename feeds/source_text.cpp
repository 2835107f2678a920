#include "feeds/source_text.h"

#include <fmt/format.h>

#include <algorithm>

#include "feeds/plain_text.h"

namespace haymow {
namespace {

bool has_utf16_mark(std::string_view text) {
  return text.substr(0, 2) == "\xff\xfe" || text.substr(0, 2) == "\xfe\xff";
}

/// Reports the first byte that is not text; true when there is none.
bool all_text(Findings& findings) {
  const std::string_view text = findings.text();
  for (std::size_t at = 0; at < text.size();) {
    const Character c = character_at(text, at);
    if (!c.code) {
      findings.error(
          {findings.position_of(at), 1},
          {fmt::format("byte 0x{:02x} is not UTF-8 text", static_cast<unsigned char>(text[at])),
           "save the file as UTF-8 plain text", ""});
      return false;
    }
    const bool line_end = *c.code == U'\r' && at + 1 < text.size() && text[at + 1] == '\n';
    const bool blank = *c.code == U'\t' || *c.code == U'\n' || line_end;
    if ((*c.code < 0x20 && !blank) || *c.code == 0x7F) {
      findings.error({findings.position_of(at), 1},
                     {fmt::format("byte 0x{:02x} does not belong in a text file",
                                  static_cast<unsigned>(*c.code)),
                      "check that this is the scenario file, saved as plain text", ""});
      return false;
    }
    at += c.bytes;
  }
  return true;
}

/// Reports the first line indented with a tab; true when there is none.
bool no_tab_indents(Findings& findings) {
  for (int line = 1; line <= findings.line_count(); ++line) {
    const std::string_view text = findings.line_text(line);
    const std::size_t tab = text.find_first_not_of(' ');
    if (tab == std::string_view::npos || text[tab] != '\t') continue;
    const std::size_t first = text.find_first_not_of(" \t");
    if (first == std::string_view::npos || text[first] == '#') continue;
    findings.error({findings.position_in(static_cast<std::size_t>(line) - 1, tab), 1},
                   {"this line is indented with a tab; YAML reads spaces only",
                    "replace every tab at the start of a line by spaces", ""});
    return false;
  }
  return true;
}

bool no_long_lines(Findings& findings) {
  for (int line = 1; line <= findings.line_count(); ++line) {
    const std::size_t length = findings.line_text(line).size();
    if (length <= most_line_bytes) continue;
    findings.error(
        {findings.position_in(static_cast<std::size_t>(line) - 1, 0), 1},
        {fmt::format("this line is {} bytes long; a line has at most {}", length, most_line_bytes),
         "break the line, or check that this is the scenario file", ""});
    return false;
  }
  return true;
}

}  // namespace

std::string_view without_byte_order_mark(std::string_view text) {
  constexpr std::string_view mark = "\xef\xbb\xbf";
  if (text.substr(0, mark.size()) == mark) text.remove_prefix(mark.size());
  return text;
}

bool is_readable_text(Findings& findings) {
  const std::string_view text = findings.text();
  const SourceSpan whole{{findings.file(), 0, 0}, 1};
  if (trimmed(text.substr(0, most_file_bytes)).empty() && text.size() <= most_file_bytes) {
    findings.error(whole,
                   {"the file is empty", "check that it was saved, and under this name", ""});
    return false;
  }
  if (text.size() > most_file_bytes) {
    findings.error(
        whole,
        {fmt::format("the file has {:.1f} MB; at most {:.0f} MB is read",
                     static_cast<double>(text.size()) / 1e6, most_file_bytes / 1e6),
         "check that this is the scenario file; two hundred horses take less than 0.1 MB", ""});
    return false;
  }
  if (has_utf16_mark(text)) {
    findings.error(whole, {"the file is UTF-16 text; UTF-8 is read",
                           "save the file again with the encoding UTF-8", ""});
    return false;
  }
  return all_text(findings) && no_tab_indents(findings) && no_long_lines(findings);
}

}  // namespace haymow
