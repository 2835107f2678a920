// What a keeper knows of a feed on offer only as a range: how it is drawn says chance.h.
#pragma once

#include <cstddef>
#include <optional>

namespace haymow {

/// Least, likeliest and most, as a person knows a price or an end: the triangular
/// distribution takes these three and asks for nothing more (common practice, no source).
struct Triangle {
  double least = 0.0;
  double likeliest = 0.0;
  double most = 0.0;
};

/// Shares of what is told: 1 is as told. Absent: certain.
struct FeedRanges {
  std::optional<Triangle> price;          // of every week and quantity; delivery is certain
  std::optional<Triangle> bale;           // weight of each that is counted
  std::optional<Triangle> energy;         // of a kilogram of dry matter
  std::optional<Triangle> crude_protein;  // likewise, and its lysine with it

  [[nodiscard]] bool any() const { return price || bale || energy || crude_protein; }
};

struct FeedDoubt {
  std::size_t offer = 0;
  FeedRanges ranges;
};

}  // namespace haymow
