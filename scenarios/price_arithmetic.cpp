#include "scenarios/price_arithmetic.h"

#include <fmt/format.h>

#include <vector>

namespace haymow {
namespace {

/// Money a kilogram with enough figures to do the sum again: "0.1675 a kg".
std::string exact(Money per_kg, const Wording& words) {
  return fmt::format("{:.4g}", words.per_mass(per_kg));
}
std::string exact_price(Money per_kg, const Wording& words) {
  return exact(per_kg, words) + std::string(words.a_mass());
}

/// "4.50 per bale: 4.50 / 18.0 kg = 0.25 a kg", with the range where the weight is open.
std::string basis_told(const PriceBasis& basis, const Offer& offer, const Wording& words) {
  std::string told =
      fmt::format("{}: {} / {} = {}", basis.written, Wording::money(basis.money.in_units()),
                  words.mass(basis.amount.in_kg()), exact_price(basis.per_kg(), words));
  const MoneyRange range = per_kg_range(basis, offer.assumed_weight);
  if (range.is_open()) {
    told += fmt::format(" ({} to {}: not weighed)", exact(range.least, words),
                        exact_price(range.most, words));
  }
  return told;
}

std::string way_told(const std::optional<HandlingWay>& way) {
  return way ? fmt::format(" ({})", way->words) : std::string();
}

/// The losses as words and, for the division, as factors.
std::string losses_told(const Offer& offer, const Wording& words) {
  std::vector<std::string> told;
  std::string factors;
  const auto lose = [&](double share, const std::string& what) {
    if (share <= 0.0) return;
    told.push_back(Wording::percent(share) + what);
    factors += fmt::format("{}{:.3g}", factors.empty() ? "" : " x ", 1.0 - share);
  };
  lose(offer.storage_loss, " lost in the store" + way_told(offer.stored));
  lose(offer.soaking_loss, " washed out by soaking");
  lose(offer.waste, " not eaten" + way_told(offer.fed_from));
  if (told.empty()) return "";
  if (told.size() > 1) factors = fmt::format("({})", factors);
  return fmt::format("{}: {} / {} = {} eaten", listed(told),
                     exact(offer.cost_per_kg_delivered(), words), factors,
                     exact_price(offer.cost_per_kg_eaten(), words));
}

Losses with_ways(const Offer& offer, double (*end)(const LossRange&)) {
  Losses losses = offer.losses();
  if (offer.fed_from) losses.feeding = end(offer.fed_from->loss);
  if (offer.stored) losses.storage = end(offer.stored->loss);
  return losses;
}

}  // namespace

std::string price_arithmetic(const Offer& offer, const Wording& words) {
  if (!offer.price_basis) return "";
  std::vector<std::string> steps{basis_told(*offer.price_basis, offer, words)};
  if (offer.delivery_basis) {
    steps.push_back("delivery " + basis_told(*offer.delivery_basis, offer, words));
    steps.push_back(fmt::format("together {}", exact_price(offer.cost_per_kg_delivered(), words)));
  }
  if (std::string losses = losses_told(offer, words); !losses.empty()) {
    steps.push_back(std::move(losses));
  }
  const MoneyRange range = cost_per_kg_eaten_range(offer);
  if (range.is_open()) {
    steps.push_back(fmt::format("anything from {} to {} eaten", exact(range.least, words),
                                exact_price(range.most, words)));
  }
  std::string all;
  for (const std::string& step : steps) all += (all.empty() ? "" : "; ") + step;
  return all;
}

bool has_more_than_a_price(const Offer& offer) {
  const Losses losses = offer.losses();
  return offer.delivery_basis || offer.assumed_weight || losses.eaten_of_bought() < 1.0;
}

MoneyRange cost_per_kg_eaten_range(const Offer& offer) {
  const Money planned = offer.cost_per_kg_eaten();
  if (!offer.price_basis) return {planned, planned, planned};
  MoneyRange delivered = per_kg_range(*offer.price_basis, offer.assumed_weight);
  if (offer.delivery_basis) {
    const MoneyRange delivery = per_kg_range(*offer.delivery_basis, offer.assumed_weight);
    delivered.least += delivery.least;
    delivered.most += delivery.most;
  }
  const Losses least = with_ways(offer, [](const LossRange& loss) { return loss.least; });
  const Losses most = with_ways(offer, [](const LossRange& loss) { return loss.most; });
  return {planned, delivered.least / least.eaten_of_bought(),
          delivered.most / most.eaten_of_bought()};
}

}  // namespace haymow
