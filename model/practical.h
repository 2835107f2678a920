// The ration a person can weigh out: whole steps of the scale or whole scoops in
// what is put out, a least amount of any feed that is used at all, not more feeds
// in the bucket than anyone mixes, and every bucket of the day divided into meals
// that each keep their limits. A whole-number program over the same rows; the best
// continuous ration stays beside it and says what practicality costs.
#pragma once

#include <optional>
#include <vector>

#include "model/divide_meals.h"
#include "model/ration.h"
#include "model/whole_step_program.h"
#include "solver/certify.h"

namespace haymow {

struct PracticalRation {
  Ration ration;
  std::vector<double> amounts;       // kg as fed eaten, one an offer
  std::vector<int> steps;            // one an offer
  std::vector<Weighing> weighings;   // one an offer: what a step is, put out
  std::vector<Meal> meals;           // in the order of the day
  StepChoices choices;               // what had to give for these steps
  Certificate certificate;           // feasibility of the whole-number answer; gap to the
                                     // continuous one, so to any ration
  bool within_gap = false;           // found within practical_gap of the best in these steps
  std::optional<double> search_gap;  // by the solver's own bound, relative; no proof
};
/// The search stops when no whole-step ration can be cheaper by more than this, relative.
inline constexpr double practical_gap = 5e-3;

/// The cheapest ration in whole steps that also divides into meals. What the
/// usual steps cannot do is tried with a step more of the barn than the horse's
/// share, with half scoops, without scoops, with half steps, with fine ones, then
/// with more feeds in the bucket; `choices` says which it was. Nothing when none of them was found
/// to keep every limit; the continuous ration is then all there is. `certified_cost`: the certified
/// lower bound of the continuous program.
[[nodiscard]] std::optional<PracticalRation> practical_ration(const RationQuestion& question,
                                                              const Formulation& formulation,
                                                              double certified_cost);

/// The same with at most `bucket_feeds` in the bucket, which does not give.
[[nodiscard]] std::optional<PracticalRation> practical_ration_of_few(const RationQuestion& question,
                                                                     const Formulation& formulation,
                                                                     double certified_cost,
                                                                     int bucket_feeds);

/// The most feeds in the bucket for this horse: its own number, or the usual.
[[nodiscard]] int bucket_feeds_asked(const Horse& horse);

}  // namespace haymow
