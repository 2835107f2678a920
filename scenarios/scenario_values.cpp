#include "scenarios/scenario_values.h"

#include <fmt/format.h>

#include <algorithm>

#include "feeds/map_reader.h"
#include "feeds/plain_text.h"

namespace haymow {
namespace {

/// Longer names make no table readable.
constexpr std::size_t longest_name = 80;

}  // namespace

std::optional<std::string> name_in(const YamlNode& node, std::string_view what,
                                   Findings& findings) {
  auto name = text_of(node, what, findings);
  if (!name) return std::nullopt;
  const bool control = std::any_of(name->begin(), name->end(), [](char c) {
    return static_cast<unsigned char>(c) < 0x20 || c == 0x7F;
  });
  if (control || character_count(*name) > longest_name) {
    findings.error(node.span, {control ? fmt::format("{} holds a control character", what)
                                       : fmt::format("{} has {} characters; at most {} are read",
                                                     what, character_count(*name), longest_name),
                               "write a short name in plain letters", ""});
    return std::nullopt;
  }
  return name;
}

std::vector<std::pair<const YamlNode*, std::string>> words_in(const YamlNode& node,
                                                              std::string_view key,
                                                              std::string_view example,
                                                              Findings& findings) {
  std::vector<std::pair<const YamlNode*, std::string>> words;
  if (node.kind != YamlKind::list) {
    findings.error(node.span, {fmt::format("`{}` is {}; expected a list", key, describe(node.kind)),
                               fmt::format("write `{}: {}`", key, example), ""});
    return words;
  }
  for (const YamlNode& item : node.items) {
    if (auto word = text_of(item, fmt::format("an entry of `{}`", key), findings)) {
      words.emplace_back(&item, std::move(*word));
    }
  }
  return words;
}

std::string near_or_all(std::string_view wanted, const std::vector<std::string>& names) {
  std::string near = suggestion(wanted, names);
  return near.empty() ? "known are " + listed(names) : near;
}

}  // namespace haymow
