#include "model/swaps.h"

#include <algorithm>
#include <cmath>

#include "model/practical.h"
#include "model/ration.h"
#include "solver/solve.h"

namespace haymow {
namespace {

// What the amounts of the ration may drift by before they count as changed: the
// solver's tolerance on a bound, well below what any scale shows.
constexpr double slack_kg = 1e-7;

bool by_the_gram(const Offer& offer) { return is_fed_by_the_gram(offer.feed.group); }

class Swapper {
 public:
  Swapper(const RationQuestion& question, const Formulation& formulation, const Solution& before)
      : question_(question), before_(before), solver_(formulation.program) {}

  SwapsOf swaps_of(std::size_t offer) {
    const double has = before_.columns[offer];
    const KgAsFed taken = std::min(question_.offers[offer].eaten(swapped), KgAsFed{has});
    SwapsOf out{offer, taken, {}, {}};
    cap(offer, has - taken.in_kg());
    out.cheapest = solved();
    if (out.cheapest) {
      for (std::size_t by = 0; by < question_.offers.size(); ++by) {
        if (by == offer || question_.grazes(by) || by_the_gram(question_.offers[by])) continue;
        try_single(by, out);
      }
    }
    std::stable_sort(
        out.single.begin(), out.single.end(),
        [](const SingleSwap& a, const SingleSwap& b) { return a.swap.dearer < b.swap.dearer; });
    for (std::size_t j = 0; j < question_.offers.size(); ++j) cap(j, unlimited);
    return out;
  }

 private:
  void cap(std::size_t offer, double most) {
    solver_.set_column_bounds(static_cast<int>(offer), 0.0, std::max(most, 0.0));
  }

  void try_single(std::size_t by, SwapsOf& out) {
    for (std::size_t j = 0; j < question_.offers.size(); ++j) {
      if (j == out.offer) continue;
      const bool free = j == by || question_.grazes(j) || by_the_gram(question_.offers[j]);
      cap(j, free ? unlimited : before_.columns[j] + slack_kg);
    }
    auto swap = solved();
    if (!swap) return;
    const double more = swap->amounts[by] - before_.columns[by];
    // Without more of it the gap is closed by something else, or by nothing.
    if (more < weighing_of(question_.offers[by].feed.group).step.in_kg() / 2.0) return;
    out.single.push_back({by, std::move(*swap)});
  }

  std::optional<Swap> solved() {
    const Solution after = solver_.solve();
    if (after.status != Status::optimal) return std::nullopt;
    Swap swap{
        {}, Money{after.cost - before_.cost}, after.columns, certify(solver_.program(), after)};
    if (!swap.certificate.holds()) return std::nullopt;
    for (std::size_t j = 0; j < question_.offers.size(); ++j) {
      const double by = after.columns[j] - before_.columns[j];
      const KgAsFed step = weighing_of(question_.offers[j].feed.group).step;
      // Half a step is what rounding would show.
      if (std::abs(by) >= step.in_kg() / 2.0) swap.changes.push_back({j, KgAsFed{by}});
    }
    std::stable_sort(swap.changes.begin(), swap.changes.end(),
                     [](const AmountChange& a, const AmountChange& b) { return a.by > b.by; });
    return swap;
  }

  const RationQuestion& question_;
  const Solution& before_;
  WarmSolver solver_;
};

}  // namespace

std::vector<SwapsOf> swaps(const RationQuestion& question, const Formulation& formulation,
                           const Solution& solution) {
  Swapper swapper(question, formulation, solution);
  std::vector<SwapsOf> all;
  for (std::size_t j = 0; j < question.offers.size(); ++j) {
    if (question.grazes(j)) continue;  // nobody puts it out, so nobody swaps it
    const Offer& offer = question.offers[j];
    const KgAsFed has = offer.put_out(KgAsFed{solution.columns[j]});
    if (has >= weighing_of(offer.feed.group).least) all.push_back(swapper.swaps_of(j));
  }
  std::stable_sort(all.begin(), all.end(), [&](const SwapsOf& a, const SwapsOf& b) {
    return solution.columns[a.offer] > solution.columns[b.offer];
  });
  return all;
}

}  // namespace haymow
