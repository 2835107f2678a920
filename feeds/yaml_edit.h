// One change to a file that a person has written, with everything else left as it
// stands: comments, order, layout. Every change is proven: the new text is read again,
// and must be the old tree with just that change, or there is none.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "feeds/located_yaml.h"

namespace haymow {

/// The way to a value: keys of groups and places in lists, from the outermost.
using YamlPath = std::vector<std::variant<std::string, std::size_t>>;

/// The value there, or null.
[[nodiscard]] const YamlNode* value_at(const YamlNode& root, const YamlPath& path);

/// `file` with the text `words` as the value at `path`, quoted where it must be. Nothing
/// when there is no such value, or it cannot be put there without touching anything else:
/// then the file has to be edited by hand. `file` must be sound YAML.
[[nodiscard]] std::optional<std::string> with_text(std::string_view file, const YamlPath& path,
                                                   const std::string& words);

/// The same with `yaml` as written: "[gastric ulcers]", "{now: 4, aim: 5}".
[[nodiscard]] std::optional<std::string> with_yaml(std::string_view file, const YamlPath& path,
                                                   const std::string& yaml);

/// `file` with a new entry `key: yaml` in the group at `path`.
[[nodiscard]] std::optional<std::string> with_entry(std::string_view file, const YamlPath& path,
                                                    const std::string& key,
                                                    const std::string& yaml);

/// `file` with one more item, `yaml` on one line, at the end of the list at `path`.
[[nodiscard]] std::optional<std::string> with_item(std::string_view file, const YamlPath& path,
                                                   const std::string& yaml);

/// `file` without the entry or the item at `path`, which is not the only one.
[[nodiscard]] std::optional<std::string> without(std::string_view file, const YamlPath& path);

}  // namespace haymow
