#include "scenarios/report_json_offers.h"

#include "scenarios/report_json_curves.h"
#include "scenarios/report_json_parts.h"

namespace haymow {
namespace {

std::string_view name_of(Standing standing) {
  switch (standing) {
    case Standing::indispensable:
      return "indispensable";
    case Standing::interchangeable:
      return "interchangeable";
    case Standing::never:
      return "never";
  }
  return "";
}

Json ranges_of(const RangesWithin& within, const std::vector<Offer>& offers) {
  Json feeds = Json::array();
  for (std::size_t f = 0; f < offers.size(); ++f) {
    const AmountRange& range = within.ranges[f];
    feeds.push_back({{"feed", offers[f].name},
                     {"least_kg_as_fed", range.least.in_kg()},
                     {"most_kg_as_fed", range.most.in_kg()},
                     {"least_kg_put_out", offers[f].put_out(range.least).in_kg()},
                     {"most_kg_put_out", offers[f].put_out(range.most).in_kg()},
                     {"standing", name_of(standing_of(range, offers[f]))}});
  }
  return {{"margin_share", within.margin},
          {"largest_violation", number(within.largest_violation)},
          {"largest_gap_kg", number(within.largest_gap_kg)},
          {"feeds", std::move(feeds)}};
}

Json mix_of(const Alternative& mix, const std::vector<Offer>& offers) {
  const Ration& ration = mix.practical.ration;
  Json to_soak = Json::array();
  for (const Portion& p : ration.portions) {
    if (offers[p.offer].feed.soaking) to_soak.push_back(offers[p.offer].name);
  }
  Json out{{"cost_per_day", ration.cost.in_units()},
           {"dearer_share", mix.dearer},
           {"feeds", feeds_of(ration, offers)},
           {"meals", ration.meals},
           {"to_soak", std::move(to_soak)},
           {"starch_per_meal_g", ration.starch_per_meal_g},
           {"forage_share", ration.forage_share()},
           {"nearest_limit", nullptr},
           {"largest_violation", number(mix.practical.certificate.largest_violation)},
           {"certificate", certificate_of(mix.certificate)}};
  if (mix.nearest) {
    Json row = row_of(mix.nearest->row);
    row["value"] = number(mix.nearest->value);
    row["distance_share"] = mix.nearest->distance;
    out["nearest_limit"] = std::move(row);
  }
  return out;
}

Json swap_of(const Swap& swap, const std::vector<Offer>& offers) {
  Json changes = Json::array();
  for (const AmountChange& change : swap.changes) {
    changes.push_back({{"feed", offers[change.offer].name},
                       {"kg_as_fed_more", change.by.in_kg()},
                       {"kg_put_out_more", offers[change.offer].put_out(change.by).in_kg()}});
  }
  return {{"dearer_per_day", swap.dearer.in_units()},
          {"changes", std::move(changes)},
          {"certificate", certificate_of(swap.certificate)}};
}

Json swaps_of(const SwapsOf& swaps, const std::vector<Offer>& offers) {
  Json single = Json::array();
  for (const SingleSwap& s : swaps.single) {
    Json swap{{"feed", offers[s.by].name}};
    swap.update(swap_of(s.swap, offers));
    single.push_back(std::move(swap));
  }
  Json cheapest = nullptr;
  if (swaps.cheapest) cheapest = swap_of(*swaps.cheapest, offers);
  return {{"feed", offers[swaps.offer].name},
          {"kg_as_fed_taken_out", swaps.taken_out.in_kg()},
          {"kg_put_out_taken_out", offers[swaps.offer].put_out(swaps.taken_out).in_kg()},
          {"cheapest", std::move(cheapest)},
          {"by_one_feed", std::move(single)}};
}

}  // namespace

Json choice_json(const OffersOptions& options) {
  Json with = Json::array();
  for (const auto& [feed, least] : options.with) {
    with.push_back({{"feed", feed}, {"kg_as_fed", least.in_kg()}});
  }
  return {{"count", options.alternatives.count},
          {"margin_share", options.alternatives.margin},
          {"without", options.without},
          {"with", std::move(with)},
          {"from_price_list", options.only.has_value()}};
}

void add_offers(Json& horse, const OffersAnswer& answer) {
  const std::vector<Offer>& offers = answer.answer.question.offers;
  const auto& free = answer.cost_of_free_choice;
  horse["cost_per_day_of_free_choice"] = free ? Json(free->in_units()) : Json(nullptr);
  horse["ranges"] = Json::array();
  for (const RangesWithin& within : answer.ranges) {
    horse["ranges"].push_back(ranges_of(within, offers));
  }
  horse["mixes"] = Json::array();
  for (const Alternative& mix : answer.mixes) horse["mixes"].push_back(mix_of(mix, offers));
  horse["swaps"] = Json::array();
  for (const SwapsOf& swaps : answer.swaps) horse["swaps"].push_back(swaps_of(swaps, offers));
  add_curves(horse, answer.curves, answer.answer);
}

}  // namespace haymow
