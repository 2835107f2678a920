#include "scenarios/report_json_curves.h"

#include <utility>

namespace haymow {
namespace {

Json feeds_fed(const std::vector<Offer>& offers, const std::vector<double>& amounts) {
  Json feeds = Json::array();
  for (std::size_t j = 0; j < offers.size(); ++j) {
    if (amounts[j] < least_portion.in_kg()) continue;
    feeds.push_back({{"feed", offers[j].name},
                     {"kg_as_fed", number(amounts[j])},
                     {"kg_put_out", number(offers[j].put_out(KgAsFed{amounts[j]}).in_kg())}});
  }
  return feeds;
}

std::string_view name_of(FeedUse use) {
  switch (use) {
    case FeedUse::up_to_a_price:
      return "up_to_a_price";
    case FeedUse::at_any_price:
      return "at_any_price";
    case FeedUse::at_no_price:
      return "at_no_price";
  }
  return "";
}

Json value_of(const PricePath& path) {
  if (!path.value) return nullptr;
  const FeedValue& value = *path.value;
  const bool priced = value.use == FeedUse::up_to_a_price;
  Json changes = Json::array();
  for (const AmountChange& change : value.makes_way) {
    changes.push_back(
        {{"feed", path.offers[change.offer].name}, {"kg_as_fed_more", number(change.by.in_kg())}});
  }
  Json payments = Json::array();
  for (const Payment& p : value.payments) {
    payments.push_back(
        {{"id", path.formulation.rows[p.row].id}, {"per_kg_eaten", number(p.per_kg)}});
  }
  const double pack = path.asked.pack.holds.in_kg();
  return {
      {"use", name_of(value.use)},
      {"fed_below_per_kg", priced ? number(value.fed_below.in_units()) : Json(nullptr)},
      {"fed_below_per_pack", priced ? number(pack * value.fed_below.in_units()) : Json(nullptr)},
      {"a_kg_eaten_changes", std::move(changes)},
      {"payments", std::move(payments)}};
}

Json price_json(const PricePath& path) {
  const double pack = path.asked.pack.holds.in_kg();
  const Offer& offer = path.offers[path.offer];
  Json steps = Json::array();
  for (std::size_t s = 0; s < path.steps.size(); ++s) {
    const PriceStep& step = path.steps[s];
    steps.push_back({{"price_per_kg_from", number(step.from.in_units())},
                     {"price_per_kg_to", number(step.to.in_units())},
                     {"price_per_pack_from", number(pack * step.from.in_units())},
                     {"price_per_pack_to", number(pack * step.to.in_units())},
                     {"cost_per_day_from", number(step.cost_from.in_units())},
                     {"cost_per_day_to", number(step.cost_to.in_units())},
                     {"feeds", feeds_fed(path.offers, step.amounts)},
                     {"certificate", certificate_of(path.certificates[s])}});
  }
  return {{"feed", offer.name},
          {"on_offer", !path.asked.supposed.has_value()},
          {"pack", path.asked.pack.words},
          {"kg_in_pack", number(pack)},
          {"price_now_per_kg",
           path.asked.supposed ? Json(nullptr) : number(offer.price_per_kg.in_units())},
          {"worth", value_of(path)},
          {"steps", std::move(steps)}};
}

Json point_json(const LimitPath& path, const FrontierCorner& corner,
                const std::vector<Offer>& offers) {
  Json point{{"bound", number(corner.bound)}, {"cost_per_day", number(corner.cost.in_units())}};
  if (path.need) point["share_of_need"] = number(corner.bound / *path.need);
  point["feeds"] = feeds_fed(offers, corner.amounts);
  return point;
}

Json count_json(const BucketCount& count, const std::vector<Offer>& offers) {
  Json out{{"most_bucket_feeds", count.most},
           {"cost_per_day", nullptr},
           {"feeds", Json::array()},
           {"largest_violation", nullptr},
           {"relative_gap", nullptr}};
  if (!count.practical) return out;
  out["cost_per_day"] = number(count.practical->ration.cost.in_units());
  out["feeds"] = feeds_of(count.practical->ration, offers);
  out["largest_violation"] = number(count.practical->certificate.largest_violation);
  out["relative_gap"] = number(count.practical->certificate.relative_gap);
  return out;
}

Json limit_json(const LimitPath& path, const std::vector<Offer>& offers) {
  Json out{{"name", path.asked.name}};
  if (path.asked.id.empty()) {
    out["bucket_feeds"] = Json::array();
    for (const BucketCount& count : path.counts) {
      out["bucket_feeds"].push_back(count_json(count, offers));
    }
    return out;
  }
  out["limit"] = nullptr;
  if (!path.limit) return out;
  out["limit"] = row_of(path.limit->row);
  if (!path.limit->in_force) out["limit"]["bound"] = nullptr;
  out["in_force"] = path.limit->in_force;
  out["value_now"] = number(path.limit->now);
  out["straight_between_corners"] = path.frontier.straight;
  out["no_ration_beyond"] = number(path.frontier.ends_at);
  out["corners"] = Json::array();
  for (std::size_t k = 0; k < path.frontier.corners.size(); ++k) {
    Json corner = point_json(path, path.frontier.corners[k], offers);
    corner["certificate"] = certificate_of(path.certificates[k]);
    out["corners"].push_back(std::move(corner));
  }
  out["points"] = Json::array();
  for (const FrontierCorner& point : path.frontier.points) {
    out["points"].push_back(
        {{"bound", number(point.bound)}, {"cost_per_day", number(point.cost.in_units())}});
  }
  return out;
}

}  // namespace

void add_curves(Json& horse, const HorseCurves& curves, const HorseAnswer& answer) {
  horse["price_curves"] = Json::array();
  horse["limit_curves"] = Json::array();
  horse["left_out"] = Json::array();
  if (!curves.proven) return;
  for (const PricePath& path : curves.prices) horse["price_curves"].push_back(price_json(path));
  for (const LimitPath& path : curves.limits) {
    horse["limit_curves"].push_back(limit_json(path, answer.question.offers));
  }
  for (const PricePath& path : curves.unused) {
    horse["left_out"].push_back({{"feed", path.asked.feed}, {"worth", value_of(path)}});
  }
}

}  // namespace haymow
