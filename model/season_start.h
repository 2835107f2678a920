// Where the weekly program of a season starts from once the one over longer spells is
// solved: the corner at which every week of a spell is fed as its first.
#pragma once

#include <optional>

#include "model/season_relaxation.h"

namespace haymow {

/// A basis of `weekly` for its thinned rows; nothing when the two do not fit. In the
/// later weeks of a spell every feed is basic and held by the row that lets it not
/// rise. The optimum is not far from there (measured: a tenth of the pivots).
[[nodiscard]] std::optional<Basis> weekly_start(const SeasonQuestion& question,
                                                const SeasonParts& parts,
                                                const SeasonProgram& weekly,
                                                const SpellAnswer& answer);

}  // namespace haymow
