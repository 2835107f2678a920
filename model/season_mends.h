// Ways out where a season has no safe plan: more of a feed than can be had, fewer horses
// on the yard, one limit of good practice loosened; and, for a vet to judge, a faster
// change of feed. Each is tried by planning again.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "model/season_failure.h"
#include "model/season_loosening.h"
#include "model/season_pace.h"

namespace haymow {

/// So much of a feed, beyond what is on hand and can be had, and the plan reaches the end.
struct MoreFeed {
  std::size_t offer = 0;
  KgAsFed amount;            // through the gate; no less will do
  std::optional<int> packs;  // whole ones that hold it
  std::size_t by_week = 0;   // it comes on the first day of that week, and no later
  /// The least that the season then costs, that feed paid for at the price of the
  /// question: the bound of the plan with whole packs' amount or a little more.
  Money cost;
};

/// Without these horses, from the first day, there is a plan for the others.
struct FewerHorses {
  std::vector<std::size_t> horses;
  Money cost;  // the least that the others' season costs
};

struct SeasonMends {
  std::vector<MoreFeed> more_feed;  // the cheapest first
  std::vector<FewerHorses> fewer;   // of the fewest that will do, the cheapest first
  std::vector<LooserLimit> looser;  // the cheapest first
  std::optional<FasterChange> faster;
  /// The time was up: there may be mends that are not here.
  bool cut_short = false;
};

/// For forage that is on hand and cannot be bought, or only so much; and for one horse or
/// two away. Only what certifies.
[[nodiscard]] SeasonMends season_mends(const SeasonQuestion& question, const SeasonFailure& failure,
                                       const SeasonOptions& options = {});

}  // namespace haymow
