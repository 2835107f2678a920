// How the buckets of a day are shared out over its meals: alike, or as the
// keeper says (a small breakfast). The limits of a meal hold for each one, so
// for the largest share.
#pragma once

#include <vector>

#include "model/formulate.h"

namespace haymow {

/// One entry a meal, in the order of the day; shares add up to 1.
[[nodiscard]] std::vector<MealShare> meal_shares(const RationQuestion& question);

/// The largest of them, 0 to 1: a mix of which every meal gets its share keeps a
/// limit a meal when the day keeps that limit divided by it.
[[nodiscard]] double largest_meal_share(const RationQuestion& question);

/// What a limit of a meal (per kg, or per 100 kg, of bodyweight) is multiplied by to
/// bound the day: `starch_meal/max` per kg, `meal_size/max` per 100 kg.
[[nodiscard]] double kg_over_largest_share(const RationQuestion& question);
[[nodiscard]] double per_cent_over_largest_share(const RationQuestion& question);

/// Gives `question` another number of meals, and `formulation`, which is of it, the
/// limits that go with them: what formulating it again would give.
void change_meals(RationQuestion& question, Formulation& formulation, int meals);

}  // namespace haymow
