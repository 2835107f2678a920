#include "model/soaking_plan.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "model/meal_shares.h"

namespace haymow {
namespace {

constexpr double minutes_in_hour = 60.0;
constexpr double room_to_stir = 1.25;

std::vector<PutIn> times_for(const std::vector<TimeOfDay>& feedings, const SoakedFeed& feed) {
  std::vector<PutIn> times;
  // Times that do not say which meal is which are no times.
  if (feedings.size() != feed.dry_by_meal.size()) return times;
  const double keeps_minutes = soaked_keeps_hours * minutes_in_hour;
  for (std::size_t m = 0; m < feedings.size(); ++m) {
    const TimeOfDay fed = feedings[m];
    if (feed.dry_by_meal[m] < least_portion) continue;
    PutIn put_in{fed,
                 feed.dry_by_meal[m],
                 shifted(fed, -feed.how.cold_minutes - keeps_minutes),
                 shifted(fed, -feed.how.cold_minutes),
                 std::nullopt,
                 shifted(fed, keeps_minutes)};
    if (feed.how.warm_minutes) put_in.warm = shifted(fed, -*feed.how.warm_minutes);
    times.push_back(put_in);
  }
  return times;
}

// As the buckets are printed; else each meal's share.
std::vector<KgAsFed> dry_by_meal(const RationQuestion& question, const Portion& portion,
                                 std::span<const Meal> meals) {
  std::vector<KgAsFed> dry;
  for (const Meal& meal : meals) {
    KgAsFed put_out;
    for (const MealPortion& p : meal.portions) {
      if (p.offer == portion.offer) put_out += p.put_out;
    }
    dry.push_back(put_out);
  }
  if (!meals.empty()) return dry;
  for (const MealShare& meal : meal_shares(question)) dry.push_back(portion.put_out * meal.share);
  return dry;
}

}  // namespace

Soaking soaking_for_teeth() {
  Soaking soaking;
  soaking.water_parts = 3.0;
  soaking.cold_minutes = 60.0;
  soaking.source =
      "understanding-horse-nutrition.com, grass hay cubes; economicalhorsekeeping.com, range "
      "cubes; water: common practice, no source";
  return soaking;
}

double bucket_litres(KgAsFed dry, double water_litres) {
  return std::ceil((dry.in_kg() + water_litres) * room_to_stir - 1e-9);
}

bool SoakedFeed::is_alike() const {
  return std::all_of(dry_by_meal.begin(), dry_by_meal.end(), [&](KgAsFed dry) {
    return std::abs((dry - dry_a_meal).in_kg()) < least_portion.in_kg();
  });
}

SoakingPlan soaking_plan(const RationQuestion& question, const Ration& ration,
                         std::span<const Meal> meals) {
  SoakingPlan plan;
  const bool toothless = question.horse.health.contains(HealthState::cannot_chew);
  for (const Portion& portion : ration.portions) {
    const Offer& offer = question.offers[portion.offer];
    if (offer.soaked_minutes) {
      plan.hay.push_back({portion.offer, portion.put_out, *offer.soaked_minutes, offer.soaking_loss,
                          sugar_lost_by_soaking(*offer.soaked_minutes)});
      continue;
    }
    const bool for_teeth = !offer.feed.soaking && toothless && offer.feed.has(FeedTrait::hard);
    if (!offer.feed.soaking && !for_teeth) continue;
    SoakedFeed feed;
    feed.offer = portion.offer;
    feed.how = for_teeth ? soaking_for_teeth() : *offer.feed.soaking;
    feed.for_the_teeth = for_teeth;
    feed.dry_by_meal = dry_by_meal(question, portion, meals);
    feed.dry_a_meal = *std::max_element(feed.dry_by_meal.begin(), feed.dry_by_meal.end());
    feed.water_litres_a_meal = feed.litres_for(feed.dry_a_meal);
    feed.bucket_litres = bucket_litres(feed.dry_a_meal, feed.water_litres_a_meal);
    feed.times = times_for(question.horse.feeding_times, feed);
    plan.feeds.push_back(std::move(feed));
  }
  return plan;
}

std::vector<YardSoaking> soaking_of_yard(const std::vector<SoakingPlan>& plans) {
  std::map<std::size_t, YardSoaking> by_offer;
  for (const SoakingPlan& plan : plans) {
    for (const SoakedFeed& feed : plan.feeds) {
      YardSoaking& yard = by_offer[feed.offer];
      yard.offer = feed.offer;
      yard.dry += feed.dry_a_meal;
      yard.water_litres += feed.water_litres_a_meal;
      yard.bucket_litres = bucket_litres(yard.dry, yard.water_litres);
    }
    for (const SoakedHay& hay : plan.hay) {
      YardSoaking& yard = by_offer[hay.offer];
      yard.offer = hay.offer;
      yard.hay = true;
      yard.dry += hay.dry_a_day;
    }
  }
  std::vector<YardSoaking> all;
  all.reserve(by_offer.size());
  for (const auto& [offer, yard] : by_offer) all.push_back(yard);
  return all;
}

}  // namespace haymow
