// What of a ration is soaked: how much water, which bucket, when to put it in, and
// hay soaked before it is fed. Says nothing of what to feed: that is decided.
#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "model/divide_meals.h"
#include "model/hay_soaking.h"
#include "model/ration.h"
#include "model/time_of_day.h"

namespace haymow {

/// Soaked feed is fed within so long of being ready; in hot, humid weather it can
/// ferment in two hours (EQUUS, February 2015; thehorse.com/1101343).
inline constexpr double soaked_keeps_hours = 12.0;
inline constexpr double soaked_keeps_hours_when_hot = 2.0;

/// When to put a feed into water for one feeding time.
struct PutIn {
  TimeOfDay fed;
  KgAsFed dry;                 // of this meal
  Moment earliest;             // in cold water; sooner, it would not keep till it is fed
  Moment cold;                 // the latest; day 0 is the day it is fed
  std::optional<Moment> warm;  // absent: not in warm water
  Moment use_by;               // when what is left over is thrown away
};

struct SoakedFeed {
  std::size_t offer = 0;             // index into the question's offers
  std::vector<KgAsFed> dry_by_meal;  // one a meal, none where the meal has none
  KgAsFed dry_a_meal;                // the most of them: what the bucket has to hold
  double water_litres_a_meal = 0.0;  // for that; a litre of water weighs a kilogram
  double bucket_litres = 0.0;        // least size for one meal
  Soaking how;
  bool for_the_teeth = false;  // hard feed, soaked because this horse cannot chew
  std::vector<PutIn> times;    // one a meal with some; empty where the times are not known

  /// True when every meal has as much of it.
  [[nodiscard]] bool is_alike() const;
  [[nodiscard]] double litres_for(KgAsFed dry) const { return dry.in_kg() * how.water_parts; }
};

struct SoakedHay {
  std::size_t offer = 0;
  KgAsFed dry_a_day;  // weighed before it goes into the water
  double minutes = 0.0;
  double dry_matter_lost = 0.0;  // share, planned and made up
  SugarLoss published_sugar_loss;
};

struct SoakingPlan {
  std::vector<SoakedFeed> feeds;
  std::vector<SoakedHay> hay;
};

/// What of `ration` the question's horse gets soaked. Feeds with their own soaking;
/// hard feeds for a horse that cannot chew; hay that the keeper soaks. `meals`: the
/// buckets of the day as they are printed; empty where the ration is to the gram, and
/// then each meal has its share.
[[nodiscard]] SoakingPlan soaking_plan(const RationQuestion& question, const Ration& ration,
                                       std::span<const Meal> meals);

/// The bucket for feed and water together, litres, rounded up: soaked feed fills
/// about a litre a kilogram, and a quarter more leaves room to stir (common
/// practice, no source).
[[nodiscard]] double bucket_litres(KgAsFed dry, double water_litres);

/// How hard feed is soaked for a horse that cannot chew: cubes for about an hour,
/// pellets to a crumble (understanding-horse-nutrition.com, economicalhorsekeeping.com);
/// three parts of water: common practice, no source.
[[nodiscard]] Soaking soaking_for_teeth();

/// One feed for all horses at one feeding (the largest of each horse), and one hay for all in a
/// day.
struct YardSoaking {
  std::size_t offer = 0;
  bool hay = false;
  KgAsFed dry;                // feed: at one feeding; hay: a day
  double water_litres = 0.0;  // of hay nobody measures it: 0
  double bucket_litres = 0.0;
};
/// The sum over plans that share one list of offers, in the order of the offers.
[[nodiscard]] std::vector<YardSoaking> soaking_of_yard(const std::vector<SoakingPlan>& plans);

}  // namespace haymow
