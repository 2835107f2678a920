// Rows and numbers as JSON: pieces that several parts of the JSON report share.
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <vector>

#include "model/ration.h"

namespace haymow {

using Json = nlohmann::ordered_json;

/// Null for what is not finite or not there: it is never zero.
[[nodiscard]] Json number(double value);
[[nodiscard]] Json number(const std::optional<double>& value);

/// What a row asks: `id`, `side`, `bound`, `unit`, and for a rule its strength,
/// sentence and source.
[[nodiscard]] Json row_of(const RowMeaning& row);
/// Rows that are not kept, each with the `value` it has.
[[nodiscard]] Json broken_of(const std::vector<Broken>& broken);

}  // namespace haymow
