// The plan of a season: what every horse eats in every week, what is bought, kept
// and thrown away, and what it costs; certified, and within a told distance of the
// least that any plan can cost.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "model/season.h"
#include "model/season_watch.h"
#include "solver/certify.h"

namespace haymow {

/// One feed of one order. An order day is a week with at least one of these.
struct OrderLine {
  std::size_t week = 0;  // it comes on the first day of that week
  std::size_t offer = 0;
  KgAsFed amount;
  std::optional<int> packs;  // where the feed is bought in whole packs
  Money goods;               // at the price of that week and of that quantity
  Money delivery;
};

/// A feed's stock over one week, kg as fed in the store: opening + bought = lost +
/// put out + spoiled + closing.
struct StockWeek {
  double opening = 0.0;
  double bought = 0.0;   // as it comes through the gate
  double lost = 0.0;     // what the store loses of what is bought or on hand
  double put_out = 0.0;  // of which the horses waste their part
  double spoiled = 0.0;  // thrown away
  double closing = 0.0;
};

enum class SeasonStatus {
  found,          // certified
  none,           // no plan keeps every limit; see season_failure.h
  limit_reached,  // time ran out or it was stopped: `lower_bound` holds, amounts only if certified
                  // feasible
  failed,         // our failure
};

struct SeasonPlan {
  SeasonStatus status = SeasonStatus::failed;
  /// [horse][week][offer of that week's ration]: kg as fed eaten a day.
  std::vector<std::vector<std::vector<double>>> eaten;
  std::vector<std::vector<StockWeek>> stock;  // [offer][week]
  std::vector<OrderLine> orders;              // by week, then offer
  Money cost;                      // of all that is bought, and of what was on hand and is gone
  Money lower_bound;               // no plan costs less: of the relaxation, by weak duality
  Certificate certificate;         // of the relaxation: amounts of any size
  double largest_imbalance = 0.0;  // kg, of any stock in any week
  bool in_whole_packs = false;
  bool stopped = false;  // by SeasonOptions::watch: whatever is here holds
};

enum class Packs { whole, any };

struct SeasonOptions {
  double time_limit_seconds = 60.0;
  Packs packs = Packs::whole;
  SeasonWatch watch = {};
  std::size_t threads = 0;  // 0: as pays on this machine; the plan is the same whatever it is
};

/// Throws std::invalid_argument on a question that does not fit together
/// (season_parts.h); never for a "no". Same question, same plan, unless time runs out.
[[nodiscard]] SeasonPlan plan_season(const SeasonQuestion& question,
                                     const SeasonOptions& options = {});

}  // namespace haymow
