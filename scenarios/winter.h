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
#include "model/season_failure.h"
#include "scenarios/scenario.h"

namespace haymow {

/// A horse that no ration can be found for in some week, whatever is bought: why.
struct HorseWithoutRation {
  std::size_t horse = 0;  // of SeasonQuestion::horses
  std::size_t week = 0;   // the first
  std::size_t ration = 0;
  NoRation why;
};

/// The difference in cost to the plan, from solving again; of the lower bounds, which
/// whole packs do not make jump. Absent: there is no plan then.
struct OtherwiseCosts {
  std::optional<Money> week_more;
  std::optional<Money> week_less;
  std::optional<Money> dearer_hay;
};
inline constexpr double hay_dearer_by = 0.10;

struct WinterAnswer {
  SeasonQuestion question;
  SeasonPlan plan;
  /// Where there is a plan: found, or one that keeps every limit when the time ran out.
  std::optional<SeasonBills> bills;
  std::optional<OtherwiseCosts> other;  // found
  std::vector<std::size_t> refused;     // of Stable::horses: a vet's business
  /// Where there is no plan: those who have no ration even without a season.
  std::vector<HorseWithoutRation> without_ration;
  /// Where there is no plan and every horse has a ration: from when, and for whom.
  std::optional<SeasonFailure> failure;
  std::vector<std::string> assumptions;
};

/// How a season is planned: in whole packs, or only as far as the least it can cost.
struct Planners {
  std::function<SeasonPlan(const SeasonQuestion&)> plan;
  std::function<SeasonPlan(const SeasonQuestion&)> bound;
  std::function<std::optional<SeasonFailure>(const SeasonQuestion&)> explain = {};
};

/// Throws std::invalid_argument without a season.
[[nodiscard]] WinterAnswer winter(const Scenario& scenario, const Planners& planners);

/// The gap between a plan and the least that any plan can cost, a share of the cost.
[[nodiscard]] double gap_of(const SeasonPlan& plan);

/// True when there is a plan and no horse is left out of it.
[[nodiscard]] bool complete(const WinterAnswer& answer);

}  // namespace haymow
