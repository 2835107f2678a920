// A day's buckets divided into meals, every feed in whole steps that add up to
// the day: what is tipped into each bucket. Every division is checked against the
// limits of a meal before it is returned; long forage is not part of it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/formulate.h"

namespace haymow {

struct MealPortion {
  std::size_t offer = 0;  // index into the question's offers
  int steps = 0;          // of the scale, or whole scoops
  KgAsFed put_out;
};

struct Meal {
  std::string name;
  double share = 1.0;                 // asked for, of the day's buckets, 0 to 1
  std::vector<MealPortion> portions;  // in the order of the offers
  KgDryMatter dry_matter;
  double starch_g = 0.0;  // unknown taken as in the program
};

/// What one meal may hold at most, by the rules; absent: no rule.
struct MealLimits {
  std::optional<double> starch_g;
  std::optional<KgDryMatter> dry_matter;
};
[[nodiscard]] MealLimits meal_limits(const RationQuestion& question,
                                     const Formulation& formulation);

/// True when the meal keeps them, to 1e-9 relative: a printed meal breaks no rule.
[[nodiscard]] bool keeps(const Meal& meal, const MealLimits& limits);

/// A day in whole steps: how many of each offer, and what a step weighs, put out.
struct DayInSteps {
  std::vector<int> steps;
  std::vector<KgAsFed> step;
};

/// The day divided as the shares ask, each meal within a step of its share of
/// every feed where that keeps the limits, a powder of a few grams all in one
/// meal. Where it does not, an exact whole-number program over feeds and meals
/// looks for any division that does. Nothing when there is none, or none was
/// found within its limit of work.
[[nodiscard]] std::optional<std::vector<Meal>> divide_into_meals(const RationQuestion& question,
                                                                 const Formulation& formulation,
                                                                 const DayInSteps& day);

}  // namespace haymow
