// What one limit costs over a whole range of it, not only at the margin: the least
// cost and the ration as the limit moves.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/formulate.h"

namespace haymow {

/// A point of the frontier at which the set of feeds used or of limits that hold
/// changes, or an end of it.
struct FrontierCorner {
  double bound = 0.0;  // of the limit, in the row's unit
  Money cost;          // a day
  std::vector<double> amounts;
};

struct Frontier {
  RowMeaning row;  // the limit that moves, as the question has it
  std::vector<FrontierCorner> corners;
  /// The corners, and for a share the cheapest rations between them: enough to plot.
  std::vector<FrontierCorner> points;
  /// True: between two corners cost and amounts are on a straight line. For a share
  /// they are near it.
  bool straight = true;
  /// Where rations end inside the range, for a stricter limit; absent: not inside it.
  std::optional<double> ends_at = std::nullopt;
};

/// The frontier of the row `id` from `from` to `to` in the row's unit, as far as there
/// are rations; no corners when there are none. A `law` is not moved beyond its
/// absolute figure. Throws std::invalid_argument when there is no such row or the
/// ends are crossed.
[[nodiscard]] Frontier frontier(const Formulation& formulation, const std::string& id, double from,
                                double to);

/// The formulation's program with the bound of the row `id` moved to `bound`, in the
/// row's unit. Throws std::invalid_argument when there is no such row.
[[nodiscard]] LinearProgram with_bound(const Formulation& formulation, const std::string& id,
                                       double bound);

}  // namespace haymow
