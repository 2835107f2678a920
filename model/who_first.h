// Who gets a feed first when there is not enough of it: how much each horse cannot do
// without, and what a kilogram saves where it could.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "model/season.h"

namespace haymow {

/// A feed that takes the place, kg put out a day more than with the feed.
struct Instead {
  std::size_t offer = 0;
  double kg = 0.0;
};

/// What a feed is worth to one horse over the season, reckoned from its own rations as
/// if no other horse were there: its cheapest rations with the feed free of charge, and
/// with as little of it as a safe ration can do with.
struct WorthToHorse {
  std::size_t horse = 0;
  double least_kg = 0.0;             // put out in the season, at the least
  double most_kg = 0.0;              // put out in the season, where it costs nothing
  std::optional<RowMeaning> demand;  // why it is not less; in the ration of the most days
  /// What each kilogram put out between the two saves of other feed, on average. Absent
  /// where there is nothing between them.
  std::optional<Money> saves_per_kg;
  std::vector<Instead> instead;  // in the ration of the most days; the heaviest first
};

/// Those who cannot do without first, the most of what they eat first; then by what a
/// kilogram saves. Forage that cannot be bought does not count as what takes the place,
/// where a ration can do without it. Nothing when a horse has no ration, or an answer
/// does not certify.
[[nodiscard]] std::optional<std::vector<WorthToHorse>> who_first(const SeasonQuestion& question,
                                                                 std::size_t offer);

}  // namespace haymow
