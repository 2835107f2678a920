// Which other mixes would do: for each horse how much of every feed a nearly
// cheapest ration can hold, rations of other feeds, and what takes the place of
// what. Pure, as run.h is.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "model/alternatives.h"
#include "model/amount_ranges.h"
#include "model/swaps.h"
#include "scenarios/curves.h"
#include "scenarios/run.h"

namespace haymow {

/// What is asked for on the command line; one struct for all parts.
struct OffersOptions {
  AlternativesAsked alternatives;
  std::vector<std::string> without;                   // feeds, as a wish names them
  std::vector<std::pair<std::string, KgAsFed>> with;  // at least so much eaten a day
  std::optional<std::vector<Offer>> only;             // all that can be bought
  CurvesAsked curves;

  /// True when the choice of feeds is not the file's own.
  [[nodiscard]] bool chooses() const { return !without.empty() || !with.empty() || only; }
};

struct OffersAnswer {
  HorseAnswer answer;  // among the feeds chosen
  /// What to feed of the file's own choice costs a day; absent: nothing was chosen, or
  /// the file's own choice leaves no ration.
  std::optional<Money> cost_of_free_choice;
  // Where the answer was found:
  std::vector<RangesWithin> ranges;  // by told_margins
  std::vector<Alternative> mixes;    // none without a ration in whole steps
  std::vector<SwapsOf> swaps;
  /// Without a ration, too, as far as it can be: see curves_for.
  HorseCurves curves;
};

/// The answers for all horses, in the scenario's order.
[[nodiscard]] std::vector<OffersAnswer> offers(const Scenario& scenario,
                                               const OffersOptions& options);

/// The scenario with the choice made: each horse's wishes, and what can be bought.
[[nodiscard]] Scenario with_choice(Scenario scenario, const OffersOptions& options);

}  // namespace haymow
