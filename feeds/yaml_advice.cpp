#include "feeds/yaml_advice.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>

#include "feeds/plain_text.h"

namespace haymow {
namespace {

struct Advice {
  std::string_view parser_message;  // of yaml-cpp 0.7, exceptions.h
  std::string_view message;
  std::string_view help;
};

constexpr std::string_view check_indent =
    "check the indent: entries side by side start in one column";

// The parser notices most mistakes only in the line after, hence "or just above".
constexpr std::array advices{
    Advice{"illegal map value", "a colon where no key can stand, here or just above",
           "write `key: value`, one to a line, and put text that holds a colon in quotes"},
    Advice{"end of map not found", "this line does not fit the lines above it", check_indent},
    Advice{"end of sequence not found", "this line does not fit the lines above it", check_indent},
    Advice{"end of map flow not found", "a `{` is not closed, here or just above",
           "add the missing `}` or comma"},
    Advice{"end of sequence flow not found", "a `[` is not closed, here or just above",
           "add the missing `]` or comma"},
    Advice{"illegal flow end", "a closing bracket without its opening one, here or just above",
           "add the opening bracket or delete this one"},
    Advice{"illegal block entry", "a list dash where no list can stand, here or just above",
           check_indent},
    Advice{"illegal map key", "a key where no key can stand, here or just above", check_indent},
    Advice{"illegal EOF in scalar", "a quote is never closed, here or just above",
           "add the closing quote"},
    Advice{"unknown escape character: ", "a backslash in double quotes starts a code unknown here",
           "use single quotes"},
    Advice{"illegal tab when looking for indentation",
           "this line is indented with a tab; YAML reads spaces only", "use spaces"},
    Advice{"bad file", "too many brackets or lists inside one another",
           "check the brackets and the indent"},
};

/// `key:value` without its blank, in this line or the one before.
std::optional<SourceSpan> colon_without_blank(int line, const Findings& findings) {
  for (const int candidate : {line, line - 1}) {
    const std::string_view text = findings.line_text(candidate);
    const std::size_t colon = text.find(':');
    if (colon == std::string_view::npos || colon + 1 >= text.size()) continue;
    if (text[colon + 1] == ' ' || text.find_first_of("'\"#") < colon) continue;
    return SourceSpan{findings.position_in(static_cast<std::size_t>(candidate) - 1, colon), 1};
  }
  return std::nullopt;
}

}  // namespace

Complaint aliases_are_not_read() {
  return {"YAML anchors, aliases and merge keys (`&`, `*`, `<<`) are not read here",
          "write the entry out in full, or put text that starts with `&` or `*` in quotes", ""};
}

Complaint tags_are_not_read() {
  return {"YAML tags (`!`) are not read here",
          "delete the tag, or put text that starts with `!` in quotes", ""};
}

void report_syntax(const std::string& parser_message, int line, int column, Findings& findings) {
  const auto line_index = static_cast<std::size_t>(std::max(line, 0));
  const SourceSpan here{
      findings.position_in(line_index, static_cast<std::size_t>(std::max(column, 0))), 1};
  if (parser_message == "illegal map value") {
    if (const auto colon = colon_without_blank(here.position.line, findings)) {
      findings.error(*colon, {"a blank is missing after this colon", "write `key: value`", ""});
      return;
    }
  }
  if (parser_message == "the referenced anchor is not defined") {
    findings.error(here, aliases_are_not_read());
    return;
  }
  if (parser_message == "unknown token") {
    const std::string_view text = findings.line_text(here.position.line);
    const std::string_view sign = text.substr(
        std::min<std::size_t>(static_cast<std::size_t>(std::max(column, 0)), text.size()), 1);
    const std::string shown = sign == "`" ? "a backtick" : fmt::format("`{}`", sign);
    findings.error(here, {fmt::format("a value cannot start with {}", shown),
                          "put the value in single quotes", ""});
    return;
  }
  for (const Advice& advice : advices) {
    if (parser_message.substr(0, advice.parser_message.size()) != advice.parser_message) continue;
    findings.error(here, {std::string(advice.message), std::string(advice.help), ""});
    return;
  }
  findings.error(here, {fmt::format("this is not YAML, here or just above ({})", parser_message),
                        "put text that holds signs such as `:`, `#`, `[` or `{` in quotes", ""});
}

}  // namespace haymow
