// Where a season has no safe plan: one limit of good practice, or one of the keeper's own
// wishes, moved by the least that makes a plan exist, and for whom and in which weeks it
// has to move. Never a law, and no vet's rule beyond what the file records: what a vet has
// instructed is the horse's limit already (rules.h).
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

#include "model/season_plan.h"

namespace haymow {

/// One horse, from one week to another.
struct LooserFor {
  std::size_t horse = 0;
  std::size_t first_week = 0;
  std::size_t last_week = 0;  // included; in some weeks between it may hold as it was
};

struct LooserLimit {
  RowMeaning row;     // as it stands for the first horse of `where`
  double from = 0.0;  // the rule's own number, or the row's bound for a wish, in `unit`
  double to = 0.0;
  std::string unit;
  std::vector<LooserFor> where;  // everywhere else the limit stays as it is
  Money cost;                    // the least that the season then costs: the bound, certified
};

/// Each enough by itself, the cheapest season first; only what certifies. `cut_short` is
/// set when the time was up before every limit was tried.
[[nodiscard]] std::vector<LooserLimit> loosened_limits(const SeasonQuestion& question,
                                                       const SeasonOptions& options,
                                                       bool& cut_short);

/// `question` with the limit called `id` at `to` in the weeks that `moves` names, wherever
/// that is looser than it was. `to` in the rule's own number, or the wish's kilograms.
using Moves = std::function<bool(std::size_t horse, std::size_t week)>;
[[nodiscard]] SeasonQuestion with_looser_limit(const SeasonQuestion& question,
                                               const std::string& id, double to,
                                               const Moves& moves);

}  // namespace haymow
