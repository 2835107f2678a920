// The whole-number program of a ration in steps: the rows of the continuous one
// over numbers of steps, with a switch for each feed that says whether it is used
// at all. docs/explanation/linear-program.md has the algebra.
#pragma once

#include <vector>

#include "model/formulate.h"
#include "model/weighing.h"

namespace haymow {

/// Feeds in the bucket, minerals included, where the file sets no other number.
/// Common practice, no source.
inline constexpr int most_bucket_feeds = 6;

/// How the limits of a meal are asked of a day in whole steps.
enum class MealRows {
  day,     // of the day as a whole: its steps may not divide into sound meals
  exact,   // of each meal, by a number of steps for each feed in each
  margin,  // of the day, with room for rounding every feed to whole steps a meal: a
           // division exists by construction (divide_meals.h), at some cost
};

/// What a program in steps may give way in, beside the rules, which never give.
struct StepChoices {
  Fineness fineness = Fineness::usual;
  PortionUse portions = PortionUse::whole;
  int bucket_feeds = most_bucket_feeds;
  /// A share of the barn may be passed by one step of the scale. It is a plan, not
  /// a safety limit: a yard that uses all its hay could else weigh out nothing.
  bool above_share = false;
  MealRows meals = MealRows::day;
};

/// Columns: the steps of each offer, in the order of the offers, then a switch
/// for each, then for exact meals the steps of each bucket feed in each meal. Rows:
/// those of `formulation` first, in their order.
struct WholeStepProgram {
  LinearProgram program;
  std::vector<Weighing> weighings;  // one an offer
};
[[nodiscard]] WholeStepProgram whole_step_program(const RationQuestion& question,
                                                  const Formulation& formulation,
                                                  const StepChoices& choices);

}  // namespace haymow
