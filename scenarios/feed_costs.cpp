#include "scenarios/feed_costs.h"

#include <algorithm>

#include "feeds/feed_table.h"

namespace haymow {
namespace {

std::optional<Money> per_unit(Money cost_per_kg, std::optional<double> units_per_kg) {
  if (!units_per_kg || *units_per_kg <= 0.0) return std::nullopt;
  return cost_per_kg / *units_per_kg;
}

void count(FigureOrigins& origins, const std::optional<Figure>& figure) {
  if (!figure) {
    ++origins.unknown;
    return;
  }
  switch (figure->origin) {
    case FigureOrigin::laboratory:
    case FigureOrigin::label:
    case FigureOrigin::printed:
      ++origins.printed;
      break;
    case FigureOrigin::calculated:
      ++origins.calculated;
      break;
    case FigureOrigin::estimated:
      ++origins.estimated;
      break;
    case FigureOrigin::memory:
      ++origins.from_memory;
      break;
  }
}

}  // namespace

std::vector<FeedCost> feed_costs(const Scenario& scenario) {
  std::vector<FeedCost> costs;
  costs.reserve(scenario.stable.offers.size());
  for (std::size_t i = 0; i < scenario.stable.offers.size(); ++i) {
    const Offer& offer = scenario.stable.offers[i];
    const Money eaten = offer.cost_per_kg_eaten();
    const auto protein = offer.feed.per_kg_as_fed(Nutrient::crude_protein);
    costs.push_back({offer.name, offer.price_per_kg, eaten, eaten / offer.feed.dry_matter_share(),
                     per_unit(eaten, offer.feed.per_kg_as_fed(Nutrient::energy)),
                     per_unit(eaten * 100.0, protein), i});
  }
  std::stable_sort(costs.begin(), costs.end(), [](const FeedCost& a, const FeedCost& b) {
    if (a.per_megajoule.has_value() != b.per_megajoule.has_value()) {
      return a.per_megajoule.has_value();
    }
    return a.per_megajoule && *a.per_megajoule < *b.per_megajoule;
  });
  return costs;
}

std::vector<FigureOrigins> figure_origins() {
  std::vector<FigureOrigins> all;
  for (const Nutrient n : all_nutrients()) {
    FigureOrigins origins;
    origins.nutrient = n;
    for (const Feed& feed : feed_table()) count(origins, feed.composition[n]);
    all.push_back(origins);
  }
  return all;
}

}  // namespace haymow
