// Hay that runs short: how long it lasts as it is fed today, from which day to change,
// what to buy, who gets it first. Pure but for the time limit, as winter.h is.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "model/runs_out.h"
#include "model/season_mends.h"
#include "model/season_plan.h"
#include "model/season_price.h"
#include "model/season_today.h"
#include "model/who_first.h"
#include "scenarios/scenario.h"
#include "scenarios/watch.h"

namespace haymow {

/// What one horse is put out today, kg as fed a day.
struct FedToday {
  std::size_t horse = 0;           // of SeasonQuestion::horses
  bool told = false;               // `fed now`; else the cheapest ration of each week
  std::vector<std::string> extra;  // fed and not on offer: in no stock
  std::vector<std::vector<double>> put_out_a_day;  // [offer][week]
};

/// Forage there is not enough of, as it is fed today or in the plan.
struct ShortFeed {
  std::size_t offer = 0;
  std::optional<std::vector<WorthToHorse>> who_first;  // absent: not certified
  /// What a kilogram more on hand would save the plan, its own price not counted; from
  /// planning again with 100 kg more. Absent: there is no plan.
  std::optional<Money> worth_per_kg;
};

/// Bought over the season in the plan with so many weeks more, and in the plan.
struct LongerWinter {
  SeasonQuestion question;
  SeasonPlan plan;
};
inline constexpr int weeks_in_reserve = 4;
/// Less of a forage than this over the season is told as none. Common practice, no source.
inline constexpr double least_forage_told_kg = 0.5;

/// In the order in which they are worked out.
enum class StretchPart { plan, latest, prices, reserve, who_first };

struct StretchAnswer {
  SeasonQuestion question;
  std::vector<std::size_t> refused;  // of Stable::horses: a vet's business
  std::vector<FedToday> today;       // one a horse of the question
  std::vector<std::string> unknown;  // horses for which not even a ration is found
  std::vector<RunsOut> runs_out;
  SeasonPlan plan;
  std::optional<LatestChange> latest;
  std::vector<ShortFeed> short_feeds;
  std::vector<BreakEven> break_even;    // of hay and haylage that the plan buys
  std::optional<LongerWinter> reserve;  // the plan was found
  std::optional<SeasonFailure> failure;
  std::optional<SeasonMends> mends;
  std::vector<std::string> assumptions;
  /// What was at work when it was stopped: that, and what comes after, is not known.
  std::optional<StretchPart> stopped_in;
  bool time_is_up = false;  // it took too long: nobody asked for it to be stopped

  [[nodiscard]] bool found() const { return plan.status == SeasonStatus::found; }
  [[nodiscard]] bool knows(StretchPart part) const { return !stopped_in || part < *stopped_in; }
};

/// Throws std::invalid_argument without a season.
[[nodiscard]] StretchAnswer stretch(const Scenario& scenario, const Watch& watch = {});

/// A plan for every horse.
[[nodiscard]] bool complete(const StretchAnswer& answer);

/// Bought of an offer over the season, kg through the gate.
[[nodiscard]] double bought_kg(const SeasonPlan& plan, std::size_t offer);

}  // namespace haymow
