// The season in which the first weeks are fed as today: how long that can go on so that
// a safe plan, with a gradual change, still reaches the end.
#pragma once

#include <cstddef>
#include <optional>

#include "model/season_plan.h"

namespace haymow {

/// The season with its first `weeks` fed as `fed_before` says, whatever the rations ask
/// there, and everything after as a plan must. Horses without `fed_before` are planned
/// from the first day.
struct FedAsToday {
  std::size_t weeks = 0;
  bool fits = false;
  /// fits: of the program with amounts of any size, and its cost, season and all.
  Certificate certificate;
  Money cost;
  /// does not: how far the proof goes (solver/certify.h, infeasibility_proof); above
  /// certificate_tolerance it holds.
  double proof = 0.0;

  /// Neither a certified plan nor a proof that there is none: nothing may be said.
  [[nodiscard]] bool is_known() const;
};
[[nodiscard]] FedAsToday feed_as_today(const SeasonQuestion& question, std::size_t weeks,
                                       const SeasonOptions& options = {});

struct LatestChange {
  FedAsToday fits;                   // so many weeks as today, and there is a plan
  std::optional<FedAsToday> misses;  // a week more, and there is none; absent: to the end
};

/// By bisection over the weeks, both ends certified: so it is a week from which a plan
/// exists while none does from the next. Nothing when no horse has `fed_before`, when
/// even a change on the first day has no plan, or when something is not known.
[[nodiscard]] std::optional<LatestChange> latest_change(const SeasonQuestion& question,
                                                        const SeasonOptions& options = {});

/// The day on which such a change begins, days after the first of the season. The week of
/// the program is as one ration, that of its middle day: half new in its middle after 14
/// days' change that began in the middle of the week before.
[[nodiscard]] int first_day_of_change(const SeasonQuestion& question, const FedAsToday& trial);

}  // namespace haymow
