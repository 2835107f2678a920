#include "feeds/map_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "feeds/plain_text.h"

namespace haymow {
namespace {

/// Keys are few enough to list when no name is near.
std::string help_for_key(std::string_view key, const std::vector<std::string>& names) {
  std::string near = suggestion(key, names);
  if (!near.empty()) return near;
  return "known here: " + listed(names);
}

}  // namespace

MapReader::MapReader(const YamlNode& node, std::string what, std::span<const std::string_view> keys,
                     Findings& findings)
    : node_(node), what_(std::move(what)), findings_(findings) {
  if (node.kind != YamlKind::map) {
    findings_.error(node.span,
                    {fmt::format("{} is {}; expected a group of keys", what_, describe(node.kind)),
                     fmt::format("write `{}: ...`", keys.front()), ""});
    return;
  }
  for (const YamlEntry& entry : node.entries) {
    if (std::find(keys.begin(), keys.end(), entry.key.text) != keys.end()) continue;
    const std::vector<std::string> names(keys.begin(), keys.end());
    for (std::string& near : near_names(entry.key.text, names)) meant_.push_back(std::move(near));
    findings_.error(entry.key.span, {fmt::format("`{}` is not a key of {}", entry.key.text, what_),
                                     help_for_key(entry.key.text, names), ""});
  }
}

const YamlEntry* MapReader::find_quietly(std::string_view key) const {
  const auto found = std::find_if(node_.entries.begin(), node_.entries.end(),
                                  [&](const YamlEntry& e) { return e.key.text == key; });
  return found == node_.entries.end() ? nullptr : &*found;
}

const YamlEntry* MapReader::find(std::string_view key) const {
  const YamlEntry* entry = find_quietly(key);
  if (entry == nullptr || entry->value.kind != YamlKind::nothing) return entry;
  findings_.error(entry->key.span,
                  {fmt::format("`{}` has no value", key),
                   fmt::format("write the value after `{}:`, or delete the key", key), ""});
  return nullptr;
}

const YamlEntry* MapReader::need(std::string_view key, std::string_view help) const {
  if (find_quietly(key) != nullptr) return find(key);
  if (is_map() && !is_meant(key)) {
    findings_.error(node_.span,
                    {fmt::format("`{}` is missing in {}", key, what_), std::string(help), ""});
  }
  return nullptr;
}

bool MapReader::is_meant(std::string_view key) const {
  return std::find(meant_.begin(), meant_.end(), key) != meant_.end();
}

std::optional<std::string> MapReader::text(std::string_view key) const {
  const YamlEntry* entry = find(key);
  if (entry == nullptr) return std::nullopt;
  return text_of(entry->value, ticked(key), findings_);
}

std::optional<double> MapReader::amount(std::string_view key, const Dimension& dimension,
                                        Sign sign) const {
  const YamlEntry* entry = find(key);
  if (entry == nullptr) return std::nullopt;
  const auto written = text_of(entry->value, ticked(key), findings_);
  if (!written) return std::nullopt;
  return accepted(read_amount(*written, dimension, sign), entry->value, findings_);
}

std::optional<std::string> text_of(const YamlNode& node, std::string_view expected,
                                   Findings& findings) {
  if (node.kind != YamlKind::text) {
    findings.error(node.span,
                   {fmt::format("{} is {}; expected a single value", expected, describe(node.kind)),
                    "write it as one value on the line of its key", ""});
    return std::nullopt;
  }
  std::string text = single_spaced(node.text);
  if (text.empty()) {
    findings.error(node.span, {fmt::format("{} is empty", expected), "", ""});
    return std::nullopt;
  }
  return text;
}

std::string suggestion(std::string_view wanted, const std::vector<std::string>& candidates) {
  std::vector<std::string> near = near_names(wanted, candidates);
  if (near.empty()) return "";
  for (std::string& name : near) name = ticked(name);
  return fmt::format("did you mean {}?", either_of(near));
}

}  // namespace haymow
