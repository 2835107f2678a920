// From what is fed today to the new ration, a step at a time, each step judged by
// the rows that the new ration itself is judged by.
//
// Why a mixture is safe. Let a be today's amounts and b the new ones, both with the
// same number of meals, and x = (1 - t) a + t b with 0 <= t <= 1. A plain row bounds
// a linear sum s, and s(x) = (1 - t) s(a) + t s(b) lies between s(a) and s(b): kept
// by both, kept by x. A share row, part / whole <= bound, is part - bound * whole <= 0
// once multiplied out (whole > 0): a linear sum again, so the same holds. What the
// proof does not cover is looked at afresh for every step: amounts rounded to what a
// scale shows, feeds cut early, limits that today's ration breaks, and shares of a
// whole that one of the two rations has nothing of.
#pragma once

#include <optional>
#include <vector>

#include "model/change_step.h"
#include "model/ration.h"

namespace haymow {

struct StepBreak {
  Broken broken;
  bool broken_today = false;
};

/// A stretch of days on the same amounts.
struct ChangeStep {
  int from_day = 1;               // the first day of the change is 1
  std::optional<int> to_day;      // included; absent: from then on, the new ration
  double share = 1.0;             // of the way, 0 to 1
  std::vector<double> amounts;    // kg as fed eaten a day, one an offer
  std::vector<StepBreak> broken;  // watched limits, and needs that today's ration meets
};

/// A figure of all forage together, per kg of its dry matter, before and after.
struct ForageShift {
  Nutrient nutrient = Nutrient::energy;
  double now = 0.0;
  double then = 0.0;
};

struct ChangePlan {
  bool changes = false;           // false: what is fed today is the new ration; nothing else is set
  bool safe = false;              // no step breaks a watched limit that today's ration keeps
  int days = 0;                   // on the way: the new ration is fed in full the day after
  std::vector<ChangeStep> steps;  // empty when there is no safe plan
  std::vector<Broken> broken_today;      // watched limits
  std::optional<double> too_little;      // not safe: share of the energy need that is fed now
  std::vector<Broken> unavoidable;       // not safe: what plain quarter steps would break
  std::vector<std::size_t> cut_early;    // concentrates that go down faster than in step
  bool forage_differs = false;           // a forage enters or leaves, or its mixture is another
  std::vector<ForageShift> shifts;       // the forage's analysis changes much
  std::optional<HealthState> no_faster;  // why more days are taken than asked for
  double most_added_kg = 0.0;            // of concentrates, put out, from one day to the next
  std::vector<KgAsFed> on_the_way;       // put out in those days, one an offer
};

/// "10-14 days any feed; forage change carries most colic risk": Hillyer et al. 2002,
/// by way of a magazine page; "25 % steps every about 4 days: 2 weeks": Horse Canada.
inline constexpr int fewest_change_days = 10;
inline constexpr int usual_change_days = 14;
inline constexpr int fewest_steps = 4;

/// What is fed now gives less than this share of the energy needed: either something
/// is left out of it, or the horse is starving, and a slow change would starve it for
/// longer. Trials on fat ponies found 60 to 80 % of maintenance safe.
inline constexpr double least_energy_share_now = 0.6;

/// `over`: days asked for; absent: 14. Fewer than 10 are taken as 10; horses prone to
/// ulcers or laminitis, and those that cannot chew as old horses often cannot, take
/// no fewer than 14 (sources for the states; old horses "slower": My Senior Horse).
/// `change.then` keeps every watched limit.
[[nodiscard]] ChangePlan plan_change(const Changeover& change,
                                     std::optional<int> over = std::nullopt);

}  // namespace haymow
