// The fields of a page: the entries of a scenario file as it is written, and one change
// to one of them (feeds/yaml_edit.h).
#pragma once

#include <nlohmann/json.hpp>
#include <string>

namespace haymow {

/// [{key, text, kind: text|list|group|nothing, line, entries, items}] of the outermost
/// group; `text` as written on one line. Null for what is no sound YAML.
[[nodiscard]] nlohmann::ordered_json entries_of_file(const std::string& text);

/// {text}, or {refused: why}. `asked` has `path`, an array of keys and places, and one of
/// `words`, `yaml`, `key` with `yaml`, `item`, `remove`.
[[nodiscard]] nlohmann::ordered_json edited(const std::string& text,
                                            const nlohmann::ordered_json& asked);

}  // namespace haymow
