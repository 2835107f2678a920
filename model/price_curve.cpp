#include "model/price_curve.h"

#include <stdexcept>

#include "solver/cost_curve.h"

namespace haymow {
namespace {

// What a kilogram eaten costs when a kilogram is bought at `price`.
double cost_eaten(const Offer& offer, Money price) {
  return ((price + offer.delivery_per_kg) / offer.losses().eaten_of_bought()).in_units();
}

std::vector<PriceStep> steps_of(CostCurves& curves, const RationQuestion& question,
                                const Formulation& formulation, const PriceSpan& span) {
  const auto [offer, from, to] = span;
  if (offer >= question.offers.size() || from < Money{0.0} || to < from) {
    throw std::invalid_argument("a price curve needs a feed on offer and prices in order");
  }
  const Offer& priced = question.offers[offer];
  const auto pieces =
      curves.over(static_cast<int>(offer), cost_eaten(priced, from), cost_eaten(priced, to));
  std::vector<PriceStep> steps;
  for (const CostPiece& piece : pieces) {
    PriceStep step;
    step.from = steps.empty() ? from : steps.back().to;
    step.to = &piece == &pieces.back() ? to : priced.price_for(Money{piece.to});
    const auto& columns = piece.solution.columns;
    const auto count = static_cast<std::ptrdiff_t>(question.offers.size());
    step.amounts.assign(columns.begin(), columns.begin() + count);
    double others = 0.0;
    for (std::size_t j = 0; j < columns.size(); ++j) {
      if (j != offer) others += formulation.program.columns()[j].cost * columns[j];
    }
    step.cost_from = Money{others + piece.from * columns[offer]};
    step.cost_to = Money{others + piece.to * columns[offer]};
    steps.push_back(std::move(step));
  }
  return steps;
}

}  // namespace

std::vector<PriceStep> price_curve(const RationQuestion& question, const Formulation& formulation,
                                   std::size_t offer, Money from, Money to) {
  return price_curves(question, formulation, {{offer, from, to}}).front();
}

std::vector<std::vector<PriceStep>> price_curves(const RationQuestion& question,
                                                 const Formulation& formulation,
                                                 const std::vector<PriceSpan>& spans) {
  CostCurves curves(formulation.program);
  std::vector<std::vector<PriceStep>> all;
  all.reserve(spans.size());
  for (const PriceSpan& span : spans) {
    all.push_back(steps_of(curves, question, formulation, span));
  }
  return all;
}

}  // namespace haymow
