// The words a person says for a limit whose trade-off is asked for.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace haymow {

struct LimitName {
  std::string name;  // as it is told: "starch a day"
  std::string id;    // of the row; empty: the number of bucket feeds
};

/// All that can be named, rules first.
[[nodiscard]] const std::vector<LimitName>& limit_names();

/// By its name, another word for it or its id; letter case is ignored. A nutrient alone
/// is its floor, but for energy, whose ceiling is what costs.
[[nodiscard]] std::optional<LimitName> limit_named(std::string_view words);

}  // namespace haymow
