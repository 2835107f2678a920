// Changes to a tree of YAML, written as a smaller tree of the same keys: "as this
// file, but with that". Knows no keys and no meaning; what comes out is read by the
// readers of the file itself.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "feeds/located_yaml.h"

namespace haymow {

/// One value that is another than it was. Texts are as written, on one line.
struct YamlChange {
  std::vector<std::string> keys;      // from the outermost to the innermost
  std::optional<std::string> before;  // absent: the key was not there
  std::optional<std::string> after;   // absent: the key is gone
};

/// Puts what `change` says in the place of what `onto` says: groups key by key, lists
/// and texts as a whole. A key without a value takes the entry away. What is put in
/// keeps its place in the file, for messages. Returns what is another value than
/// before: "6.00 per bale" is no other than "6 per bale".
std::vector<YamlChange> lay_over(YamlNode& onto, const YamlNode& change);

/// The entry of a group, or null.
[[nodiscard]] YamlEntry* entry_of(YamlNode& map, std::string_view key);
[[nodiscard]] const YamlEntry* entry_of(const YamlNode& map, std::string_view key);

/// The value as written, on one line: "6 per bale", "[a, b]", "{now: 4, aim: 5}".
[[nodiscard]] std::string written(const YamlNode& node);

}  // namespace haymow
