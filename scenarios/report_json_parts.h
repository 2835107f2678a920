// Pieces that several parts of the JSON report share: rows, numbers, feeds,
// certificates.
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <vector>

#include "model/ration.h"
#include "solver/certify.h"

namespace haymow {

using Json = nlohmann::ordered_json;

/// Of every document; it changes only if a key ever has to go.
inline constexpr int schema_version = 1;

/// Null for what is not finite or not there: it is never zero.
[[nodiscard]] Json number(double value);
[[nodiscard]] Json number(const std::optional<double>& value);

/// What a row asks: `id`, `side`, `bound`, `unit`, and for a rule its strength,
/// sentence and source.
[[nodiscard]] Json row_of(const RowMeaning& row);
/// Rows that are not kept, each with the `value` it has.
[[nodiscard]] Json broken_of(const std::vector<Broken>& broken);

/// The keys of nutrients, as a list.
[[nodiscard]] Json keys_of(const std::vector<Nutrient>& nutrients);
/// What is fed: kilograms eaten, put out and dry, and what they cost a day.
[[nodiscard]] Json feeds_of(const Ration& ration, const std::vector<Offer>& offers);
[[nodiscard]] Json certificate_of(const Certificate& certificate);

}  // namespace haymow
