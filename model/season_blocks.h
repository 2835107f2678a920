// A season's program solved herd by herd: the herds share nothing but the stocks, so
// that each is a block (solver/blocks.h) and the stocks are what is shared.
#pragma once

#include <vector>

#include "model/season_program.h"
#include "model/season_relaxation.h"

namespace haymow {

/// Whether the season's herds are enough for it to pay.
[[nodiscard]] bool pays_by_herds(const SeasonParts& parts);

/// What is known before; all empty: nothing.
struct SeasonGuess {
  std::vector<double> row_duals;  // one a row of the program
  std::vector<double> columns;    // a point that keeps all rows
};

/// As solve(), but without a basis.
[[nodiscard]] Solution solve_by_herds(const SeasonProgram& season, const SeasonClock& clock,
                                      SeasonGuess guess = {});

/// The guess that the answer over longer spells makes for the weekly program without
/// implied rows: what its prices make of each week, and its point.
[[nodiscard]] SeasonGuess guess_weeks(const SeasonQuestion& question, const SeasonParts& parts,
                                      const SeasonProgram& weekly, const SpellAnswer& steady);

}  // namespace haymow
