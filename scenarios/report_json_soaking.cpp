#include "scenarios/report_json_soaking.h"

#include "scenarios/report_soaking.h"

namespace haymow {
namespace {

Json moment_of(const Moment& moment) {
  return {{"time", clock_time(moment.at)}, {"day", moment.day}};
}

Json put_in_of(const PutIn& put_in, const SoakedFeed& feed) {
  return {{"fed_at", clock_time(put_in.fed)},
          {"kg_dry", put_in.dry.in_kg()},
          {"water_litres", feed.litres_for(put_in.dry)},
          {"put_in_cold_earliest", moment_of(put_in.earliest)},
          {"put_in_cold", moment_of(put_in.cold)},
          {"put_in_warm", put_in.warm ? moment_of(*put_in.warm) : Json(nullptr)},
          {"use_by", moment_of(put_in.use_by)}};
}

Json feed_of(const SoakedFeed& feed, const Offer& offer) {
  Json times = Json::array();
  for (const PutIn& put_in : feed.times) times.push_back(put_in_of(put_in, feed));
  Json by_meal = Json::array();
  for (const KgAsFed dry : feed.dry_by_meal) by_meal.push_back(dry.in_kg());
  return {{"feed", offer.name},
          {"kg_dry_by_meal", std::move(by_meal)},
          {"kg_dry_per_meal", feed.dry_a_meal.in_kg()},
          {"water_kg_per_meal", feed.water_litres_a_meal},
          {"water_litres_per_meal", feed.water_litres_a_meal},
          {"bucket_litres", feed.bucket_litres},
          {"cold_minutes", feed.how.cold_minutes},
          {"warm_minutes", feed.how.warm_minutes ? Json(*feed.how.warm_minutes) : Json(nullptr)},
          {"keeps_hours", soaked_keeps_hours},
          {"keeps_hours_when_hot", soaked_keeps_hours_when_hot},
          {"because_cannot_chew", feed.for_the_teeth},
          {"times", std::move(times)}};
}

Json hay_of(const SoakedHay& hay, const Offer& offer) {
  return {{"feed", offer.name},
          {"kg_dry_per_day", hay.dry_a_day.in_kg()},
          {"minutes", hay.minutes},
          {"dry_matter_lost_share", hay.dry_matter_lost},
          {"published_sugar_loss_least_percent", hay.published_sugar_loss.least_percent},
          {"published_sugar_loss_most_percent", hay.published_sugar_loss.most_percent},
          {"published_sugar_loss_source", hay.published_sugar_loss.source},
          {"sugar_loss_credited", false}};
}

}  // namespace

Json soaking_of(const HorseAnswer& answer) {
  const SoakingPlan plan = soaking_plan_of(answer);
  const std::vector<Offer>& offers = answer.question.offers;
  Json out{{"feeds", Json::array()}, {"hay", Json::array()}};
  for (const SoakedFeed& feed : plan.feeds) {
    out["feeds"].push_back(feed_of(feed, offers[feed.offer]));
  }
  for (const SoakedHay& hay : plan.hay) out["hay"].push_back(hay_of(hay, offers[hay.offer]));
  return out;
}

Json yard_soaking_of(const std::vector<HorseAnswer>& answers) {
  Json out{{"feeds", Json::array()}, {"hay", Json::array()}};
  for (const YardSoaking& yard : soaking_of_yard(soaking_plans(answers))) {
    const std::string& name = answers.front().question.offers[yard.offer].name;
    if (yard.hay) {
      out["hay"].push_back({{"feed", name}, {"kg_dry_per_day", yard.dry.in_kg()}});
    } else {
      out["feeds"].push_back({{"feed", name},
                              {"kg_dry_per_meal", yard.dry.in_kg()},
                              {"water_litres_per_meal", yard.water_litres},
                              {"bucket_litres", yard.bucket_litres}});
    }
  }
  return out;
}

}  // namespace haymow
