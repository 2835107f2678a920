// One feed with all that is known of each figure: where it comes from, how it was
// worked out, what the bag may hold of it. As a value; the reports print it.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "feeds/label_tolerance.h"
#include "model/energy_estimate.h"
#include "model/feed.h"
#include "scenarios/scenario.h"

namespace haymow {

struct ExplainedFigure {
  Nutrient nutrient = Nutrient::energy;
  double per_kg_dry_matter = 0.0;
  double per_kg_as_fed = 0.0;
  Figure figure;
  std::string taken_over_from;          // the feed of the table it is of; may be empty
  std::string how;                      // the arithmetic; empty for a figure that was read
  std::optional<BagContent> bag_holds;  // of an additive that a label declares
};

struct ExplainedFeed {
  std::string name;  // as the keeper calls it
  Feed feed;
  std::vector<ExplainedFigure> figures;  // in the order of nutrients
  std::vector<Nutrient> unknown;
  std::vector<EnergyEstimate> energies;  // by every equation

  /// Difference between the largest and the least energy that the equations give
  /// [MJ per kg of dry matter]; absent when fewer than two can be used.
  [[nodiscard]] std::optional<double> spread() const;
};

[[nodiscard]] ExplainedFeed explain_feed(std::string name, const Feed& feed);

/// The feed that `name` means: an offer of `scenario` by its name, one that alone fits
/// the word, or a feed of the table. Absent when there is none.
[[nodiscard]] std::optional<ExplainedFeed> find_explained(std::string_view name,
                                                          const Scenario* scenario);

/// Names near to one that is not found, the scenario's first.
[[nodiscard]] std::vector<std::string> near_explained(std::string_view name,
                                                      const Scenario* scenario);

}  // namespace haymow
