// What of a scenario's season is only known as a range, and the season of one draw.
#pragma once

#include <optional>

#include "model/season_chance.h"
#include "scenarios/scenario.h"

namespace haymow {

/// Nothing where the file has no range. The draws are those of the command by default.
[[nodiscard]] std::optional<SeasonDoubt> season_doubt(const Scenario& scenario);

/// The question of a draw, as season_chance.h wants it: of that length, with that in the
/// feeds. `scenario` must outlive it.
[[nodiscard]] SeasonOfDraw season_of_draw(const Scenario& scenario);

}  // namespace haymow
