#include "scenarios/explained_feed.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "feeds/diagnostic.h"
#include "feeds/feed_table.h"
#include "feeds/plain_text.h"
#include "model/naming.h"

namespace haymow {
namespace {

/// Energies of the table are rounded to a decimal.
constexpr double rounding_mj = 0.0501;

/// The arithmetic of a table energy that is marked as an equation's; "" where the
/// equation gives another figure, so that nothing is shown that was not done.
std::string table_arithmetic(const Figure& energy, const std::vector<EnergyEstimate>& energies) {
  for (const EnergyEstimate& e : energies) {
    if (traits_of(e.equation).source != energy.source || !e.energy) continue;
    if (std::abs(e.energy->value - energy.value) > rounding_mj) continue;
    return std::string(traits_of(e.equation).name) + ": " + written(*e.energy, "MJ", 1);
  }
  return "";
}

}  // namespace

std::optional<double> ExplainedFeed::spread() const {
  std::optional<double> least;
  double most = 0.0;
  int count = 0;
  for (const EnergyEstimate& e : energies) {
    if (!e.energy) continue;
    least = least ? std::min(*least, e.energy->value) : e.energy->value;
    most = std::max(most, e.energy->value);
    ++count;
  }
  if (count < 2) return std::nullopt;
  return most - *least;
}

ExplainedFeed explain_feed(std::string name, const Feed& feed) {
  ExplainedFeed out{std::move(name), feed, {}, {}, all_energy_estimates(feed)};
  for (const Nutrient n : all_nutrients()) {
    const auto& figure = feed.composition[n];
    if (!figure) {
      out.unknown.push_back(n);
      continue;
    }
    ExplainedFigure row{n, figure->value, *feed.per_kg_as_fed(n), *figure, "", figure->how, {}};
    if (feed.is_taken_over(*figure)) row.taken_over_from = feed.based_on;
    if (n == Nutrient::energy && row.how.empty() && row.taken_over_from.empty()) {
      row.how = table_arithmetic(*figure, out.energies);
    }
    if (figure->origin == FigureOrigin::label) row.bag_holds = bag_content(n, row.per_kg_as_fed);
    out.figures.push_back(std::move(row));
  }
  return out;
}

std::optional<ExplainedFeed> find_explained(std::string_view name, const Scenario* scenario) {
  if (scenario != nullptr) {
    const auto& offers = scenario->stable.offers;
    for (const Offer& offer : offers) {
      if (same_text(offer.name, name)) return explain_feed(offer.name, offer.feed);
    }
    const auto fits = [&](const Offer& offer) { return refers_to(name, offer); };
    const auto first = std::find_if(offers.begin(), offers.end(), fits);
    if (first != offers.end() && std::count_if(offers.begin(), offers.end(), fits) == 1) {
      return explain_feed(first->name, first->feed);
    }
  }
  const Feed* feed = find_feed(name);
  if (feed == nullptr) return std::nullopt;
  return explain_feed(feed->name, *feed);
}

std::vector<std::string> near_explained(std::string_view name, const Scenario* scenario) {
  std::vector<std::string> near;
  if (scenario != nullptr) {
    std::vector<std::string> names;
    for (const Offer& offer : scenario->stable.offers) names.push_back(offer.name);
    near = near_names(name, names);
  }
  if (near.empty()) near = near_feed_names(name);
  return near;
}

}  // namespace haymow
