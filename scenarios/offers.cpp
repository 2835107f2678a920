#include "scenarios/offers.h"

#include <algorithm>

#include "scenarios/report_parts.h"

namespace haymow {
namespace {

OffersAnswer offers_for(HorseAnswer answer, const OffersOptions& options) {
  OffersAnswer out;
  out.answer = std::move(answer);
  out.curves = curves_for(out.answer, options.curves);
  if (!out.curves.proven) out.answer.status = AnswerStatus::failed;
  if (out.answer.status != AnswerStatus::found) return out;
  const HorseAnswer& found = out.answer;
  out.ranges =
      amount_ranges(found.question, found.formulation, found.solution, std::span(told_margins));
  const bool proven =
      std::all_of(out.ranges.begin(), out.ranges.end(), [](const auto& r) { return r.holds(); });
  if (!proven) {
    // No answer leaves without its certificate.
    out.answer.status = AnswerStatus::failed;
    return out;
  }
  if (found.practical) {
    out.mixes = alternatives(found.question, found.formulation, found.solution, *found.practical,
                             options.alternatives);
  }
  out.swaps = swaps(found.question, found.formulation, found.solution);
  return out;
}

// The same wish twice is one row of the program; the stricter amount holds.
void add_wish(Horse& horse, const Wish& wish) {
  const auto same = std::find_if(horse.wishes.begin(), horse.wishes.end(), [&](const Wish& w) {
    return w.kind == wish.kind && w.what == wish.what;
  });
  if (same == horse.wishes.end()) {
    horse.wishes.push_back(wish);
  } else {
    same->amount = std::max(same->amount, wish.amount);
  }
}

}  // namespace

Scenario with_choice(Scenario scenario, const OffersOptions& options) {
  if (options.only) {
    std::erase_if(scenario.stable.offers, [](const Offer& offer) { return !offer.own; });
    for (const Offer& offer : *options.only) scenario.stable.offers.push_back(offer);
  }
  for (Horse& horse : scenario.stable.horses) {
    for (const std::string& feed : options.without) {
      add_wish(horse, {WishKind::none, feed, KgAsFed{}, {}});
    }
    for (const auto& [feed, amount] : options.with) {
      add_wish(horse, {WishKind::at_least, feed, amount, {}});
    }
  }
  return scenario;
}

std::vector<OffersAnswer> offers(const Scenario& scenario, const OffersOptions& options) {
  std::vector<HorseAnswer> chosen = run(with_choice(scenario, options));
  std::vector<OffersAnswer> all;
  for (HorseAnswer& answer : chosen) all.push_back(offers_for(std::move(answer), options));
  if (!options.chooses()) return all;
  const std::vector<HorseAnswer> free = run(scenario);
  for (std::size_t h = 0; h < all.size(); ++h) {
    if (free[h].status != AnswerStatus::found) continue;
    all[h].cost_of_free_choice = ration_to_feed(free[h]).cost;
  }
  return all;
}

}  // namespace haymow
