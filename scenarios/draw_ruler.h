// A ruler (pictures.h) as a small SVG drawing: ends where there is a floor and a
// ceiling, an open end where there is none, and the mark where the ration lies. It
// says the same in black and white.
#pragma once

#include <string>

#include "scenarios/pictures.h"

namespace haymow {

inline constexpr double ruler_width = 200.0;
inline constexpr double ruler_margin = 16.0;  // beyond an end, for what lies outside

/// Where `value` lies, from 0 to ruler_width. Between two ends in proportion. Above a
/// floor without a ceiling by 1 - floor / value: at the end when it just reaches, half
/// way at twice as much, and nearer and nearer to the open end. Under a ceiling without
/// a floor the ruler begins at nothing. Outside the ends it lies in the margin.
[[nodiscard]] double place_on_ruler(const Ruler& ruler, double value);

/// The drawing, for the eye alone: the figures stand beside it as text.
[[nodiscard]] std::string draw_ruler(const Ruler& ruler);

}  // namespace haymow
