// A ration whose floors hold with a stated probability, although feeds vary from
// batch to batch: each forced floor by itself, errors independent. The algebra is
// solver/uncertain_rows.h; what varies, and by how much, variation.h. Figures
// that vary too much for a normal law count with what so many batches in a
// hundred have at least, which is on the safe side.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "model/floor_doubt.h"
#include "model/formulate.h"
#include "model/practical.h"
#include "solver/uncertain_rows.h"

namespace haymow {

/// What was promised, and what it rests on.
struct Promise {
  double probability = 0.9;
  std::vector<Nutrient> guarded;
  /// Forced floors that nothing is published on: kept as the figures have them.
  std::vector<Nutrient> as_figured;
  /// The energy floor could not be guarded below its ceiling with the rest, and
  /// was left as figured: condition is watched instead.
  bool energy_left_out = false;
};

/// A floor that is kept with the probability promised.
struct GuardedFloor {
  std::size_t row = 0;  // of the plain formulation
  Nutrient nutrient = Nutrient::energy;
  std::vector<Term> low;   // the row's terms, skewed figures at their low quantile
  UncertainRow uncertain;  // what else varies in it
};

struct GuardedRation {
  Promise promise;
  double z = 0.0;  // normal quantile of the probability
  std::vector<GuardedFloor> floors;
  /// Over the offers and, behind them, a margin for each guarded floor. Its rows
  /// are those of the plain formulation in the same order, then the tangents.
  Formulation formulation;
  Solution solution;  // of formulation.program; infeasible is a proof
  double largest_miss = 0.0;
  int rounds = 0;
  /// The same over the offers alone, the margins put in: for whole steps.
  Formulation over_offers;
};

/// Solves `question`, whose plain formulation is given, with every forced floor
/// kept with `probability`, 0.5 < p < 1; throws std::invalid_argument outside.
/// When only the energy ceiling stands in the way, the energy floor is left as
/// figured (Promise::energy_left_out).
[[nodiscard]] GuardedRation guarded_ration(const RationQuestion& question, const Formulation& plain,
                                           double probability);

/// The greatest probability, to `step`, up to `asked`, that a ration can promise;
/// nothing when even 1/2 cannot.
[[nodiscard]] std::optional<double> most_confident(const RationQuestion& question,
                                                   const Formulation& plain, double asked,
                                                   double step = 0.01);

/// Whole steps that keep the guarded floors too: searches again with the tangents
/// at what an answer misses. Nothing when there are none.
[[nodiscard]] std::optional<PracticalRation> practical_guarded(const RationQuestion& question,
                                                               const GuardedRation& guarded,
                                                               double certified_cost);

}  // namespace haymow
