#include "scenarios/report_json_practical.h"

#include <algorithm>

#include "scenarios/report_amounts.h"

namespace haymow {
namespace {

Json steps_of(const HorseAnswer& answer) {
  const PracticalRation& practical = *answer.practical;
  Json out = Json::array();
  for (const Portion& p : practical.ration.portions) {
    if (answer.question.grazes(p.offer)) continue;
    const Offer& offer = answer.question.offers[p.offer];
    const KgAsFed step = practical.weighings[p.offer].step;
    const bool whole = offer.fed_in && step == offer.fed_in->weight;
    out.push_back({{"feed", offer.name},
                   {"steps", practical.steps[p.offer]},
                   {"step_kg_put_out", step.in_kg()},
                   {"fed_in", whole ? Json(offer.fed_in->word) : Json(nullptr)}});
  }
  return out;
}

Json meals_of(const HorseAnswer& answer) {
  Json out = Json::array();
  for (const Meal& meal : answer.practical->meals) {
    Json feeds = Json::array();
    for (const MealPortion& p : meal.portions) {
      const Offer& offer = answer.question.offers[p.offer];
      feeds.push_back({{"feed", offer.name},
                       {"steps", p.steps},
                       {"kg_put_out", p.put_out.in_kg()},
                       {"kg_as_fed", offer.eaten(p.put_out).in_kg()}});
    }
    out.push_back({{"meal", meal.name},
                   {"share", meal.share},
                   {"feeds", std::move(feeds)},
                   {"kg_dry_matter", meal.dry_matter.in_kg()},
                   {"starch_g", meal.starch_g}});
  }
  return out;
}

Json lots_of(const HorseAnswer& answer) {
  const PracticalRation& practical = *answer.practical;
  Json out = Json::array();
  for (const Portion& p : practical.ration.portions) {
    const Offer& offer = answer.question.offers[p.offer];
    if (!offer.feed.is_long_forage() || offer.feed.group == FeedGroup::grass) continue;
    Json lots = Json::array();
    for (const int steps : forage_lots(practical.steps[p.offer], practical.ration.meals)) {
      lots.push_back(practical.weighings[p.offer].step.in_kg() * steps);
    }
    out.push_back({{"feed", offer.name}, {"kg_put_out", std::move(lots)}});
  }
  return out;
}

}  // namespace

void add_steps_and_meals(Json& out, const HorseAnswer& answer) {
  const PracticalRation& practical = *answer.practical;
  // Rounding can put the cost a hair below the bound.
  out["gap"] = std::max(0.0, practical.certificate.relative_gap);
  out["search_gap"] = practical.search_gap ? Json(*practical.search_gap) : Json(nullptr);
  out["step_size"] = name_of(practical.choices.fineness);
  out["portions"] = name_of(practical.choices.portions);
  out["most_bucket_feeds"] = practical.choices.bucket_feeds;
  out["most_bucket_feeds_asked"] = bucket_feeds_asked(answer.question.horse);
  out["weighed"] = steps_of(answer);
  out["meals"] = meals_of(answer);
  out["forage_lots"] = lots_of(answer);
}

}  // namespace haymow
