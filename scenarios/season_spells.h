// A season's plan as a person feeds it: for every horse the stretches of weeks in which
// it gets the same, in steps of the scale, instead of a ration for every week.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "model/season_plan.h"

namespace haymow {

struct SpellFeed {
  std::size_t offer = 0;
  double put_out_kg = 0.0;  // a day, in whole steps of the scale
};

/// Weeks in which a horse is put out the same, as far as a scale shows.
struct FeedingSpell {
  std::size_t first_week = 0;
  std::size_t last_week = 0;     // included
  std::vector<SpellFeed> feeds;  // forage first, then by weight
};

/// Kilograms put out a day in the nearest whole step of the scale (model/weighing.h);
/// less than half a step in the finest steps, so that nothing fed goes unsaid.
[[nodiscard]] double in_steps(KgAsFed put_out, FeedGroup group);

[[nodiscard]] std::vector<FeedingSpell> spells_of_horse(const SeasonQuestion& question,
                                                        const SeasonPlan& plan, std::size_t horse);

/// Horses that are fed alike all season, each with its place in the plan.
struct FedAlike {
  std::vector<std::size_t> horses;
  std::vector<FeedingSpell> spells;
};
[[nodiscard]] std::vector<FedAlike> fed_alike(const SeasonQuestion& question,
                                              const SeasonPlan& plan);

/// What changes, and for whom, on the first day of a week.
struct ChangeDay {
  std::size_t week = 0;
  std::vector<std::size_t> horses;
};
/// In order; the first week is no change.
[[nodiscard]] std::vector<ChangeDay> change_days(const SeasonQuestion& question,
                                                 const SeasonPlan& plan);

}  // namespace haymow
