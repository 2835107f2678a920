// Multipliers for the weekly program of a season from the answer over longer spells:
// the prices of the stocks and of the changes are taken over, and each week's ration is
// priced by itself with them. docs: season_relaxation.h.
#pragma once

#include <vector>

#include "model/season_program.h"
#include "model/season_relaxation.h"

namespace haymow {

/// One a row of the weekly program.
[[nodiscard]] std::vector<double> price_weeks(const SeasonQuestion& question,
                                              const SeasonParts& parts, const SeasonProgram& weekly,
                                              const SpellAnswer& answer);

/// The same for no answer at all: feeds at the least that they can have cost.
[[nodiscard]] std::vector<double> price_weeks_without_answer(const SeasonQuestion& question,
                                                             const SeasonParts& parts,
                                                             const SeasonProgram& weekly);

/// `answer` as a point of the weekly program, without duals.
[[nodiscard]] Solution as_weekly(const SeasonQuestion& question, const SeasonParts& parts,
                                 const SeasonProgram& weekly, const SpellAnswer& answer);

/// And back: a weekly answer as a point of a program over spells in which it feeds alike.
[[nodiscard]] Solution as_spells(const SeasonQuestion& question, const SeasonParts& parts,
                                 const SeasonProgram& spelled, const SpellAnswer& weekly);

}  // namespace haymow
