#include "model/ration.h"

#include <algorithm>

#include "model/meal_shares.h"

namespace haymow {
namespace {

// Forage, fibre, hard feed, minerals: the order in which a yard thinks.
int place(FeedGroup group) {
  switch (group) {
    case FeedGroup::grass:
    case FeedGroup::hay:
    case FeedGroup::haylage:
      return 0;
    case FeedGroup::straw:
      return 1;
    case FeedGroup::dried_forage:
      return 2;
    case FeedGroup::fibre:
      return 3;
    case FeedGroup::cereal:
    case FeedGroup::protein:
    case FeedGroup::compound:
    case FeedGroup::sweet:
      return 4;
    case FeedGroup::oil:
      return 5;
    case FeedGroup::balancer:
      return 6;
    case FeedGroup::supplement:
    case FeedGroup::mineral:
      return 7;
  }
  return 8;
}

Supply supply_of(const Requirement& need, const RationQuestion& question,
                 const std::vector<Portion>& portions, KgDryMatter total) {
  Supply supply{need.nutrient, 0.0, need.floor, need.ceiling, need.forced, 0.0, 0.0};
  double from_memory = 0.0;
  KgDryMatter known;
  for (const Portion& portion : portions) {
    const auto& figure = question.offers[portion.offer].feed.composition[need.nutrient];
    if (!figure) continue;
    const double amount = figure->value * portion.dry_matter.in_kg();
    supply.supplied += amount;
    known += portion.dry_matter;
    if (figure->origin == FigureOrigin::memory) from_memory += amount;
  }
  if (total.in_kg() > 0.0) supply.known_share = std::min(known / total, 1.0);
  if (supply.supplied > 0.0) supply.memory_share = from_memory / supply.supplied;
  return supply;
}

}  // namespace

Ration ration_from(const RationQuestion& question, const Formulation& formulation,
                   const std::vector<double>& amounts) {
  Ration ration;
  ration.meals = question.meals;
  for (std::size_t i = 0; i < question.offers.size(); ++i) {
    const KgAsFed eaten{amounts[i]};
    if (eaten < least_portion) continue;
    const Offer& offer = question.offers[i];
    const Portion portion{i, eaten, offer.put_out(eaten), offer.feed.dry(eaten),
                          offer.cost_per_kg_eaten() * eaten.in_kg()};
    ration.cost += portion.cost;
    ration.dry_matter += portion.dry_matter;
    if (counts_as_forage(offer.feed, question.horse)) ration.forage += portion.dry_matter;
    ration.portions.push_back(portion);
  }
  std::stable_sort(ration.portions.begin(), ration.portions.end(),
                   [&](const Portion& a, const Portion& b) {
                     const int pa = place(question.offers[a.offer].feed.group);
                     const int pb = place(question.offers[b.offer].feed.group);
                     return pa != pb ? pa < pb : a.eaten > b.eaten;
                   });
  for (const RowMeaning& row : formulation.rows) {
    if (row.id == "starch_day/max") {
      ration.starch_per_meal_g = row.value(amounts).value_or(0.0) * largest_meal_share(question);
    }
  }
  for (const Requirement& need : question.needs.rows) {
    ration.supplies.push_back(supply_of(need, question, ration.portions, ration.dry_matter));
  }
  return ration;
}

std::vector<Broken> broken_rows(const std::vector<RowMeaning>& rows,
                                const std::vector<double>& amounts) {
  std::vector<Broken> broken;
  for (const RowMeaning& row : rows) {
    if (!row.kept(amounts)) broken.push_back({row, row.value(amounts).value_or(0.0)});
  }
  return broken;
}

}  // namespace haymow
