// Small values that several parts of a scenario file share.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "feeds/findings.h"
#include "feeds/located_yaml.h"

namespace haymow {

/// A name on one line, of at most 80 characters.
[[nodiscard]] std::optional<std::string> name_in(const YamlNode& node, std::string_view what,
                                                 Findings& findings);

/// The words of a list such as `[gastric ulcers]`, each with its node. What is
/// not a list of words is reported; `example` is such a list.
[[nodiscard]] std::vector<std::pair<const YamlNode*, std::string>> words_in(
    const YamlNode& node, std::string_view key, std::string_view example, Findings& findings);

/// "did you mean ...?", or else all there are.
[[nodiscard]] std::string near_or_all(std::string_view wanted,
                                      const std::vector<std::string>& names);

}  // namespace haymow
