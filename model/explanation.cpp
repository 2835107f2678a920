#include "model/explanation.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "solver/sensitivity.h"

namespace haymow {
namespace {

// Less than this a day per unit is the arithmetic's, not the feed bill's.
constexpr double least_price = 1e-7;

std::vector<HeldLimit> held_limits(const Formulation& formulation, const Solution& solution) {
  std::vector<Bound> rows;
  for (const Bound& bound : active_bounds(formulation.program, solution)) {
    if (bound.of != Bound::Of::row) continue;
    // A margin is part of its floor, which has the price.
    const auto& row = formulation.rows[static_cast<std::size_t>(bound.index)];
    if (row.family != RowFamily::margin) rows.push_back(bound);
  }
  std::vector<HeldLimit> held;
  for (const BoundPrice& price : bound_prices(formulation.program, solution, rows)) {
    if (price.tightening_costs < least_price && price.loosening_saves < least_price) continue;
    HeldLimit limit;
    limit.row = formulation.rows[static_cast<std::size_t>(price.bound.index)];
    const double units = limit.row.row_units(solution.columns);
    limit.tightening_costs = price.tightening_costs * units;
    limit.loosening_saves = price.loosening_saves * units;
    if (limit.row.whole.empty()) {
      limit.tightening_until = price.tightening_until;
      limit.loosening_until = price.loosening_until;
    }
    // Nothing is less than none: a limit of 0 can only be loosened.
    if (limit.row.bound == 0.0) limit.tightening_costs = 0.0;
    if (limit.tightening_costs < least_price && limit.loosening_saves < least_price) continue;
    held.push_back(std::move(limit));
  }
  // Dearest first, by what one per cent of the limit is worth, so that units do
  // not decide the order.
  const auto weight = [](const HeldLimit& l) {
    const double price = std::isfinite(l.tightening_costs)
                             ? std::max(l.tightening_costs, l.loosening_saves)
                             : l.loosening_saves;
    return price * std::max(std::abs(l.row.bound), 1e-9);
  };
  std::stable_sort(held.begin(), held.end(),
                   [&](const HeldLimit& a, const HeldLimit& b) { return weight(a) > weight(b); });
  return held;
}

// The row that pays: what a margin charges a feed for its variation comes off what
// its floor pays.
std::size_t paying_row(const Formulation& formulation, std::size_t row) {
  const RowMeaning& meaning = formulation.rows[row];
  if (meaning.family != RowFamily::margin) return row;
  const auto& rows = formulation.rows;
  const auto floor = std::find_if(rows.begin(), rows.end(), [&](const RowMeaning& r) {
    return r.family == RowFamily::need && r.side == Side::lower && r.nutrient == meaning.nutrient;
  });
  return static_cast<std::size_t>(floor - rows.begin());
}

std::vector<FeedWorth> worth_of_fed(const RationQuestion& question, const Formulation& formulation,
                                    const Solution& solution) {
  std::vector<FeedWorth> worth;
  const auto rows = formulation.program.rows();
  for (std::size_t j = 0; j < question.offers.size(); ++j) {
    if (solution.columns[j] < least_portion.in_kg()) continue;
    FeedWorth feed{j, {}};
    std::map<std::size_t, double> per_kg;
    for (std::size_t i = 0; i < rows.size(); ++i) {
      for (const Term& t : rows[i].terms) {
        if (static_cast<std::size_t>(t.column) != j) continue;
        per_kg[paying_row(formulation, i)] += solution.row_duals[i] * t.coefficient;
      }
    }
    for (const auto& [row, paid] : per_kg) {
      if (std::abs(paid) > least_price) feed.payments.push_back({row, paid});
    }
    std::stable_sort(feed.payments.begin(), feed.payments.end(),
                     [](const Payment& a, const Payment& b) { return a.per_kg > b.per_kg; });
    worth.push_back(std::move(feed));
  }
  return worth;
}

std::vector<EntryPrice> unused_offers(const RationQuestion& question,
                                      const Formulation& formulation, const Solution& solution) {
  std::vector<EntryPrice> unused;
  for (std::size_t j = 0; j < question.offers.size(); ++j) {
    if (solution.columns[j] >= least_portion.in_kg()) continue;
    const Offer& offer = question.offers[j];
    EntryPrice entry{j, offer.price_per_kg, std::nullopt};
    const auto cost = entry_cost(formulation.program, solution, static_cast<int>(j));
    if (cost) {
      const Money enters_at = offer.price_for(Money{*cost});
      if (enters_at > Money{}) entry.enters_at = enters_at;
    }
    unused.push_back(entry);
  }
  // Nearest to entering: the smallest relative fall in price.
  const auto gap = [](const EntryPrice& e) {
    if (!e.enters_at) return unlimited;
    return (e.now - *e.enters_at).in_units() / std::max(e.now.in_units(), 1e-9);
  };
  std::stable_sort(unused.begin(), unused.end(),
                   [&](const EntryPrice& a, const EntryPrice& b) { return gap(a) < gap(b); });
  return unused;
}

}  // namespace

Explanation explain(const RationQuestion& question, const Formulation& formulation,
                    const Solution& solution) {
  return {held_limits(formulation, solution), worth_of_fed(question, formulation, solution),
          unused_offers(question, formulation, solution)};
}

}  // namespace haymow
