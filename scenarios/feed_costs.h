// What a feed on offer really costs: by what is eaten, by its dry matter, its
// energy and its protein, so that a bale and a bag can be compared.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "scenarios/scenario.h"

namespace haymow {

/// Money for each; absent where the figure is unknown, or where there is none of it.
struct FeedCost {
  std::string feed;
  Money per_kg;        // as bought, without delivery
  Money per_kg_eaten;  // with delivery, after what store, soaking and feeder lose
  Money per_kg_dry_matter;
  std::optional<Money> per_megajoule;  // of digestible energy
  std::optional<Money> per_100_g_protein;
  std::size_t offer = 0;  // index into the stable's offers
};

/// One a feed on offer, the cheapest energy first, feeds without energy last.
[[nodiscard]] std::vector<FeedCost> feed_costs(const Scenario& scenario);

/// How the figures of the table are known, for one nutrient.
struct FigureOrigins {
  Nutrient nutrient = Nutrient::energy;
  int printed = 0;
  int calculated = 0;
  int estimated = 0;
  int from_memory = 0;
  int unknown = 0;  // feeds without a figure
  [[nodiscard]] int known() const { return printed + calculated + estimated + from_memory; }
};

/// One a nutrient, in the order of all_nutrients(), over the built-in table.
[[nodiscard]] std::vector<FigureOrigins> figure_origins();

}  // namespace haymow
