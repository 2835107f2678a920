// What a winter costs, what is ordered when and who is billed what: the plan of a
// season with its money, and how it would be otherwise. Pure, as run.h is.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "model/no_ration.h"
#include "model/season_bills.h"
#include "model/season_chance.h"
#include "model/season_mends.h"
#include "scenarios/scenario.h"
#include "scenarios/watch.h"

namespace haymow {

/// A horse that no ration can be found for in some week, whatever is bought: why.
struct HorseWithoutRation {
  std::size_t horse = 0;  // of SeasonQuestion::horses
  std::size_t week = 0;   // the first
  std::size_t ration = 0;
  NoRation why;
};

/// The difference in cost to the plan, from solving again; of the lower bounds, which
/// whole packs do not make jump.
struct OtherCost {
  SeasonStatus status = SeasonStatus::failed;  // none: it is proven that there is no plan
  Money more;                                  // found
};
struct OtherwiseCosts {
  OtherCost week_more;
  std::optional<OtherCost> week_less;  // absent: the season has no week to spare
  OtherCost dearer_hay;
};
inline constexpr double hay_dearer_by = 0.10;

struct WinterAnswer {
  SeasonQuestion question;
  SeasonPlan plan;
  /// Where there is a plan: found, or one that keeps every limit when the time ran out.
  std::optional<SeasonBills> bills;
  std::optional<OtherwiseCosts> other;  // found
  /// Found, and the file has ranges: as far as time and Ctrl-C let the draws come.
  std::optional<SeasonChances> chances;
  std::vector<std::size_t> refused;  // of Stable::horses: a vet's business
  /// Where there is no plan: those who have no ration even without a season.
  std::vector<HorseWithoutRation> without_ration;
  /// Where there is no plan and every horse has a ration: from when, and for whom.
  std::optional<SeasonFailure> failure;
  std::optional<SeasonMends> mends;
  std::vector<std::string> assumptions;
  bool stopped = false;     // before all was worked out: what is here holds
  bool time_is_up = false;  // ... because it took too long, not because somebody asked
};

/// How a season is planned: in whole packs, or only as far as the least it can cost.
struct Planners {
  std::function<SeasonPlan(const SeasonQuestion&)> plan;
  std::function<SeasonPlan(const SeasonQuestion&)> bound;
  std::function<std::optional<SeasonFailure>(const SeasonQuestion&)> explain = {};
  std::function<SeasonMends(const SeasonQuestion&, const SeasonFailure&)> mend = {};
  std::function<SeasonChances(const SeasonOfDraw&, const SeasonDoubt&)> draw = {};
  Watch watch = {};
};

/// Throws std::invalid_argument without a season.
[[nodiscard]] WinterAnswer winter(const Scenario& scenario, const Planners& planners);

/// The gap between a plan and the least that any plan can cost, a share of the cost.
[[nodiscard]] double gap_of(const SeasonPlan& plan);

/// True when there is a plan and no horse is left out of it.
[[nodiscard]] bool complete(const WinterAnswer& answer);

}  // namespace haymow
