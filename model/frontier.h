// What one limit costs over a whole range of it, not only at the margin: the least
// cost and the ration as the limit moves.
#pragma once

#include <functional>
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
  /// True: between two corners cost and amounts are on a straight line. For a share
  /// they are near it.
  bool straight = true;
};

/// The frontier of the row `id` from `from` to `to` in the row's unit, as far as there
/// are rations; no corners when there are none. A `law` is not moved beyond its
/// absolute figure. Throws std::invalid_argument when there is no such row or the
/// ends are crossed.
[[nodiscard]] Frontier frontier(const Formulation& formulation, const std::string& id, double from,
                                double to);

}  // namespace haymow
