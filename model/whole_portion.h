// What a keeper deals out whole, because it has been weighed once: a scoop of
// cubes, a slice of hay, a bale. And how the buckets of a day are shared out over
// its meals.
#pragma once

#include <string>

#include "model/units.h"

namespace haymow {

/// A day's amount of the feed is so many of these, put out.
struct WholePortion {
  KgAsFed weight;
  std::string word;  // "scoop", "slice", "bale"
};

/// One meal's share of what the buckets hold in a day, 0 to 1, and what it is
/// called.
struct MealShare {
  std::string name;  // "meal 1", "breakfast"
  double share = 1.0;
};

}  // namespace haymow
