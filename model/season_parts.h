// What a season is put together from, worked out once: the rows of each ration, and
// which horses can be planned as one.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "model/formulate.h"
#include "model/season.h"

namespace haymow {

/// Horses whose rations ask for the same, each in its own measure, in every week:
/// planned as one and divided after, which is exact (solver/proportion.h).
struct Herd {
  std::vector<std::size_t> horses;  // of SeasonQuestion::horses
  std::vector<double> share;        // of what the herd eats, one a horse; they add up to 1
  double size = 1.0;                // the herd's bounds are those of its first horse times this
};

struct SeasonParts {
  std::vector<Formulation> formulations;   // one a ration of the question
  std::vector<std::vector<bool>> implied;  // of those rows: says nothing new (implied_rows.h)
  std::vector<Herd> herds;                 // in the order of their first horses
};

enum class Merging { alike, none };

/// Throws std::invalid_argument on a question that does not fit together: a count
/// that is not that of the weeks or the offers, an index out of range.
[[nodiscard]] SeasonParts season_parts(const SeasonQuestion& question,
                                       Merging merging = Merging::alike);

/// True for what a change of ration has to raise slowly: bucket feed that is no
/// forage for this horse.
[[nodiscard]] bool is_concentrate(const RationQuestion& ration, std::size_t offer);

}  // namespace haymow
