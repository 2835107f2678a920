// A strict reading of YAML: every value knows its line and column, and whatever
// YAML lets through that a keeper cannot have meant is a mistake. It is plain
// YAML: no anchors, aliases, merge keys, tags, or second documents.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "feeds/findings.h"

namespace haymow {

enum class YamlKind { nothing, text, list, map };

struct YamlEntry;

/// A value of the file. `nothing` is an empty value, `~` or `null`.
struct YamlNode {
  YamlKind kind = YamlKind::nothing;
  std::string text;                // of kind text
  SourceSpan span;                 // where it starts; of `nothing`, where its key is
  std::vector<YamlNode> items;     // of kind list
  std::vector<YamlEntry> entries;  // of kind map, in file order, no key twice
};

struct YamlEntry {
  YamlNode key;  // of kind text
  YamlNode value;
};

/// "a list", for messages.
[[nodiscard]] std::string_view describe(YamlKind kind);

/// The single document of the file that `findings` holds. Reports what is wrong
/// with it there and returns what could be read, as kind `nothing` when that is
/// not worth looking at. Deeper than 20 levels or more than 100,000 values are
/// refused.
[[nodiscard]] YamlNode read_yaml(Findings& findings);

}  // namespace haymow
