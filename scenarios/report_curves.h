// The ration as one price or one limit moves: sections of the report.
#pragma once

#include <vector>

#include "scenarios/curves.h"
#include "scenarios/report.h"
#include "scenarios/wording.h"

namespace haymow {

/// What was asked about prices and limits, a section each. Says so where there is no
/// ration to ask about.
[[nodiscard]] std::vector<Section> curve_sections(const HorseAnswer& answer,
                                                  const HorseCurves& curves,
                                                  const CurvesAsked& asked, const Wording& words);

/// Feeds on offer that the ration does without, nearest to entering first: at which price
/// each enters, what it then takes the place of, what holds it out. `all`: not the nearest
/// alone.
[[nodiscard]] Section left_out_section(const HorseCurves& curves, const Wording& words, bool all);

}  // namespace haymow
