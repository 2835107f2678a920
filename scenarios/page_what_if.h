// The sliders of the page and what follows from them, as the browser takes them.
#pragma once

#include <nlohmann/json.hpp>

#include "scenarios/what_if.h"

namespace haymow {

/// {sliders: [{of: price or forage_share, name, words, unit, decimals, least, most, step,
/// stands, value, note, path, pack}], told: in a line what they come to, empty where none is
/// moved, shown: HTML with the plots}. A price for the file is "6.00 per `pack`" at `path`,
/// for /edit of local_page.h; both null for what a file cannot say.
[[nodiscard]] nlohmann::ordered_json what_if_told(const Scenario& file, const WhatIf& answer);

}  // namespace haymow
