// Where a season has no safe plan and only the pace of changing feed stands in the way:
// how much faster it would have to go, for whom and when. Never a plan: a change faster
// than the usual risks colic and laminitis, and is a vet's to allow.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "model/season_plan.h"

namespace haymow {

/// One horse in one week that changes into it faster than usual.
struct FasterIn {
  std::size_t horse = 0;
  std::size_t week = 0;
  friend bool operator==(const FasterIn&, const FasterIn&) = default;
};

struct FasterChange {
  int days = 0;                 // the most days that a whole change may take; at most 13
  std::vector<FasterIn> where;  // by horse, then week; elsewhere the usual pace does
  Money cost;                   // the least that the season then costs: the bound, certified
};

/// Nothing where a faster change does not help, or the time was up (`cut_short`).
[[nodiscard]] std::optional<FasterChange> faster_change(const SeasonQuestion& question,
                                                        const SeasonOptions& options,
                                                        bool& cut_short);

/// `question` with changes over `days` in the weeks named.
[[nodiscard]] SeasonQuestion with_faster_change(SeasonQuestion question, int days,
                                                const std::vector<FasterIn>& where);

}  // namespace haymow
