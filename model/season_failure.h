// When a season has no safe plan: the first week that fails, which horses fall short of
// which rows there, and whether it is only the pace of changing feed that stands in the
// way. The sentences are written elsewhere.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "model/formulate.h"
#include "model/season_plan.h"

namespace haymow {

/// A row that the plan nearest to safe misses.
struct SeasonMiss {
  std::size_t week = 0;
  std::vector<std::size_t> horses;   // all of the herd that misses it
  std::optional<RowMeaning> row;     // of their ration; absent: the pace of a change
  std::optional<std::size_t> offer;  // of a change: what rises too fast, where it is one
  double by = 0.0;  // in the row's own measure in the program, of all those horses together
};

struct SeasonFailure {
  /// The season cut off behind this week has no plan; cut off before it, it has one.
  std::size_t first_week = 0;
  std::vector<SeasonMiss> misses;  // by week
  /// True when there is a plan as soon as feeds may change faster: the needs jump.
  bool only_the_pace = false;
  /// The time was up: there is no plan beyond `first_week`, but it may fail before, and
  /// `misses` is empty.
  bool cut_short = false;
};

/// Nothing when the season has a plan, or time ran out before it was known. The time
/// limit is of the whole search.
[[nodiscard]] std::optional<SeasonFailure> explain_season_failure(
    const SeasonQuestion& question, const SeasonOptions& options = {});

/// The season's first weeks alone. A plan for more weeks is one for fewer, so whether
/// there is one is monotone in `weeks`; it must be at least 1.
[[nodiscard]] SeasonQuestion first_weeks(const SeasonQuestion& question, std::size_t weeks);

}  // namespace haymow
