// What bales weigh, by the names people give their sizes. A published range, never
// one figure: who has not weighed five bales does not know.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "model/feed.h"
#include "model/units.h"

namespace haymow {

struct BaleSize {
  std::string_view words;  // "quadrant bale"; "bale" is one of any small size
  FeedGroup group;         // hay, haylage or straw: straw is lighter
  KgAsFed least;
  KgAsFed most;
  std::string_view source;             // of the weights
  std::optional<double> cubic_metres;  // absent: nobody prints its size
};

[[nodiscard]] std::span<const BaleSize> bale_sizes();
/// The size of that name for that kind of forage; null when nothing is published.
[[nodiscard]] const BaleSize* bale_size(std::string_view words, FeedGroup group);

/// "3x3x8 bales" is "3x3x8 bale", whatever is baled; absent for another word.
[[nodiscard]] std::optional<std::string> bale_named(std::string_view words);
/// What a bale of that size takes of a store, stacked without gaps [m3]; absent where
/// nobody prints its size.
[[nodiscard]] std::optional<double> cubic_metres_of_bale(std::string_view words);

/// Every name of a size, each once.
[[nodiscard]] std::vector<std::string> bale_names();

}  // namespace haymow
