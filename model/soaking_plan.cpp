#include "model/soaking_plan.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace haymow {
namespace {

constexpr double minutes_in_hour = 60.0;
constexpr double room_to_stir = 1.25;

std::vector<PutIn> times_for(const std::vector<TimeOfDay>& feedings, int meals,
                             const Soaking& how) {
  std::vector<PutIn> times;
  // Times that do not say which meal is which are no times.
  if (static_cast<int>(feedings.size()) != meals) return times;
  for (const TimeOfDay fed : feedings) {
    const double keeps_minutes = soaked_keeps_hours * minutes_in_hour;
    PutIn put_in{fed, shifted(fed, -how.cold_minutes - keeps_minutes),
                 shifted(fed, -how.cold_minutes), std::nullopt, shifted(fed, keeps_minutes)};
    if (how.warm_minutes) put_in.warm = shifted(fed, -*how.warm_minutes);
    times.push_back(put_in);
  }
  return times;
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

SoakingPlan soaking_plan(const RationQuestion& question, const Ration& ration) {
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
    feed.dry_a_meal = portion.put_out / ration.meals;
    feed.water_litres_a_meal = feed.dry_a_meal.in_kg() * feed.how.water_parts;
    feed.bucket_litres = bucket_litres(feed.dry_a_meal, feed.water_litres_a_meal);
    feed.times = times_for(question.horse.feeding_times, ration.meals, feed.how);
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
