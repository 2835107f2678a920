// What each feed on offer really costs, in text and in JSON.
#include <fmt/format.h>

#include <algorithm>
#include <string>

#include "scenarios/feed_costs.h"
#include "scenarios/price_arithmetic.h"
#include "scenarios/report.h"
#include "scenarios/report_json_prices.h"
#include "scenarios/report_parts.h"
#include "scenarios/wording.h"

namespace haymow {
namespace {

/// The columns that only some files need.
struct Columns {
  bool delivered = false;
  bool lost = false;
};

Columns columns_for(const std::vector<Offer>& offers) {
  Columns columns;
  for (const Offer& offer : offers) {
    columns.delivered |= offer.delivery_basis.has_value();
    columns.lost |= offer.losses().eaten_of_bought() < 1.0;
  }
  return columns;
}

std::vector<std::string> row_for(const FeedCost& cost, const Offer& offer, const Columns& columns,
                                 const Wording& words) {
  const auto mass_price = [&](Money m) { return Wording::money(words.per_mass(m)); };
  const auto optional_price = [&](const std::optional<Money>& m) {
    return m ? Wording::money(m->in_units()) : std::string("-");
  };
  std::vector<std::string> row{cost.feed, mass_price(cost.per_kg)};
  if (columns.delivered) row.push_back(mass_price(offer.cost_per_kg_delivered()));
  if (columns.lost) {
    row.push_back(fmt::format("{:.0f} %", 100.0 * (1.0 - offer.losses().eaten_of_bought())));
  }
  for (std::string cell :
       {mass_price(cost.per_kg_eaten), mass_price(cost.per_kg_dry_matter),
        optional_price(cost.per_megajoule), optional_price(cost.per_100_g_protein)}) {
    row.push_back(std::move(cell));
  }
  return row;
}

Section sums_section(const Scenario& scenario, const Wording& words, bool all) {
  Section section{"How the prices come about", {}, {}};
  for (const Offer& offer : scenario.stable.offers) {
    if (!all && !has_more_than_a_price(offer)) continue;
    section.sentences.push_back(
        fmt::format("- {}: {}.", offer.name, price_arithmetic(offer, words)));
  }
  return section;
}

Json way_json(double share, const std::optional<HandlingWay>& way) {
  Json out{{"share", share}};
  if (way) {
    out["way"] = way->words;
    out["least_share"] = way->loss.least;
    out["most_share"] = way->loss.most;
    out["source"] = way->source;
  }
  return out;
}

Json basis_json(const PriceBasis& basis) {
  return {{"written", basis.written},
          {"money", basis.money.in_units()},
          {"kg_as_fed", basis.amount.in_kg()},
          {"per_kg", basis.per_kg().in_units()},
          {"weight_assumed", basis.assumed}};
}

}  // namespace

Report prices_report(const Scenario& scenario, const ReportOptions& options) {
  const Wording words(options.units, scenario.stable.money);
  const std::vector<Offer>& offers = scenario.stable.offers;
  Report report;
  report.title = fmt::format("What each feed really costs, in {}, the cheapest energy first",
                             scenario.stable.money);
  Section section{"", Table{}, {}};
  const std::string kg = options.units == Units::us ? "a lb" : "a kg";
  const Columns columns = columns_for(offers);
  std::vector<std::string>& headings = section.table->headings;
  headings = {"feed", kg};
  if (columns.delivered) headings.emplace_back("delivered");
  if (columns.lost) headings.emplace_back("lost");
  for (std::string heading :
       {kg + " eaten", kg + " dry", std::string("an MJ"), std::string("100 g protein")}) {
    headings.push_back(std::move(heading));
  }
  for (const FeedCost& cost : feed_costs(scenario)) {
    section.table->rows.push_back(row_for(cost, offers[cost.offer], columns, words));
  }
  section.sentences.emplace_back(
      "Eaten: after what the store, soaking and the feeder lose. Dry: without water. A dash: none "
      "of it, or unknown. The cheapest megajoule is not the best feed: `haymow ration` weighs "
      "everything at once.");
  Report::Part part{"", true, {std::move(section)}};
  part.sections.push_back(sums_section(scenario, words, options.verbose));
  part.sections.push_back(assumptions(scenario));
  report.parts.push_back(std::move(part));
  return report;
}

Json prices_of(const Scenario& scenario) {
  const auto money = [](const std::optional<Money>& m) {
    return m ? Json(m->in_units()) : Json(nullptr);
  };
  const Wording words(Units::metric, scenario.stable.money);
  Json prices = Json::array();
  for (const FeedCost& cost : feed_costs(scenario)) {
    const Offer& offer = scenario.stable.offers[cost.offer];
    const MoneyRange eaten = cost_per_kg_eaten_range(offer);
    prices.push_back({{"feed", cost.feed},
                      {"price_per_kg", cost.per_kg.in_units()},
                      {"cost_per_kg_eaten", cost.per_kg_eaten.in_units()},
                      {"cost_per_kg_dry_matter", cost.per_kg_dry_matter.in_units()},
                      {"cost_per_megajoule", money(cost.per_megajoule)},
                      {"cost_per_100_g_protein", money(cost.per_100_g_protein)},
                      {"delivery_per_kg", offer.delivery_per_kg.in_units()},
                      {"waste", way_json(offer.waste, offer.fed_from)},
                      {"storage_loss", way_json(offer.storage_loss, offer.stored)},
                      {"soaking_loss", way_json(offer.soaking_loss, std::nullopt)},
                      {"cost_per_kg_eaten_least", eaten.least.in_units()},
                      {"cost_per_kg_eaten_most", eaten.most.in_units()},
                      {"arithmetic", price_arithmetic(offer, words)}});
    if (offer.price_basis) prices.back()["price"] = basis_json(*offer.price_basis);
    if (offer.delivery_basis) prices.back()["delivery"] = basis_json(*offer.delivery_basis);
    if (const auto& assumed = offer.assumed_weight) {
      prices.back()["pack_not_weighed"] = {{"pack", assumed->pack},
                                           {"kg_assumed", assumed->taken.in_kg()},
                                           {"kg_least", assumed->least.in_kg()},
                                           {"kg_most", assumed->most.in_kg()},
                                           {"source", assumed->source}};
    }
  }
  return prices;
}

}  // namespace haymow
