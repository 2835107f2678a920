// How long what is on hand lasts when every day takes the same: no plan, plain
// arithmetic. What a plan makes of it, season_plan.h says.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "model/season.h"

namespace haymow {

struct RunsOut {
  std::size_t offer = 0;
  double stock_kg = 0.0;   // on the first day, after what the store will lose
  double needed_kg = 0.0;  // to be put out to the end of the season
  /// Days after the first of the season: the first day for which what is left is not
  /// enough. Absent: it lasts.
  std::optional<int> day;
  /// On that day it is thrown away as too old, and not eaten up.
  bool too_old = false;
  double left_kg = 0.0;   // it lasts: what is left at the end
  double short_kg = 0.0;  // it does not: what is missing to the end
};

/// One for every offer of which some is on hand. `put_out_a_day`: [offer][week], kg as
/// fed, of the whole yard, waste included. Throws std::invalid_argument on a count that
/// is not that of the offers or the weeks, or an amount below nothing.
[[nodiscard]] std::vector<RunsOut> runs_out(const SeasonQuestion& question,
                                            const std::vector<std::vector<double>>& put_out_a_day);

}  // namespace haymow
