// How much the figures of a feed vary from batch to batch: what a table, an old
// or a fresh analysis leaves open. Rows of one table with their sources; the
// arithmetic on them is in floor_doubt.h and confidence.h.
#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "model/feed.h"
#include "model/stable.h"

namespace haymow {

/// One row: how figures of a kind of feed vary between batches.
struct VariationRow {
  FeedGroup group = FeedGroup::hay;
  bool legume = false;
  Nutrient nutrient = Nutrient::energy;
  double percent = 0.0;  // coefficient of variation
  std::string_view source;
};
[[nodiscard]] std::span<const VariationRow> variation_table();

struct Variation {
  /// Standard deviation over mean, above 0.
  double coefficient = 0.0;
  std::string_view source;
  /// Varies so much that a normal law would reach below nothing: taken as
  /// log-normal.
  [[nodiscard]] bool is_skewed() const;
};

/// How far the keeper's own figures are trusted. Common practice, no source.
/// A fresh analysis leaves a third of what varies between batches (laboratory and
/// sampling error), an old or undated one two thirds, none all of it.
inline constexpr double left_by_fresh_analysis = 1.0 / 3.0;
inline constexpr double left_by_old_analysis = 2.0 / 3.0;
/// An analysis is fresh for a year: then there is another cut.
inline constexpr Days fresh_for{365.0};

/// How the figure for `n` of what is on offer varies; nothing where nobody has
/// published it, or where the feed has no figure.
[[nodiscard]] std::optional<Variation> variation_of(const Offer& offer, Nutrient n);

}  // namespace haymow
